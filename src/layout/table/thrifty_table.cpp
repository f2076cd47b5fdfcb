#include "layout/table/thrifty_table.hpp"

#include "base/wide.hpp"

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

ThriftyTable::ThriftyTable(const Instance& instance, const Grid& grid)
    : instance_(instance), grid_(grid), index_x_(indices(grid.x, instance.sheets.front().width)),
      index_y_(indices(grid.y, instance.sheets.front().height)),
      gap_x_(gaps(grid.x, instance.sheets.front().width)),
      gap_y_(gaps(grid.y, instance.sheets.front().height)),
      across_(static_cast<std::size_t>(grid.x.size())),
      items_(static_cast<std::size_t>(grid.y.size())),
      columns_(static_cast<std::size_t>(grid.x.size())) {
    for (const Item& item : instance.items) {
        if (base::Wide(item.value) * area_ <= base::Wide(value_) * item.area()) continue;
        value_ = static_cast<Value>(item.value);
        area_ = item.area();
    }
    lay_items();
}

void ThriftyTable::lay_items() {
    const Sheet& sheet = instance_.sheets.front();
    for (const Item& item : instance_.items)
        for (const bool turned : {false, true}) {
            const Length w = turned ? item.height : item.width;
            const Length h = turned ? item.width : item.height;
            if ((turned && !item.turns) || w > sheet.width || h > sheet.height) continue;
            const auto y = static_cast<std::size_t>(index_y_[static_cast<std::size_t>(h)]);
            items_[y].emplace_back(index_x_[static_cast<std::size_t>(w)],
                                   static_cast<Value>(item.value));
        }
    // Of items at the same place the best comes last and is what stays.
    for (auto& line : items_) std::sort(line.begin(), line.end());
}

/// In units of 1/area_, so that it is a whole number.
std::int64_t ThriftyTable::waste(std::int32_t x, std::int32_t y, Value value) const {
    return std::int64_t{value_} * grid_.x.at(x) * grid_.y.at(y) - std::int64_t{value} * area_;
}

/// A line across the sheet through the part meets sides whose sum leaves at least gap_x_ bare, all
/// along the height of the part; likewise upwards; the two regions do not overlap.
std::int64_t ThriftyTable::waste_outside(std::int32_t x, std::int32_t y) const {
    const auto bare = std::int64_t{gap_x_[static_cast<std::size_t>(x)]} * grid_.y.at(y)
                      + std::int64_t{gap_y_[static_cast<std::size_t>(y)]} * grid_.x.at(x);
    return value_ * bare;
}

/// Beside each other in a line of this height. What both waste is worked out anew for each: that
/// is quicker than to fetch it from memory.
void ThriftyTable::join_across(std::int32_t y, const Part& part, const std::vector<Part>& others) {
    const Length room = instance_.sheets.front().width - part.size;
    const std::int64_t worth = std::int64_t{value_} * grid_.y.at(y); // of each unit of width, full
    const std::int64_t allowed = allowance_ - (worth * part.size - part.value * area_);
    const std::int32_t* index = index_x_.data() + part.size;
    for (const Part& other : others) {
        if (other.size > room) break;
        if (worth * other.size - other.value * area_ > allowed) continue;
        Value& target = across_[static_cast<std::size_t>(index[other.size])];
        target = std::max(target, part.value + other.value);
    }
    steps_ += static_cast<std::int64_t>(others.size());
}

void ThriftyTable::join_up(std::int32_t x, const Part& part, const std::vector<Part>& others) {
    const Length room = instance_.sheets.front().height - part.size;
    const std::int64_t worth = std::int64_t{value_} * grid_.x.at(x);
    const std::int64_t allowed = allowance_ - (worth * part.size - part.value * area_);
    const std::int32_t* index = index_y_.data() + part.size;
    for (const Part& other : others) {
        if (other.size > room) break;
        if (worth * other.size - other.value * area_ > allowed) continue;
        Value& target = cells_[cell(x, index[other.size])];
        target = std::max(target, part.value + other.value);
    }
    steps_ += 2 * static_cast<std::int64_t>(others.size());
}

void ThriftyTable::visit(std::int32_t x, std::int32_t y, Value item) {
    const Value left = cells_[cell(x - 1, y)];
    const Value below = cells_[cell(x, y - 1)];
    const Value across = across_[static_cast<std::size_t>(x)];
    Value& value = cells_[cell(x, y)];
    const Value up = value;
    value = std::max({left, below, across, up, item});
    if (value == 0) return;
    if (waste(x, y, value) + waste_outside(x, y) > allowance_) {
        value = 0;
        return;
    }
    if (value > left) {
        const Part part{grid_.x.at(x), value};
        line_.all.push_back(part);
        if (value > across) line_.primes.push_back(part);
        join_across(y, part, value > across ? line_.all : line_.primes);
    }
    if (value > below) {
        const Part part{grid_.y.at(y), value};
        Parts& column = columns_[static_cast<std::size_t>(x)];
        column.all.push_back(part);
        if (value > up) column.primes.push_back(part);
        join_up(x, part, value > up ? column.all : column.primes);
    }
}

