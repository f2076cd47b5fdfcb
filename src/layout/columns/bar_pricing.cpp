#include "layout/columns/bar_pricing.hpp"

#include "base/wide.hpp"
#include "layout/model/bundles.hpp"

#include <algorithm>

namespace barrow::layout {

double BarPricing::scale_for(const std::vector<double>& prices) const {
    return table_.scale_for(prices);
}

void BarPricing::bundle_up(const std::vector<std::int64_t>& prices,
                           const std::vector<std::int64_t>& most) {
    const Length room = instance_.sheets.front().width;
    bundles_.clear();
    for (std::size_t i = 0; i < prices.size(); ++i) {
        const Length width = instance_.items[i].width;
        if (prices[i] <= 0 || width > room) continue;
        const std::int64_t density = (prices[i] + width - 1) / width;
        each_bundle(std::min<std::int64_t>(most[i], room / width), [&](std::int64_t copies) {
            bundles_.push_back(
                {i, copies, static_cast<Length>(copies * width), copies * prices[i], density});
        });
    }
    // By exact ratios: what fits of the first kinds is then an upper bound for all others.
    std::stable_sort(bundles_.begin(), bundles_.end(), [](const Bundle& a, const Bundle& b) {
        return base::Wide(a.worth) * b.length > base::Wide(b.worth) * a.length;
    });
    lengths_.assign(1, 0);
    worths_.assign(1, 0);
    shortest_.assign(bundles_.size() + 1, room + 1);
    for (const Bundle& bundle : bundles_) {
        lengths_.push_back(lengths_.back() + bundle.length);
        worths_.push_back(worths_.back() + static_cast<std::uint64_t>(bundle.worth));
    }
    for (std::size_t b = bundles_.size(); b-- > 0;)
        shortest_[b] = std::min(shortest_[b + 1], bundles_[b].length);
}

/// Each entry without and with the bundle, merged by length; a longer entry is kept only if it is
/// worth more.
void BarPricing::put_in(std::size_t index) {
    const Bundle& bundle = bundles_[index];
    const Length room = instance_.sheets.front().width;
    next_.clear();
    std::int64_t highest = -1;
    std::size_t without = 0;
    for (const Entry& with : list_) {
        if (with.used > room - bundle.length) break;
        const Length used = with.used + bundle.length;
        const std::int64_t worth = with.worth + bundle.worth;
        for (; without < list_.size() && list_[without].used <= used; ++without) {
            if (list_[without].worth <= highest) continue;
            // As long as the entry with the bundle, and worth less: dropped.
            if (list_[without].used == used && list_[without].worth < worth) break;
            highest = list_[without].worth;
            next_.push_back(list_[without]);
        }
        if (worth <= highest) continue;
        highest = worth;
        next_.push_back({used, worth, static_cast<std::int32_t>(made_.size())});
        made_.push_back({static_cast<std::int32_t>(index), with.made});
        if (worth > best_) {
            best_ = worth;
            best_made_ = next_.back().made;
        }
    }
    for (; without < list_.size(); ++without)
        if (list_[without].worth > highest) next_.push_back(list_[without]);
    steps_ += static_cast<std::int64_t>(list_.size() + next_.size()) * 3 + 20;
    list_.swap(next_);
}

/// Drops entries that all bundles from `next` on could not make worth more than the best.
void BarPricing::drop_hopeless(std::size_t next) {
    const Length room = instance_.sheets.front().width;
    std::size_t kept = 0;
    std::size_t end = bundles_.size(); // bundles next..end-1 fit; shrinks with the room
    for (const Entry& entry : list_) {
        const Length rest = room - entry.used;
        if (rest < shortest_[next]) break; // so do all longer ones
        while (end > next && lengths_[end] - lengths_[next] > rest) --end;
        std::int64_t most = entry.worth + static_cast<std::int64_t>(worths_[end] - worths_[next]);
        if (end < bundles_.size())
            most += (rest - (lengths_[end] - lengths_[next])) * bundles_[end].density;
        if (most > best_) list_[kept++] = entry;
    }
    list_.resize(kept);
}

void BarPricing::run(const std::vector<std::int64_t>& prices,
                     const std::vector<std::int64_t>& most) {
    bundle_up(prices, most);
    steps_ = static_cast<std::int64_t>(bundles_.size()) * 30 + 100;
    best_ = least_;
    best_made_ = -1;
    by_table_ = false;
    made_.clear();
    list_.assign(1, Entry{});
    for (std::size_t bundle = 0; bundle < bundles_.size() && !list_.empty(); ++bundle) {
        put_in(bundle);
        drop_hopeless(bundle + 1);
        by_table_ = made_.size() > most_made_;
        if (!by_table_) continue;
        table_.run(prices, most);
        steps_ += table_.steps();
        return;
    }
}

Block BarPricing::block(std::size_t sheet) const {
    if (by_table_) return table_.block(sheet);
    Block block;
    for (std::int32_t now = best_made_; now >= 0;) {
        const Made& made = made_[static_cast<std::size_t>(now)];
        const Bundle& bundle = bundles_[static_cast<std::size_t>(made.bundle)];
        for (std::int64_t n = 0; n < bundle.copies; ++n)
            put_beside(Along::x, block,
                       leaf_of(instance_, static_cast<std::int32_t>(bundle.kind), false));
        now = made.from;
    }
    return block;
}

} // namespace barrow::layout
