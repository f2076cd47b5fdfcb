#include "layout/bound/strip_pricing.hpp"

#include <algorithm>
#include <cmath>

namespace barrow::layout {
namespace {

Block beside(Along axis, Block first, Block second) {
    return first.width == 0 ? std::move(second) : joined(axis, std::move(first), std::move(second));
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
    std::stable_sort(way.sides.begin(), way.sides.end(),
                     [](const Side& a, const Side& b) { return a.across < b.across; });
    for (const Side& side : way.sides)
        if (way.thickness.empty() || way.thickness.back() != side.across)
            way.thickness.push_back(side.across);
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

void StripPricing::fill(Way& way, const std::vector<std::int64_t>& prices,
                        const std::vector<std::int64_t>& most) {
    const Raster& raster = *way.along;
    for (std::size_t t = 0; t < way.thickness.size(); ++t) {
        std::vector<std::int64_t>& values = way.values[t];
        std::vector<std::int32_t>& last = way.last[t];
        std::fill(values.begin(), values.end(), 0);
        std::fill(last.begin(), last.end(), -1);
        for (std::size_t s = 0; s < way.sides.size(); ++s) {
            const Side& side = way.sides[s];
            if (side.across > way.thickness[t]) break;
            const auto kind = static_cast<std::size_t>(side.item);
            if (prices[kind] == 0 || most[kind] == 0) continue;
            const std::int64_t worth = prices[kind] * (way.thickness[t] / side.across);
            std::size_t rest = 0;
            auto p = static_cast<std::size_t>(raster.below(side.along));
            if (raster.at(static_cast<std::int32_t>(p)) < side.along) ++p;
            steps_ += 2 * static_cast<std::int64_t>(values.size());
            for (; p < values.size(); ++p) {
                const Length room = raster.at(static_cast<std::int32_t>(p)) - side.along;
                while (raster.at(static_cast<std::int32_t>(rest + 1)) <= room) ++rest;
                if (values[rest] + worth <= values[p]) continue;
                values[p] = values[rest] + worth;
                last[p] = static_cast<std::int32_t>(s);
            }
        }
        // A strip not worth more than a shorter one is that one.
        for (std::size_t p = 1; p < values.size(); ++p)
            if (values[p] < values[p - 1]) {
                values[p] = values[p - 1];
                last[p] = last[p - 1];
            }
    }
}

StripPricing::Stack StripPricing::stack(const Way& way, const Sheet& sheet) const {
    const Length length = way.axis == Along::x ? sheet.width : sheet.height;
    const Length depth = way.axis == Along::x ? sheet.height : sheet.width;
    const auto point = static_cast<std::size_t>(way.along->below(length));
    const Raster& raster = *way.across;
    const auto points = static_cast<std::size_t>(raster.below(depth)) + 1;
    std::vector<std::int64_t> values(points, 0);
    std::vector<std::int32_t> last(points, -1);
    for (std::size_t p = 1; p < points; ++p) {
        values[p] = values[p - 1];
        const Length here = raster.at(static_cast<std::int32_t>(p));
        for (std::size_t t = 0; t < way.thickness.size() && way.thickness[t] <= here; ++t) {
            const auto rest = static_cast<std::size_t>(raster.below(here - way.thickness[t]));
            const std::int64_t value = values[rest] + way.values[t][point];
            if (value <= values[p]) continue;
            values[p] = value;
            last[p] = static_cast<std::int32_t>(t);
        }
    }
    Stack stack;
    stack.value = values.back();
    for (std::size_t p = points - 1; p > 0;) {
        if (last[p] < 0) {
            --p;
            continue;
        }
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
        for (const Way& way : ways_) {
            stacks_[s].push_back(stack(way, instance_.sheets[s]));
            steps_ += 10 * static_cast<std::int64_t>(way.thickness.size()) * way.across->size();
        }
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
