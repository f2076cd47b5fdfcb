#pragma once

#include "layout/joint/joint_lp.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace barrow::layout {

/// What the sheets of one job cost at least, for every number of times that each choice may fall
/// to it: in whole sheets, where the linear program counts parts of them.
///
/// For any prices of pieces (a ruling), what the pieces wanted are worth is at most what the sheets
/// taken can bring; so a share needs sheets that bring as much, and the cheapest such set is a
/// bound, which the dearest of all rulings makes best. Whole numbers throughout: never wrong.
class ShareCosts {
public:
    /// A choice, and how often it may fall to the job.
    struct Axis {
        std::size_t choice = 0;
        std::int64_t least = 0;
        std::int64_t most = 0;
        std::int64_t size() const { return most - least + 1; }
    };
    /// Cost of a share that no sheets hold, or a limit forbids.
    static constexpr Cost never = INT64_MAX;

    /// How heavily each axis counts towards something that may come to so much at most.
    struct Limit {
        std::vector<std::int64_t> weights; ///< beside the axes
        std::int64_t most = 0;
    };

    /// Requires an axis at least.
    ShareCosts(std::vector<Axis> axes, const std::vector<Limit>& limits);

    /// Raises costs by a ruling: an axis' weight is what one fall is worth at its prices. `stairs`:
    /// value that sheets can bring and the least they cost then, both ascending.
    struct Stair {
        std::int64_t brings = 0;
        Cost cost = 0;
    };
    void rule(const std::vector<std::int64_t>& weights, const std::vector<Stair>& stairs);

    const std::vector<Axis>& axes() const { return axes_; }
    std::size_t cells() const { return costs_.size(); }
    Cost dearest() const;

    /// Least of cost times unit less what the falls earn; nothing when no share is possible.
    struct Least {
        std::int64_t sum = 0;
        Cost cost = 0;
        std::vector<std::int64_t> falls; ///< beside the axes
    };
    std::optional<Least> least(const std::vector<std::int64_t>& earnings, std::int64_t unit) const;

private:
    template <typename Visit>
    void each_row(Visit visit) const;
    std::vector<std::int64_t> falls_of(std::size_t cell) const;

    std::vector<Axis> axes_;
    std::vector<Cost> costs_; ///< of cells; the first axis runs fastest
};

/// Sets of the sheets that no other brings more than for as little: by value at the prices, as far
/// as `enough`. Where there are very many, some are made one that is too good; empty when even
/// that would take too long. `best` stands beside the sheets.
std::vector<ShareCosts::Stair> stairs_of(const std::vector<Sheet>& sheets,
                                         const std::vector<std::int64_t>& best,
                                         std::int64_t enough);

} // namespace barrow::layout
