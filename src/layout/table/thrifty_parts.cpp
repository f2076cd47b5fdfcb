#include "layout/table/thrifty_parts.hpp"

#include "base/wide.hpp"
#include "layout/model/densest.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

std::vector<std::int32_t> indices(const Raster& raster, Length limit) {
    std::vector<std::int32_t> index(static_cast<std::size_t>(limit) + 1, -1);
    for (std::int32_t i = 0; i < raster.size(); ++i)
        index[static_cast<std::size_t>(raster.at(i))] = i;
    return index;
}

/// For a part of each raster size: how much of the rest of the sheet's side no items can fill.
std::vector<Length> gaps(const Raster& raster, Length limit) {
    std::vector<Length> gap;
    for (std::int32_t i = 0; i < raster.size(); ++i) {
        const Length rest = limit - raster.at(i);
        gap.push_back(rest - raster.at(raster.below(rest)));
    }
    return gap;
}

} // namespace

bool ThriftyParts::suits(const Instance& instance) {
    if (instance.items.empty()) return false;
    const Item& item = densest(instance);
    const base::Wide all = base::Wide(item.value) * instance.sheets.front().area();
    return item.value > 0 && all < INT64_MAX / 4 && all / item.area() < INT32_MAX;
}

ThriftyParts::ThriftyParts(const Instance& instance, const Grid& grid)
    : instance_(instance), grid_(grid), index_x_(indices(grid.x, instance.sheets.front().width)),
      index_y_(indices(grid.y, instance.sheets.front().height)),
      gap_x_(gaps(grid.x, instance.sheets.front().width)),
      gap_y_(gaps(grid.y, instance.sheets.front().height)),
      value_(static_cast<Value>(densest(instance).value)), area_(densest(instance).area()) {
    lay_items();
}

void ThriftyParts::lay_items() {
    const Sheet& sheet = instance_.sheets.front();
    items_.resize(static_cast<std::size_t>(grid_.y.size()));
    for (const Item& item : instance_.items)
        for (const bool turned : {false, true}) {
            const Length w = turned ? item.height : item.width;
            const Length h = turned ? item.width : item.height;
            if ((turned && !item.turns) || w > sheet.width || h > sheet.height) continue;
            const auto y = static_cast<std::size_t>(index_y_[static_cast<std::size_t>(h)]);
            items_[y].push_back(
                {index_x_[static_cast<std::size_t>(w)], static_cast<Value>(item.value)});
        }
    for (auto& line : items_)
        std::sort(line.begin(), line.end(), [](const Found& a, const Found& b) {
            return a.x != b.x ? a.x < b.x : a.value < b.value;
        });
}

ThriftyParts::Value ThriftyParts::item(std::int32_t x, std::int32_t y) const {
    Value best = -1;
    for (const Found& item : items_[static_cast<std::size_t>(y)])
        if (item.x == x) best = item.value; // the best comes last
    return best;
}

ThriftyParts::Part ThriftyParts::best(const std::vector<Part>& parts, Length room) {
    const auto longer =
        std::upper_bound(parts.begin(), parts.end(), room,
                         [](Length length, const Part& part) { return length < part.size; });
    return longer == parts.begin() ? Part{} : *(longer - 1);
}

/// A line across the sheet through the part meets sides whose sum leaves at least gap_x_ empty,
/// along the whole height of the part; the same upwards; the two regions do not overlap.
std::int64_t ThriftyParts::waste_outside(std::int32_t x, std::int32_t y) const {
    const auto bare = std::int64_t{gap_x_[static_cast<std::size_t>(x)]} * grid_.y.at(y)
                      + std::int64_t{gap_y_[static_cast<std::size_t>(y)]} * grid_.x.at(x);
    return value_ * bare;
}

/// Joins parts of this height side by side. The waste of both is recomputed: that is quicker than
/// fetching it from memory.
void ThriftyParts::join_across(std::int32_t y, const Part& part, const std::vector<Part>& others) {
    const Length room = instance_.sheets.front().width - part.size;
    const std::int64_t worth = std::int64_t{value_} * grid_.y.at(y); // of each unit of width, full
    const std::int64_t allowed = each_ - (worth * part.size - part.value * area_);
    const std::int32_t* index = index_x_.data() + part.size;
    for (const Part& other : others) {
        if (other.size > room) break;
        if (worth * other.size - other.value * area_ > allowed) continue;
        Value& target = across_[static_cast<std::size_t>(index[other.size])];
        target = std::max(target, part.value + other.value);
    }
    steps_ += static_cast<std::int64_t>(others.size());
}

void ThriftyParts::join_up(std::int32_t x, const Part& part, const std::vector<Part>& others) {
    const Length room = instance_.sheets.front().height - part.size;
    const std::int64_t worth = std::int64_t{value_} * grid_.x.at(x);
    const std::int64_t allowed = each_ - (worth * part.size - part.value * area_);
    const std::int32_t* index = index_y_.data() + part.size;
    for (const Part& other : others) {
        if (other.size > room) break;
        if (worth * other.size - other.value * area_ > allowed) continue;
        found_[static_cast<std::size_t>(index[other.size])].push_back(
            {x, part.value + other.value});
        steps_ += 4;
    }
    steps_ += static_cast<std::int64_t>(others.size());
}

