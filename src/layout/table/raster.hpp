#pragma once

#include "layout/model/instance.hpp"

#include <vector>

namespace barrow::layout {

/// Coordinates where a cut can be needed: sums of sides of items, each at most as often as wanted
/// (normal patterns: Herz, IBM J. Res. Dev. 16 (1972); Christofides & Whitlock, Oper. Res. 25
/// (1977)). Pushing every block of a pattern down as far as it goes puts all cuts on such sums.
class Raster {
public:
    struct Side {
        Length length = 0;
        std::int64_t copies = 0;
    };

    /// Sums up to and including `limit`, 0 first; empty when there would be more than `most`.
    static Raster of(const std::vector<Side>& sides, Length limit, std::size_t most);

    bool empty() const { return points_.empty(); }
    std::int32_t size() const { return static_cast<std::int32_t>(points_.size()); }
    Length at(std::int32_t index) const { return points_[static_cast<std::size_t>(index)]; }

    /// Makes every whole number up to the limit a point: costs little where most are sums, and
    /// makes indices and lengths equal.
    void fill_up(Length limit);
    bool is_dense() const { return !sums_below_.empty(); }

    /// Index of the largest point not above the length. Requires length >= 0.
    std::int32_t below(Length length) const;

    /// Index of the largest point that is a sum and not above the point of this index.
    std::int32_t sum_below(std::int32_t index) const {
        return is_dense() ? sums_below_[static_cast<std::size_t>(index)] : index;
    }

private:
    std::vector<Length> points_;
    std::vector<std::int32_t> sums_below_; ///< of a dense raster
};

/// Rasters of the instance along both axes, up to the largest sheet.
struct Grid {
    Raster x;
    Raster y;
    bool empty() const { return x.empty() || y.empty(); }
};

/// Empty along an axis that has more than `most` sums.
Grid grid_of(const Instance& instance, std::size_t most);

/// Makes the raster along y dense where at least a third of all whole numbers are sums.
void fill_up(const Instance& instance, Grid& grid);

} // namespace barrow::layout
