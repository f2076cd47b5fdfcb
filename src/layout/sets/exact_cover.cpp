#include "layout/sets/exact_cover.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

constexpr Cost impossible = INT64_MAX;

} // namespace

ExactCover::ExactCover(const Instance& instance, const SetShapes& shapes, const StockSums& sums,
                       Meter& meter)
    : instance_(instance), shapes_(shapes), sums_(sums), meter_(meter) {}

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
    return true;
}

void ExactCover::list_sets() {
    by_kind_.resize(instance_.items.size());
    sheets_.resize(shapes_.sets().size());
    for (std::size_t s = 0; s < shapes_.sets().size(); ++s) {
        const SetShapes::Set& set = shapes_.sets()[s];
        std::size_t first = 0;
        while (shapes_.count(set, first) == 0) ++first;
        by_kind_[first].push_back(static_cast<std::int32_t>(s));
        std::vector<std::size_t>& sheets = sheets_[s];
        for (std::size_t k = 0; k < instance_.sheets.size(); ++k)
            if (shapes_.shape_on(set, instance_.sheets[k]) >= 0) sheets.push_back(k);
        std::stable_sort(sheets.begin(), sheets.end(), [&](std::size_t a, std::size_t b) {
            return instance_.sheets[a].cost < instance_.sheets[b].cost;
        });
    }
}

bool ExactCover::fits(std::int32_t set, SetKey left) const {
    const SetKey key = shapes_.sets()[static_cast<std::size_t>(set)].key;
    if (key > left) return false;
    for (std::size_t kind = 0; kind < instance_.items.size(); ++kind) {
        const SetKey unit = shapes_.unit(kind);
        if (key / unit % shapes_.base(kind) > left / unit % shapes_.base(kind)) return false;
    }
    return true;
}

bool ExactCover::take_sheet(std::size_t sheet, std::uint64_t& used) const {
    if (unit_[sheet] == 0) return true;
    if (used / unit_[sheet] % base_[sheet] + 1 == base_[sheet]) return false;
    used += unit_[sheet];
    return true;
}

void ExactCover::try_set(std::int32_t set, const State& state, Cost budget, Choice& best) {
    if (!fits(set, state.left)) return;
    const auto index = static_cast<std::size_t>(set);
    for (const std::size_t sheet : sheets_[index]) {
        const Cost cost = instance_.sheets[sheet].cost;
        const Cost most = best.cost == impossible ? budget : best.cost - 1;
        if (cost > most) return;
        State next{state.left - shapes_.sets()[index].key, state.used};
        if (!take_sheet(sheet, next.used)) continue;
        const Cost rest = best_from(next, most - cost);
        if (rest != impossible) best = {cost + rest, set, sheet, -1};
        // A dearer sheet would only save a limited one.
        if (unit_[sheet] == 0) return;
    }
}

base::Wide ExactCover::area_left(SetKey left) const {
    base::Wide area = 0;
    for (std::size_t kind = 0; kind < instance_.items.size(); ++kind)
        area += static_cast<base::Wide>(left / shapes_.unit(kind) % shapes_.base(kind))
                * instance_.items[kind].area();
    return area;
}

/// The least cost of the rest if it is within the budget.
Cost ExactCover::best_from(const State& state, Cost budget) {
    if (state.left == 0) return 0;
    const auto known = states_.find(state);
    if (known != states_.end()) {
        const Choice& choice = known->second;
        if (choice.cost != impossible) return choice.cost <= budget ? choice.cost : impossible;
        if (budget <= choice.failed) return impossible;
    }
    meter_.spend(static_cast<std::int64_t>(instance_.items.size()) * 8 + 20);
    if (area_left(state.left) > sums_.most_area(budget)) return impossible;
    if (meter_.steps() >= end_ || meter_.over() || states_.size() >= most_states_) {
        end_ = INT64_MIN; // nothing found from here on counts
        return impossible;
    }
    std::size_t kind = 0;
    while (state.left / shapes_.unit(kind) % shapes_.base(kind) == 0) ++kind;
    meter_.spend(static_cast<std::int64_t>(by_kind_[kind].size() * instance_.items.size()) * 8
                 + 50);
    Choice best{impossible, -1, 0, budget};
    const std::vector<std::int32_t>& sets = by_kind_[kind];
    for (std::size_t i = sets.size(); i-- > 0;) try_set(sets[i], state, budget, best);
    states_.insert_or_assign(state, best);
    return best.cost;
}

ExactCover::End ExactCover::run(Cost limit, std::int64_t steps, std::size_t most_states) {
    if (!number_sheets() || instance_.pieces_wanted() > 300) return End::spent;
    list_sets();
    end_ = meter_.steps() + steps;
    most_states_ = most_states;
    SetKey all = 0;
    for (std::size_t kind = 0; kind < instance_.items.size(); ++kind)
        all += shapes_.unit(kind) * static_cast<SetKey>(instance_.items[kind].demand);
    const Cost cost = best_from({all, 0}, limit);
    if (end_ == INT64_MIN) return End::spent;
    return cost == impossible ? End::impossible : End::solved;
}

Solution ExactCover::solution() const {
    Solution solution;
    solution.unplaced.assign(instance_.items.size(), 0);
    State state;
    for (std::size_t kind = 0; kind < instance_.items.size(); ++kind)
        state.left += shapes_.unit(kind) * static_cast<SetKey>(instance_.items[kind].demand);
    while (state.left > 0) {
        const Choice& choice = states_.at(state);
        const SetShapes::Set& set = shapes_.sets()[static_cast<std::size_t>(choice.set)];
        const Sheet& sheet = instance_.sheets[choice.sheet];
        solution.patterns.push_back(
            {choice.sheet, 1, shapes_.block(choice.set, shapes_.shape_on(set, sheet))});
        solution.cost += sheet.cost;
        state.left -= set.key;
        take_sheet(choice.sheet, state.used);
    }
    return solution;
}

} // namespace barrow::layout
