#include "layout/corner/residue_costs.hpp"

namespace barrow::layout {

ResidueCosts::ResidueCosts(const ResidueGroup& group, const std::vector<Step>& steps,
                           std::int64_t most, Meter& meter)
    : group_(group), most_(most * steps_per_cost + steps_per_cost - 1), meter_(meter),
      lengths_(static_cast<std::size_t>(group.size()), unknown),
      single_(static_cast<std::size_t>(group.size()), false), found_(group, {}), steps_(group, {}) {
    lengths_[0] = 0;
    open_.emplace(0, 0);
    for (const Step& step : steps) {
        if (step.cost > most) break;
        std::int64_t& known = lengths_[static_cast<std::size_t>(step.element)];
        const std::int64_t length = step.cost * steps_per_cost + 1;
        if (known <= length) continue;
        known = length;
        single_[static_cast<std::size_t>(step.element)] = true;
        open_.emplace(length, step.element);
    }
    meter_.spend(group.size() + static_cast<std::int64_t>(steps.size()) * 10);
}

/// Sums of an element with each of others, in order of rising length.
void ResidueCosts::add_each(const Translations& sums, const std::vector<std::int64_t>& lengths,
                            std::int64_t length, const ResidueGroup::Digits& digits) {
    std::size_t place = 0;
    for (; place < lengths.size() && lengths[place] <= most_ - length; ++place) {
        const ResidueGroup::Element to = sums.to(digits, place);
        std::int64_t& known = lengths_[static_cast<std::size_t>(to)];
        if (known <= length + lengths[place]) continue;
        known = length + lengths[place];
        single_[static_cast<std::size_t>(to)] = false;
        open_.emplace(known, to);
    }
    meter_.spend(20 + static_cast<std::int64_t>(place) * 8);
}

bool ResidueCosts::settle(std::int64_t cost, std::int64_t end) {
    const std::int64_t all = cost * steps_per_cost + steps_per_cost - 1;
    while (!open_.empty() && open_.top().first <= all) {
        if (meter_.over() || meter_.steps() >= end) return false;
        const auto [at, element] = open_.top();
        open_.pop();
        if (at > lengths_[static_cast<std::size_t>(element)])
            continue; // reached more cheaply since
        settled_ = at;
        meter_.spend(100);
        const ResidueGroup::Digits digits = group_.digits(element);
        add_each(steps_, step_lengths_, at, digits);
        found_.add(digits);
        found_lengths_.push_back(at);
        if (!single_[static_cast<std::size_t>(element)]) continue;
        steps_.add(digits);
        step_lengths_.push_back(at);
        add_each(found_, found_lengths_, at, digits); // with itself too
    }
    settled_ = all;
    return true;
}

} // namespace barrow::layout
