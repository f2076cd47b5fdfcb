#include "layout/columns/strip_pricing.hpp"

#include <algorithm>
#include <cmath>

namespace barrow::layout {
namespace {

Block beside(Along axis, Block first, Block second) {
    return first.width == 0 ? std::move(second) : joined(axis, std::move(first), std::move(second));
}

/// The first point that holds a length; the number of points when none does.
std::size_t first_holding(const Raster& raster, Length length) {
    const std::int32_t below = raster.below(length);
    return static_cast<std::size_t>(raster.at(below) < length ? below + 1 : below);
}

/// For each point that holds the length, from the first on: the point of the remainder.
std::vector<std::int32_t> rests_of(const Raster& raster, Length length) {
    std::vector<std::int32_t> rests;
    for (auto p = static_cast<std::int32_t>(first_holding(raster, length)); p < raster.size(); ++p)
        rests.push_back(raster.below(raster.at(p) - length));
    return rests;
}

} // namespace

StripPricing::StripPricing(const Instance& instance, const Grid& grid) : instance_(instance) {
    ways_.push_back(make_way(Along::x, grid));
    ways_.push_back(make_way(Along::y, grid));
    stacks_.assign(instance.sheets.size(), {});
}

StripPricing::Way StripPricing::make_way(Along axis, const Grid& grid) const {
    Way way;
    way.axis = axis;
    const bool x = axis == Along::x;
    way.along = x ? &grid.x : &grid.y;
    way.across = x ? &grid.y : &grid.x;
    for (std::size_t i = 0; i < instance_.items.size(); ++i) {
        const Item& item = instance_.items[i];
        for (const bool turned : {false, true}) {
            if (turned && !item.turns) continue;
            const Length width = turned ? item.height : item.width;
            const Length height = turned ? item.width : item.height;
            way.sides.push_back(
                {static_cast<std::int32_t>(i), turned, x ? width : height, x ? height : width});
        }
    }
    for (const Side& side : way.sides) way.thickness.push_back(side.across);
    std::sort(way.thickness.begin(), way.thickness.end());
    way.thickness.erase(std::unique(way.thickness.begin(), way.thickness.end()),
                        way.thickness.end());
    for (const Length thickness : way.thickness)
        way.rests_across.push_back(rests_of(*way.across, thickness));
    std::stable_sort(way.sides.begin(), way.sides.end(),
                     [](const Side& a, const Side& b) { return a.along < b.along; });
    for (std::size_t s = 0; s < way.sides.size(); ++s) {
        Side& side = way.sides[s];
        side.first = first_holding(*way.along, side.along);
        side.rests = way.rests.size();
        if (s > 0 && way.sides[s - 1].along == side.along) {
            side.rests = way.sides[s - 1].rests;
            continue;
        }
        const std::vector<std::int32_t> rests = rests_of(*way.along, side.along);
        way.rests.insert(way.rests.end(), rests.begin(), rests.end());
    }
    const auto points = static_cast<std::size_t>(way.along->size());
    way.values.assign(way.thickness.size(), std::vector<std::int64_t>(points, 0));
    way.last.assign(way.thickness.size(), std::vector<std::int32_t>(points, -1));
    return way;
}

double StripPricing::scale_for(const std::vector<double>& prices) const {
    double dearest = 0;
    for (const double price : prices) dearest = std::max(dearest, price);
    return dearest == 0 ? 1 : std::floor(1e9 / dearest);
}

/// Leaves out a column worth no more than a shorter one.
void StripPricing::choose_columns(const Way& way, Length thickness,
                                  const std::vector<std::int64_t>& prices,
                                  const std::vector<std::int64_t>& most) {
    columns_.clear();
    Length longest = 0;
    for (std::size_t s = 0; s < way.sides.size(); ++s) {
        const Side& side = way.sides[s];
        const auto kind = static_cast<std::size_t>(side.item);
        if (side.across > thickness || most[kind] == 0) continue;
        const std::int64_t worth = prices[kind] * (thickness / side.across);
        if (worth <= (columns_.empty() ? 0 : columns_.back().worth)) continue;
        if (!columns_.empty() && side.along == longest) columns_.pop_back();
        columns_.push_back({s, worth});
        longest = side.along;
    }
    steps_ += 2 * static_cast<std::int64_t>(way.sides.size());
}

void StripPricing::fill_strip(Way& way, std::size_t thickness) {
    std::vector<std::int64_t>& values = way.values[thickness];
    std::vector<std::int32_t>& last = way.last[thickness];
    std::fill(values.begin(), values.end(), 0);
    std::fill(last.begin(), last.end(), -1);
    for (const Column& column : columns_) {
        const Side& side = way.sides[column.side];
        const std::int32_t* rest = way.rests.data() + side.rests;
        for (std::size_t p = side.first; p < values.size(); ++p, ++rest) {
            const std::int64_t value = values[static_cast<std::size_t>(*rest)] + column.worth;
            if (value <= values[p]) continue;
            values[p] = value;
            last[p] = static_cast<std::int32_t>(column.side);
        }
    }
    steps_ += 2 * static_cast<std::int64_t>(values.size() * (columns_.size() + 1));
}

void StripPricing::fill(Way& way, const std::vector<std::int64_t>& prices,
                        const std::vector<std::int64_t>& most) {
    for (std::size_t t = 0; t < way.thickness.size(); ++t) {
        choose_columns(way, way.thickness[t], prices, most);
        fill_strip(way, t);
    }
}

StripPricing::Stack StripPricing::stack(const Way& way, const Sheet& sheet) {
    const Length length = way.axis == Along::x ? sheet.width : sheet.height;
    const Length depth = way.axis == Along::x ? sheet.height : sheet.width;
    const auto point = static_cast<std::size_t>(way.along->below(length));
    const Raster& raster = *way.across;
    const auto points = static_cast<std::size_t>(raster.below(depth)) + 1;
    std::vector<std::int64_t> values(points, 0);
    std::vector<std::int32_t> last(points, -1);
    std::int64_t thinner = 0; // greatest value of the thinner strips
    for (std::size_t t = 0; t < way.thickness.size() && way.thickness[t] <= depth; ++t) {
        const std::int64_t worth = way.values[t][point];
        if (worth <= thinner) continue;
        thinner = worth;
        const std::vector<std::int32_t>& rests = way.rests_across[t];
        const std::size_t first = static_cast<std::size_t>(raster.size()) - rests.size();
        for (std::size_t p = first; p < points; ++p) {
            const std::int64_t value = values[static_cast<std::size_t>(rests[p - first])] + worth;
            if (value <= values[p]) continue;
            values[p] = value;
            last[p] = static_cast<std::int32_t>(t);
        }
        steps_ += 2 * static_cast<std::int64_t>(points);
    }
    Stack stack;
    stack.value = values.back();
    for (std::size_t p = points - 1; last[p] >= 0;) {
        const auto t = static_cast<std::size_t>(last[p]);
        stack.strips.push_back(t);
        p = static_cast<std::size_t>(
            raster.below(raster.at(static_cast<std::int32_t>(p)) - way.thickness[t]));
    }
    return stack;
}

void StripPricing::run(const std::vector<std::int64_t>& prices,
                       const std::vector<std::int64_t>& most) {
    steps_ = 0;
    for (Way& way : ways_) fill(way, prices, most);
    for (std::size_t s = 0; s < stacks_.size(); ++s) {
        stacks_[s].clear();
        for (const Way& way : ways_) stacks_[s].push_back(stack(way, instance_.sheets[s]));
    }
}

std::int64_t StripPricing::best(std::size_t sheet) const {
    return std::max(stacks_[sheet][0].value, stacks_[sheet][1].value);
}

Block StripPricing::strip(const Way& way, std::size_t thickness, Length length) const {
    Block strip;
    std::int32_t p = way.along->below(length);
    while (way.last[thickness][static_cast<std::size_t>(p)] >= 0) {
        const Side& side =
            way.sides[static_cast<std::size_t>(way.last[thickness][static_cast<std::size_t>(p)])];
        Block column;
        for (Length n = way.thickness[thickness] / side.across; n > 0; --n)
            column = beside(other(way.axis), std::move(column),
                            leaf_of(instance_, side.item, side.turned));
        strip = beside(way.axis, std::move(strip), std::move(column));
        p = way.along->below(way.along->at(p) - side.along);
    }
    return strip;
}

Block StripPricing::block(std::size_t sheet) const {
    const std::size_t w = stacks_[sheet][0].value >= stacks_[sheet][1].value ? 0 : 1;
    const Way& way = ways_[w];
    const Sheet& from = instance_.sheets[sheet];
    Block block;
    for (const std::size_t t : stacks_[sheet][w].strips)
        block = beside(other(way.axis), std::move(block),
                       strip(way, t, way.axis == Along::x ? from.width : from.height));
    return block;
}

} // namespace barrow::layout