void ThriftyParts::visit(std::int32_t x, std::int32_t y, Value item) {
    const auto here = static_cast<std::size_t>(x);
    const Value left = below_[here - 1];
    const Value below = below_[here];
    const Value across = across_[here];
    const Value up = up_[here];
    const Value value = std::max({left, below, across, up, item});
    steps_ += 5;
    if (value == 0) return;
    const std::int64_t wasted = waste(std::int64_t{grid_.x.at(x)} * grid_.y.at(y), value);
    if (wasted > each_ || wasted + waste_outside(x, y) > all_) {
        below_[here] = 0;
        return;
    }
    below_[here] = value;
    if (value > left) {
        const Part part{grid_.x.at(x), value};
        row_.all.push_back(part);
        if (value > across) row_.primes.push_back(part);
        join_across(y, part, value > across ? row_.all : row_.primes);
    }
    if (value > below) {
        const Part part{grid_.y.at(y), value};
        Parts& column = columns_[here];
        column.all.push_back(part);
        if (value > up) column.primes.push_back(part);
        join_up(x, part, value > up ? column.all : column.primes);
    }
}

/// The first reachable cell from x on, before `end`; else `end`.
std::int32_t ThriftyParts::next_to_visit(std::int32_t x, std::int32_t end) const {
    const Value* below = below_.data();
    const Value* across = across_.data();
    const Value* up = up_.data();
    if (x < end && below[x - 1] != 0) return x;
    for (; x + 8 <= end; x += 8) {
        Value any = 0;
        for (std::int32_t k = x; k < x + 8; ++k) any |= below[k] | across[k] | up[k];
        if (any != 0) break;
    }
    while (x < end && (below[x] | across[x] | up[x]) == 0) ++x;
    return x;
}

void ThriftyParts::run_line(std::int32_t y) {
    const auto line = static_cast<std::size_t>(y);
    std::fill(across_.begin(), across_.end(), 0);
    for (const Found& found : found_[line]) {
        Value& target = up_[static_cast<std::size_t>(found.x)];
        target = std::max(target, found.value);
    }
    auto next = items_[line].begin();
    std::int32_t x = 1;
    while (x < grid_.x.size()) {
        // Most cells before the next item have nothing to hold.
        const std::int32_t end = next == items_[line].end() ? grid_.x.size() : next->x;
        x = next_to_visit(x, end);
        if (x == grid_.x.size()) break;
        Value item = 0;
        for (; next != items_[line].end() && next->x == x; ++next) item = next->value;
        visit(x, y, item);
        ++x;
    }
    for (const Found& found : found_[line]) up_[static_cast<std::size_t>(found.x)] = 0;
    found_[line] = {};
    lines_[line] = row_.all;
    row_.all.clear();
    row_.primes.clear();
    steps_ += grid_.x.size() / 2;
}

bool ThriftyParts::find(std::int64_t each, std::int64_t all, std::int64_t steps) {
    each_ = each;
    all_ = all;
    steps_ = 0;
    const auto width = static_cast<std::size_t>(grid_.x.size());
    const auto height = static_cast<std::size_t>(grid_.y.size());
    below_.assign(width, 0);
    across_.assign(width, 0);
    up_.assign(width, 0);
    found_.assign(height, {});
    lines_.assign(height, {});
    columns_.assign(width, {});
    for (std::int32_t y = 1; y < grid_.y.size(); ++y) {
        run_line(y);
        if (steps_ > steps) return false;
    }
    return true;
}

Block ThriftyParts::leaf(Length width, Length height, Value value) const {
    for (std::size_t i = 0; i < instance_.items.size(); ++i)
        for (const bool turned : {false, true}) {
            const Item& item = instance_.items[i];
            if (item.value != value || (turned && !item.turns)) continue;
            Block block = leaf_of(instance_, static_cast<std::int32_t>(i), turned);
            if (block.width == width && block.height == height) return block;
        }
    return {};
}

Block ThriftyParts::block(Length width, Length height, Value value) const {
    Block item = leaf(width, height, value);
    return item.leaf() ? item : block(width, height);
}

Block ThriftyParts::block(Length width, Length height) const {
    const auto line_of = [&](Length h) -> const std::vector<Part>& {
        return line(grid_.y.below(h));
    };
    const Value value = best(line_of(height), width).value;
    if (value == 0) return {};
    // First down to the least rectangle of this value: the rest is waste.
    for (Length before = -1; before != height;) {
        before = height;
        width = best(line_of(height), width).size;
        const auto& parts = column(index_x_[static_cast<std::size_t>(width)]);
        height = std::find_if(parts.begin(), parts.end(), [&](const Part& part) {
                     return part.value >= value;
                 })->size;
    }
    Block item = leaf(width, height, value);
    if (item.leaf()) return item;
    for (const Part& part : line_of(height)) {
        if (part.size >= width) break;
        const Part rest = best(line_of(height), width - part.size);
        if (part.value + rest.value == value)
            return joined(Along::x, block(part.size, height), block(rest.size, height));
    }
    const auto& parts = column(index_x_[static_cast<std::size_t>(width)]);
    for (const Part& part : parts) {
        if (part.size >= height) break;
        const Part rest = best(parts, height - part.size);
        if (part.value + rest.value == value)
            return joined(Along::y, block(width, part.size), block(width, rest.size));
    }
    return {}; // unreachable: every value has one of these origins
}

} // namespace barrow::layout
