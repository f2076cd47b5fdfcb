#include "layout/fill/reach.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

/// One orientation of an item: its side along the axis, and across.
struct Laid {
    Length along = 0;
    Length across = 0;
    std::int64_t copies = 0;
};

std::vector<Laid> laid_ways(const Instance& instance, Along axis) {
    std::vector<Laid> all;
    for (const Item& item : instance.items) {
        const bool x = axis == Along::x;
        all.push_back({x ? item.width : item.height, x ? item.height : item.width, item.demand});
        if (item.turns)
            all.push_back(
                {x ? item.height : item.width, x ? item.width : item.height, item.demand});
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Laid& a, const Laid& b) { return a.across < b.across; });
    return all;
}

/// For each point of a raster, the largest point not above it that is a sum.
std::vector<std::int32_t> sums_below(const Raster& raster, const Raster& sums) {
    std::vector<std::int32_t> below(static_cast<std::size_t>(raster.size()), 0);
    for (std::int32_t i = 0; i < sums.size(); ++i)
        below[static_cast<std::size_t>(raster.below(sums.at(i)))] = raster.below(sums.at(i));
    for (std::size_t i = 1; i < below.size(); ++i) below[i] = std::max(below[i], below[i - 1]);
    return below;
}

/// Classes of the raster across (by how many orientations fit), and for each the sums along.
void classify(const std::vector<Laid>& all, const Raster& along, const Raster& across,
              std::vector<std::size_t>& classes, std::vector<std::vector<std::int32_t>>& sums) {
    const Length limit = along.at(along.size() - 1);
    std::vector<Raster::Side> sides;
    std::size_t next = 0;
    for (std::int32_t i = 0; i < across.size(); ++i) {
        const std::size_t before = next;
        while (next < all.size() && all[next].across <= across.at(i)) {
            sides.push_back({all[next].along, all[next].copies});
            ++next;
        }
        if (sums.empty() || next != before)
            sums.push_back(sums_below(along, Raster::of(sides, limit, SIZE_MAX)));
        classes.push_back(sums.size() - 1);
    }
}

} // namespace

Reach::Reach(const Instance& instance, const Grid& grid) {
    classify(laid_ways(instance, Along::x), grid.x, grid.y, classes_y_, sums_x_);
    classify(laid_ways(instance, Along::y), grid.y, grid.x, classes_x_, sums_y_);
}

} // namespace barrow::layout
