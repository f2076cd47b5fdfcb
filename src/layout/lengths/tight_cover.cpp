#include "layout/lengths/tight_cover.hpp"

#include "base/wide.hpp"
#include "layout/lengths/bars.hpp"
#include "layout/model/bundles.hpp"

#include <algorithm>
#include <numeric>

namespace barrow::layout {
namespace {

constexpr std::size_t most_cells = 4'000'000;
constexpr std::size_t most_fillings = 100'000;
constexpr std::int64_t most_bars = 1'000;      // the recursion is this deep
constexpr std::int64_t most_open = 10'000'000; // fillings, in all steps

} // namespace

TightCover::TightCover(const Instance& instance, const std::vector<std::int64_t>& prices,
                       Meter& meter)
    : instance_(instance), meter_(meter), length_(instance.sheets.front().width),
      kinds_(longest_first(instance)) {
    for (const std::size_t kind : kinds_) prices_.push_back(prices[kind]);
}

/// For each kind, shortest first, the best worth of it and shorter ones in every length.
bool TightCover::find_best() {
    const std::size_t row = static_cast<std::size_t>(length_) + 1;
    if (row * (kinds_.size() + 1) > most_cells) return false;
    best_.assign(row * (kinds_.size() + 1), 0);
    for (std::size_t kind = kinds_.size(); kind-- > 0;) {
        const Item& item = instance_.items[kinds_[kind]];
        std::int64_t* here = best_.data() + kind * row;
        std::copy_n(here + row, row, here);
        const std::int64_t most = std::min<std::int64_t>(item.demand, length_ / item.width);
        each_bundle(most, [&](std::int64_t copies) {
            const auto used = static_cast<std::size_t>(copies * item.width);
            for (std::size_t room = row; room-- > used;)
                here[room] = std::max(here[room], here[room - used] + copies * prices_[kind]);
            meter_.spend(static_cast<std::int64_t>(row));
        });
    }
    return true;
}

/// Lists all fillings within the deficit; false when they are too many.
bool TightCover::list(std::size_t kind, Length room, std::int64_t lacking) {
    meter_.spend(8);
    if (kind == kinds_.size()) {
        if (fillings_.size() == most_fillings) return false;
        fillings_.push_back({lacking, counts_});
        return true;
    }
    if (over()) return false;
    const Item& item = instance_.items[kinds_[kind]];
    const std::int64_t most = std::min<std::int64_t>(item.demand, room / item.width);
    for (std::int64_t copies = most; copies >= 0; --copies) {
        const auto rest = static_cast<Length>(room - copies * item.width);
        // `lacking`: the deficit still allowed in this room.
        const std::int64_t now =
            lacking - (best(kind, room) - best(kind + 1, rest) - copies * prices_[kind]);
        if (now < 0) continue;
        if (copies > 0)
            counts_.emplace_back(static_cast<std::int32_t>(kind),
                                 static_cast<std::int32_t>(copies));
        const bool listed = list(kind + 1, rest, now);
        if (copies > 0) counts_.pop_back();
        if (!listed) return false;
    }
    return true;
}

bool TightCover::allowed(const Filling& filling, std::int64_t lacking) const {
    return filling.lacking <= lacking
           && std::all_of(filling.counts.begin(), filling.counts.end(), [&](const auto& part) {
                  return part.second <= left_[static_cast<std::size_t>(part.first)];
              });
}

/// The wanted kind that the fewest fillings contain.
std::int32_t TightCover::scarcest(const Fillings& open) {
    held_by_.assign(kinds_.size(), 0);
    for (const std::int32_t index : open)
        for (const auto& [kind, copies] : fillings_[static_cast<std::size_t>(index)].counts)
            ++held_by_[static_cast<std::size_t>(kind)];
    std::int32_t chosen = -1;
    for (std::size_t kind = 0; kind < kinds_.size(); ++kind) {
        if (left_[kind] == 0) continue;
        if (chosen < 0 || held_by_[kind] < held_by_[static_cast<std::size_t>(chosen)])
            chosen = static_cast<std::int32_t>(kind);
    }
    return chosen;
}

/// True when solved; false and not over: impossible.
bool TightCover::cover(const Fillings& open, std::int64_t bars, std::int64_t lacking) {
    meter_.spend(static_cast<std::int64_t>(open.size()) * 12 + 100);
    const std::int32_t kind = scarcest(open);
    if (kind < 0) return true;
    if (bars == 0) return false;
    Fillings rest = open;
    for (const std::int32_t index : open) {
        const Filling& filling = fillings_[static_cast<std::size_t>(index)];
        const bool holds = std::any_of(filling.counts.begin(), filling.counts.end(),
                                       [&](const auto& part) { return part.first == kind; });
        if (!holds) continue;
        if (over()) return false;
        for (const auto& [k, copies] : filling.counts) left_[static_cast<std::size_t>(k)] -= copies;
        const std::int64_t now = lacking - filling.lacking;
        Fillings next;
        for (const std::int32_t other : rest)
            if (allowed(fillings_[static_cast<std::size_t>(other)], now)) next.push_back(other);
        chosen_.push_back(index);
        if (cover(next, bars - 1, now)) return true;
        chosen_.pop_back();
        for (const auto& [k, copies] : filling.counts) left_[static_cast<std::size_t>(k)] += copies;
        // All answers with this filling have been tried.
        rest.erase(std::find(rest.begin(), rest.end(), index));
    }
    return false;
}

TightCover::End TightCover::run(std::int64_t bars, std::int64_t steps) {
    end_ = meter_.steps() + steps;
    if (bars > most_bars || !find_best()) return End::spent;
    base::Wide sum = base::Wide(best(0, length_)) * bars;
    left_.clear();
    for (std::size_t kind = 0; kind < kinds_.size(); ++kind) {
        left_.push_back(instance_.items[kinds_[kind]].demand);
        sum -= base::Wide(prices_[kind]) * left_.back();
    }
    if (sum < 0) return End::impossible;
    const auto lacking = base::narrow(sum);
    if (!lacking) return End::spent;
    fillings_.clear();
    if (!list(0, length_, *lacking)) return End::spent;
    if (static_cast<std::int64_t>(fillings_.size()) * bars > most_open) return End::spent;
    // Listed with the deficit still allowed.
    for (Filling& filling : fillings_) filling.lacking = *lacking - filling.lacking;
    Fillings open(fillings_.size());
    std::iota(open.begin(), open.end(), 0);
    chosen_.clear();
    if (cover(open, bars, *lacking)) return End::solved;
    return over() ? End::spent : End::impossible;
}

Solution TightCover::solution() const {
    std::vector<BarContent> bars;
    for (const std::int32_t index : chosen_) {
        bars.emplace_back();
        for (const auto& [kind, copies] : fillings_[static_cast<std::size_t>(index)].counts)
            bars.back().emplace_back(kinds_[static_cast<std::size_t>(kind)], copies);
    }
    return answer_of_bars(instance_, bars);
}

} // namespace barrow::layout
