#include "layout/table/raster.hpp"

#include <algorithm>
#include <numeric>

namespace barrow::layout {
namespace {

/// Adds 0 to `copies` times one more side to all sums. False when there are too many.
bool extend(std::vector<Length>& sums, const Raster::Side& side, Length limit, std::size_t most) {
    std::vector<Length> fresh = sums;
    std::vector<Length> merged;
    std::vector<Length> next;
    for (std::int64_t n = 0; n < side.copies && !fresh.empty(); ++n) {
        next.clear();
        for (const Length sum : fresh)
            if (sum <= limit - side.length) next.push_back(sum + side.length);
        fresh.clear();
        std::set_difference(next.begin(), next.end(), sums.begin(), sums.end(),
                            std::back_inserter(fresh));
        merged.clear();
        std::merge(sums.begin(), sums.end(), fresh.begin(), fresh.end(),
                   std::back_inserter(merged));
        sums.swap(merged);
        if (sums.size() > most) return false;
        // With copies to spare only new sums lead to further new ones; with few copies a known sum
        // may have been reached in another way, so all are carried on.
        if (side.copies < limit / side.length) fresh = next;
    }
    return true;
}

/// As wide as the widest and as high as the highest sheet.
Sheet largest(const Instance& instance) {
    Sheet limits;
    for (const Sheet& sheet : instance.sheets) {
        limits.width = std::max(limits.width, sheet.width);
        limits.height = std::max(limits.height, sheet.height);
    }
    return limits;
}

} // namespace

Raster Raster::of(const std::vector<Side>& sides, Length limit, std::size_t most) {
    Raster raster;
    raster.points_ = {0};
    for (const Side& side : sides)
        if (!extend(raster.points_, side, limit, most)) return {};
    return raster;
}

void Raster::fill_up(Length limit) {
    sums_below_.clear();
    std::int32_t sum = 0;
    for (Length length = 0; length <= limit; ++length) {
        const auto next = static_cast<std::size_t>(sum) + 1;
        if (next < points_.size() && points_[next] == length) ++sum;
        sums_below_.push_back(points_[static_cast<std::size_t>(sum)]);
    }
    points_.resize(static_cast<std::size_t>(limit) + 1);
    std::iota(points_.begin(), points_.end(), 0);
}

std::int32_t Raster::below(Length length) const {
    if (is_dense()) return std::min(length, size() - 1);
    const auto above = std::upper_bound(points_.begin(), points_.end(), length);
    return static_cast<std::int32_t>(above - points_.begin()) - 1;
}

Grid grid_of(const Instance& instance, std::size_t most) {
    std::vector<Raster::Side> across;
    std::vector<Raster::Side> up;
    for (const Item& item : instance.items) {
        across.push_back({item.width, item.demand});
        up.push_back({item.height, item.demand});
        if (!item.turns) continue;
        across.push_back({item.height, item.demand});
        up.push_back({item.width, item.demand});
    }
    const Sheet limits = largest(instance);
    return {Raster::of(across, limits.width, most), Raster::of(up, limits.height, most)};
}

void fill_up(const Instance& instance, Grid& grid) {
    const Length height = largest(instance).height;
    if (!grid.y.empty() && std::int64_t{grid.y.size()} * 3 > height) grid.y.fill_up(height);
}

} // namespace barrow::layout
