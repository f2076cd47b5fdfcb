#include "layout/sets/exact_cover.hpp"

#include <algorithm>
#include <numeric>

namespace barrow::layout {
namespace {

constexpr Cost impossible = INT64_MAX;

} // namespace

ExactCover::ExactCover(const Instance& instance, const SetShapes& shapes, const StockSums& sums,
                       Meter& meter)
    : instance_(instance), shapes_(shapes), sums_(sums), meter_(meter), fields_(instance) {}

/// Digits for the limited sheets; false when they do not fit 64 bits.
bool ExactCover::number_sheets() {
    const std::int64_t pieces = instance_.pieces_wanted();
    std::uint64_t unit = 1;
    for (const Sheet& sheet : instance_.sheets) {
        const bool limited = sheet.copies < pieces;
        unit_.push_back(limited ? unit : 0);
        base_.push_back(limited ? static_cast<std::uint64_t>(sheet.copies) + 1 : 1);
        if (base_.back() > (std::uint64_t(1) << 62) / unit) return false;
        unit *= base_.back();
    }
    by_cost_.resize(instance_.sheets.size());
    std::iota(by_cost_.begin(), by_cost_.end(), std::size_t{0});
    std::stable_sort(by_cost_.begin(), by_cost_.end(), [&](std::size_t a, std::size_t b) {
        return instance_.sheets[a].cost < instance_.sheets[b].cost;
    });
    return true;
}

void ExactCover::list_sets() {
    by_kind_.resize(instance_.items.size());
    std::vector<std::int64_t> counts(instance_.items.size());
    for (std::size_t s = 0; s < shapes_.sets().size(); ++s) {
        Listed listed;
        for (std::size_t kind = 0; kind < counts.size(); ++kind) {
            counts[kind] = shapes_.count(shapes_.sets()[s], kind);
            listed.area += counts[kind] * instance_.items[kind].area();
        }
        listed.counts = fields_.packed(counts);
        by_kind_[fields_.first_kind(listed.counts)].push_back(static_cast<std::int32_t>(s));
        listed_.push_back(std::move(listed));
    }
    meter_.spend(static_cast<std::int64_t>(listed_.size() * (30 * counts.size() + 50)));
}

/// Found when first asked for: most sets never are.
const std::vector<std::size_t>& ExactCover::sheets_for(std::int32_t set) {
    Listed& listed = listed_[static_cast<std::size_t>(set)];
    if (listed.sheets_known) return listed.sheets;
    listed.sheets_known = true;
    const SetShapes::Set& shapes = shapes_.sets()[static_cast<std::size_t>(set)];
    std::int64_t looked = 0;
    for (const std::size_t sheet : by_cost_) {
        ++looked;
        if (shapes_.shape_on(shapes, instance_.sheets[sheet]) < 0) continue;
        listed.sheets.push_back(sheet);
        if (unit_[sheet] == 0) break;
    }
    meter_.spend(looked * (4 + static_cast<std::int64_t>(shapes.shapes.size())) + 50);
    return listed.sheets;
}

bool ExactCover::take_sheet(std::size_t sheet, std::uint64_t& used) const {
    if (unit_[sheet] == 0) return true;
    if (used / unit_[sheet] % base_[sheet] + 1 == base_[sheet]) return false;
    used += unit_[sheet];
    return true;
}

void ExactCover::try_set(std::int32_t set, const State& state, base::Wide area, Cost budget,
                         Choice& best) {
    const Listed& listed = listed_[static_cast<std::size_t>(set)];
    if (!fields_.within(listed.counts, state.left)) return;
    for (const std::size_t sheet : sheets_for(set)) {
        const Cost cost = instance_.sheets[sheet].cost;
        const Cost most = best.cost == impossible ? budget : best.cost - 1;
        if (cost > most) return;
        State next{state.left - listed.counts, state.used};
        if (!take_sheet(sheet, next.used)) continue;
        const Cost rest = best_from(next, area - listed.area, most - cost);
        if (rest != impossible) best = {cost + rest, set, sheet, -1};
    }
}

/// The least cost of the rest, of this area, if it is within the budget.
Cost ExactCover::best_from(const State& state, base::Wide area, Cost budget) {
    if (state.left.none()) return 0;
    meter_.spend(60);
    if (area > sums_.most_area(budget)) return impossible;
    const auto known = states_.find(state);
    if (known != states_.end()) {
        const Choice& choice = known->second;
        if (choice.cost != impossible) return choice.cost <= budget ? choice.cost : impossible;
        if (budget <= choice.failed) return impossible;
    }
    if (meter_.steps() >= end_ || meter_.over() || states_.size() >= most_states_) {
        end_ = INT64_MIN; // nothing found from here on counts
        return impossible;
    }
    const std::vector<std::int32_t>& sets = by_kind_[fields_.first_kind(state.left)];
    meter_.spend(static_cast<std::int64_t>(sets.size()) * 5 + 200);
    Choice best{impossible, -1, 0, budget};
    for (std::size_t i = sets.size(); i-- > 0 && end_ != INT64_MIN;)
        try_set(sets[i], state, area, budget, best);
    states_.insert_or_assign(state, best);
    return best.cost;
}

ExactCover::End ExactCover::run(Cost limit, std::int64_t steps, std::size_t most_states) {
    if (!number_sheets() || !fields_.possible() || instance_.pieces_wanted() > 300)
        return End::spent;
    end_ = meter_.steps() + steps;
    list_sets();
    most_states_ = most_states;
    std::vector<std::int64_t> wanted;
    for (const Item& item : instance_.items) wanted.push_back(item.demand);
    const Cost cost = best_from({fields_.packed(wanted), 0}, area_wanted(instance_), limit);
    if (end_ == INT64_MIN) return End::spent;
    return cost == impossible ? End::impossible : End::solved;
}

Solution ExactCover::solution() const {
    Solution solution;
    solution.unplaced.assign(instance_.items.size(), 0);
    std::vector<std::int64_t> wanted;
    for (const Item& item : instance_.items) wanted.push_back(item.demand);
    State state{fields_.packed(wanted), 0};
    while (!state.left.none()) {
        const Choice& choice = states_.at(state);
        const Sheet& sheet = instance_.sheets[choice.sheet];
        const SetShapes::Set& set = shapes_.sets()[static_cast<std::size_t>(choice.set)];
        solution.patterns.push_back(
            {choice.sheet, 1, shapes_.block(choice.set, shapes_.shape_on(set, sheet))});
        solution.cost += sheet.cost;
        state.left = state.left - listed_[static_cast<std::size_t>(choice.set)].counts;
        take_sheet(choice.sheet, state.used);
    }
    return solution;
}

} // namespace barrow::layout
