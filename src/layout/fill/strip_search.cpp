#include "layout/fill/strip_search.hpp"

#include <algorithm>
#include <bit>
#include <utility>

namespace barrow::layout {
namespace {

constexpr std::int64_t most_levels = 256;
// Limits on memory: about 150 bytes a part, 100 a state.
constexpr std::size_t most_parts = 300'000;
constexpr std::size_t most_states = 3'000'000;

} // namespace

StripSearch::StripSearch(const Instance& instance, Choice& choice, Meter& meter)
    : instance_(instance), sheet_(instance.sheets.front()), choice_(choice), meter_(meter) {}

/// Waste outside of what is left.
std::int64_t StripSearch::wasted(const State& state) const {
    const std::int64_t left = std::int64_t{state.width} * state.height;
    return parts_->waste(sheet_.area() - left, state.value);
}

/// Greatest total waste of a choice worth more than the best known.
std::int64_t StripSearch::may_waste() const {
    return parts_->waste(sheet_.area(), choice_.value() + 1);
}

Block StripSearch::block(const State& last) const {
    Block block;
    for (const State* state = &last; state->part >= 0;
         state = &states_[static_cast<std::size_t>(state->from)]) {
        Block part = parts_->block(state->part);
        block = block.width == 0 ? std::move(part)
                                 : joined(state->axis, std::move(part), std::move(block));
    }
    return block;
}

/// Keeps twice as many states as will be expanded.
void StripSearch::thin_out(Level& level) {
    const auto better = [&](std::int32_t a, std::int32_t b) {
        const std::int64_t one = wasted(states_[static_cast<std::size_t>(a)]);
        const std::int64_t two = wasted(states_[static_cast<std::size_t>(b)]);
        return one != two ? one < two : a < b;
    };
    const auto last = level.states.begin() + static_cast<std::ptrdiff_t>(2 * beam_);
    std::nth_element(level.states.begin(), last, level.states.end(), better);
    level.most = wasted(states_[static_cast<std::size_t>(*last)]);
    steps_ += 20 * static_cast<std::int64_t>(level.states.size());
    level.states.resize(2 * beam_);
}

void StripSearch::push(const State& state) {
    steps_ += 20;
    if (state.value > choice_.value()) choice_.offer(block(state));
    if (state.width < parts_->least_width() || state.height < parts_->least_height()) return;
    const std::int64_t area = std::int64_t{state.width} * state.height;
    Level& level = levels_[static_cast<std::size_t>(area / (sheet_.area() / most_levels + 1))];
    if (wasted(state) > std::min(level.most, may_waste()) || states_.size() >= most_states) return;
    const std::uint64_t sides =
        static_cast<std::uint64_t>(state.width) << 32 | static_cast<std::uint32_t>(state.height);
    // When two states are confused, one of them is lost, nothing worse.
    const std::uint64_t key =
        (sides * 0xD6E8FEB86659FD93U) ^ std::rotl(PackedCounts::key(state.counts), 17);
    steps_ += 400;
    if (!known_.insert(key).second) return;
    level.states.push_back(static_cast<std::int32_t>(states_.size()));
    states_.push_back(state);
    if (level.states.size() >= 6 * beam_) thin_out(level);
}

void StripSearch::cut_strips(std::int32_t index, std::int64_t allowed, Along axis) {
    const State state = states_[static_cast<std::size_t>(index)];
    const bool x = axis == Along::x;
    const CountedParts::Shelf& shelf = x ? parts_->by_height() : parts_->by_width();
    const Length across = x ? state.height : state.width;
    const Length room = x ? state.width : state.height;
    const std::int64_t least = x ? parts_->least_width() : parts_->least_height();
    for (auto line = CountedParts::from(shelf, across + 1); line != shelf.begin();) {
        --line;
        const std::int64_t bare = parts_->waste(least * (across - line->across), 0);
        if (bare > allowed) break;
        steps_ += 4;
        for (const CountedParts::Entry& entry : line->entries) {
            steps_ += 2;
            if (entry.waste > allowed - bare) break;
            if (entry.length > room || !counts_->allowed(state.counts + entry.counts)) continue;
            State next = state;
            (x ? next.width : next.height) -= entry.length;
            next.counts += entry.counts;
            next.value += parts_->part(entry.part).value;
            next.from = index;
            next.part = entry.part;
            next.axis = axis;
            push(next);
        }
    }
}

void StripSearch::go_on(std::int32_t index) {
    const State& state = states_[static_cast<std::size_t>(index)];
    std::int64_t allowed = may_waste() - wasted(state);
    if (allowed < 0) return;
    // Much waste at once is useful only near the end.
    const std::int64_t left = std::int64_t{state.width} * state.height;
    if (left > sheet_.area() / 4) allowed = std::min(allowed, strip_);
    cut_strips(index, allowed, Along::x);
    cut_strips(index, allowed, Along::y);
    meter_.spend(std::exchange(steps_, 0));
}

void StripSearch::cut_down() {
    states_.clear();
    known_.clear();
    levels_.assign(most_levels, {});
    State whole;
    whole.width = sheet_.width;
    whole.height = sheet_.height;
    push(whole);
    for (std::size_t index = levels_.size(); index-- > 0 && !over();) {
        Level& level = levels_[index];
        // Cutting a strip off may leave the level unchanged.
        for (std::size_t done = 0; done < beam_ && !level.states.empty();) {
            std::vector<std::pair<std::int64_t, std::int32_t>> order;
            for (const std::int32_t state : std::exchange(level.states, {}))
                order.emplace_back(wasted(states_[static_cast<std::size_t>(state)]), state);
            std::sort(order.begin(), order.end());
            for (const auto& [lost, state] : order) {
                if (done++ == beam_ || over()) break;
                go_on(state);
            }
        }
    }
}

void StripSearch::run(std::int64_t steps, Cost bound) {
    counts_ = PackedCounts::of(instance_);
    if (!counts_ || !CountedParts::suits(instance_)) return;
    parts_.emplace(instance_, *counts_);
    end_ = meter_.steps() + steps;
    // Start and growth were found by trial.
    beam_ = 60;
    for (std::int64_t share = 450; share > 0 && !over(); share = share * 3 / 4) {
        if (!parts_->find(share, most_parts, end_ - meter_.steps(), meter_)) break;
        strip_ = 2 * parts_->waste(sheet_.area(), 0) / share;
        cut_down();
        if (choice_.value() >= bound) break;
        beam_ = beam_ * 5 / 2;
    }
}

} // namespace barrow::layout
