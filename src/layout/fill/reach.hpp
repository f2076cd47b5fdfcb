#pragma once

#include "layout/table/raster.hpp"
#include "layout/tree/block.hpp"

#include <vector>

namespace barrow::layout {

/// Which raster points are sums of sides of items that fit a given rectangle. In a low rectangle
/// only low items fit, so that fewer widths can occur than on the whole sheet.
class Reach {
public:
    /// Grid and instance must outlive it.
    Reach(const Instance& instance, const Grid& grid);

    /// The largest width index, at most x, that items no higher than y can add up to.
    std::int32_t width(std::int32_t x, std::int32_t y) const {
        return sums_x_[classes_y_[static_cast<std::size_t>(y)]][static_cast<std::size_t>(x)];
    }
    /// The largest height index, at most y, that items no wider than x can add up to.
    std::int32_t height(std::int32_t x, std::int32_t y) const {
        return sums_y_[classes_x_[static_cast<std::size_t>(x)]][static_cast<std::size_t>(y)];
    }

private:
    std::vector<std::size_t> classes_x_; ///< number of different items no wider than each width
    std::vector<std::size_t> classes_y_;
    std::vector<std::vector<std::int32_t>> sums_x_; ///< for each class of heights: sum below x
    std::vector<std::vector<std::int32_t>> sums_y_;
};

} // namespace barrow::layout