/// The first cell from x on, before `end`, to which anything leads; else `end`.
std::int32_t ThriftyTable::next_to_visit(std::int32_t x, std::int32_t y, std::int32_t end) const {
    const Value* here = cells_.data() + cell(0, y);
    const Value* below = cells_.data() + cell(0, y - 1);
    const Value* across = across_.data();
    if (x < end && here[x - 1] != 0) return x;
    for (; x + 8 <= end; x += 8) {
        Value any = 0;
        for (std::int32_t k = x; k < x + 8; ++k) any |= here[k] | below[k] | across[k];
        if (any != 0) break;
    }
    while (x < end && (here[x] | below[x] | across[x]) == 0) ++x;
    return x;
}

bool ThriftyTable::run(std::int64_t steps) {
    cells_.assign(cell(0, grid_.y.size()), 0);
    for (Parts& column : columns_) {
        column.all.clear();
        column.primes.clear();
    }
    for (std::int32_t y = 1; y < grid_.y.size(); ++y) {
        line_.all.clear();
        line_.primes.clear();
        std::fill(across_.begin(), across_.end(), 0);
        const auto& items = items_[static_cast<std::size_t>(y)];
        auto next = items.begin();
        std::int32_t x = 1;
        while (x < grid_.x.size()) {
            // Up to the next item most cells have nothing to hold.
            const std::int32_t end = next == items.end() ? grid_.x.size() : next->first;
            x = next_to_visit(x, y, end);
            if (x == grid_.x.size()) break;
            Value item = 0;
            for (; next != items.end() && next->first == x; ++next) item = next->second;
            visit(x, y, item);
            ++x;
        }
        steps_ += grid_.x.size();
        if (steps_ > steps) return false;
    }
    return true;
}

std::optional<Block> ThriftyTable::fill(std::int64_t share, std::int64_t steps) {
    const Sheet& sheet = instance_.sheets.front();
    const std::int32_t x = grid_.x.size() - 1;
    const std::int32_t y = grid_.y.size() - 1;
    // In 64 bits: a value below 2^31 times an area that is that of one item.
    allowance_ = static_cast<std::int64_t>(base::Wide(value_) * sheet.area() / share);
    steps_ = 0;
    if (!run(steps)) return std::nullopt;
    const Value best = cells_[cell(x, y)];
    if (best == 0 || waste(x, y, best) + waste_outside(x, y) > allowance_) return std::nullopt;
    return block_at(x, y);
}

Block ThriftyTable::block_at(std::int32_t x, std::int32_t y) const {
    const auto at = [&](std::int32_t i, std::int32_t j) { return cells_[cell(i, j)]; };
    const Value value = at(x, y);
    while (at(x - 1, y) == value) --x;
    while (at(x, y - 1) == value) --y;
    for (std::size_t i = 0; i < instance_.items.size(); ++i)
        for (const bool turned : {false, true}) {
            const Item& item = instance_.items[i];
            if (item.value != value || (turned && !item.turns)) continue;
            Block leaf = leaf_of(instance_, static_cast<std::int32_t>(i), turned);
            if (leaf.width == grid_.x.at(x) && leaf.height == grid_.y.at(y)) return leaf;
        }
    for (std::int32_t cut = 1; cut < x; ++cut) {
        const std::int32_t rest =
            index_x_[static_cast<std::size_t>(grid_.x.at(x) - grid_.x.at(cut))];
        if (rest > 0 && at(cut, y) > 0 && at(rest, y) > 0 && at(cut, y) + at(rest, y) == value)
            return joined(Along::x, block_at(cut, y), block_at(rest, y));
    }
    for (std::int32_t cut = 1; cut < y; ++cut) {
        const std::int32_t rest =
            index_y_[static_cast<std::size_t>(grid_.y.at(y) - grid_.y.at(cut))];
        if (rest > 0 && at(x, cut) > 0 && at(x, rest) > 0 && at(x, cut) + at(x, rest) == value)
            return joined(Along::y, block_at(x, cut), block_at(x, rest));
    }
    return {}; // cannot be: every value has one of these origins
}

} // namespace barrow::layout
