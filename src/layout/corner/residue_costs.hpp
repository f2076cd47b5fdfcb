#pragma once

#include "layout/corner/residue_group.hpp"
#include "layout/search/meter.hpp"

#include <cstdint>
#include <functional>
#include <queue>
#include <utility>
#include <vector>

namespace barrow::layout {

/// What the elements of a group cost at least, when some of them can be had at a price each and
/// sums of those, any number of each, cost as much as they do together: shortest ways from nothing,
/// found in the order of their costs (Dijkstra, Numerische Math. 1 (1959) 269-271), as far as they
/// are asked for; of ways that cost as much that with the fewest steps. Only those that are not
/// cheaper as sums of others are ever added to anything: each to all found before it, and all found
/// later to each.
class ResidueCosts {
public:
    struct Step {
        std::int64_t cost = 0; ///< at least 0
        ResidueGroup::Element element = 0;
    };

    /// Steps in the order of their costs. Nothing dearer than `most` is ever looked at; it is at
    /// most most_cost.
    ResidueCosts(const ResidueGroup& group, const std::vector<Step>& steps, std::int64_t most,
                 Meter& meter);

    /// Finds all that costs no more than that; false when the meter's steps came to `end` before.
    bool settle(std::int64_t cost, std::int64_t end);

    /// `unknown` where it is above what is found so far, or cannot be had.
    std::int64_t cost(ResidueGroup::Element element) const {
        const std::int64_t length = this->length(element);
        return length == unknown ? unknown : length / steps_per_cost;
    }
    /// Rises with the cost and, among equal ones, with the steps of the way; likewise.
    std::int64_t length(ResidueGroup::Element element) const {
        const std::int64_t length = lengths_[static_cast<std::size_t>(element)];
        return length <= settled_ ? length : unknown;
    }

    static constexpr std::int64_t unknown = INT64_MAX;
    static constexpr std::int64_t most_cost = std::int64_t{1} << 52;

private:
    using Open = std::pair<std::int64_t, ResidueGroup::Element>;

    /// A way's cost and its steps in one number; no shortest way has more steps.
    static constexpr std::int64_t steps_per_cost = 1024;

    void add_each(const Translations& sums, const std::vector<std::int64_t>& lengths,
                  std::int64_t length, const ResidueGroup::Digits& digits);

    const ResidueGroup& group_;
    std::int64_t most_ = 0;
    Meter& meter_;
    std::int64_t settled_ = -1;
    std::vector<std::int64_t> lengths_; ///< best known so far, of each element
    std::vector<bool> single_;          ///< whether that is one step
    std::priority_queue<Open, std::vector<Open>, std::greater<>> open_;
    Translations found_; ///< elements, in the order of their costs
    std::vector<std::int64_t> found_lengths_;
    Translations steps_; ///< those of them that are steps
    std::vector<std::int64_t> step_lengths_;
};

} // namespace barrow::layout
