#pragma once

#include "layout/corner/residue_group.hpp"
#include "layout/effort/meter.hpp"

#include <cstdint>
#include <functional>
#include <queue>
#include <utility>
#include <vector>

namespace barrow::layout {

/// Cheapest cost of each group element from priced generators (Dijkstra, Numerische Math. 1 (1959)
/// 269-271, expanded on demand); of equal costs the path with the fewest steps. Only generators
/// that are no cheaper as sums of others are ever added: each to all elements found before it, and
/// all found later to each.
class ResidueCosts {
public:
    struct Step {
        std::int64_t cost = 0; ///< at least 0
        ResidueGroup::Element element = 0;
    };

    /// Generators in order of cost. Nothing dearer than `most` is ever considered; it is at most
    /// most_cost.
    ResidueCosts(const ResidueGroup& group, const std::vector<Step>& steps, std::int64_t most,
                 Meter& meter);

    /// Expands all costs up to this; false when the meter's steps reached `end` before.
    bool settle(std::int64_t cost, std::int64_t end);

    /// `unknown` when it is above what is expanded so far, or unreachable.
    std::int64_t cost(ResidueGroup::Element element) const {
        const std::int64_t length = this->length(element);
        return length == unknown ? unknown : length / steps_per_cost;
    }
    /// Rises with the cost and, among equal costs, with the number of steps; `unknown` as above.
    std::int64_t length(ResidueGroup::Element element) const {
        const std::int64_t length = lengths_[static_cast<std::size_t>(element)];
        return length <= settled_ ? length : unknown;
    }

    static constexpr std::int64_t unknown = INT64_MAX;
    static constexpr std::int64_t most_cost = std::int64_t{1} << 52;

private:
    using Open = std::pair<std::int64_t, ResidueGroup::Element>;

    /// Cost and number of steps of a path in one number; no shortest path has more steps.
    static constexpr std::int64_t steps_per_cost = 1024;

    void add_each(const Translations& sums, const std::vector<std::int64_t>& lengths,
                  std::int64_t length, const ResidueGroup::Digits& digits);

    const ResidueGroup& group_;
    std::int64_t most_ = 0;
    Meter& meter_;
    std::int64_t settled_ = -1;
    std::vector<std::int64_t> lengths_; ///< best known so far
    std::vector<bool> single_;          ///< whether the best path is one step
    std::priority_queue<Open, std::vector<Open>, std::greater<>> open_;
    Translations found_; ///< elements, in the order of their costs
    std::vector<std::int64_t> found_lengths_;
    Translations steps_; ///< the generators among them
    std::vector<std::int64_t> step_lengths_;
};

} // namespace barrow::layout
