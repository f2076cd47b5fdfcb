#include "layout/table/near_best.hpp"

#include <algorithm>

namespace barrow::layout {

NearBest::NearBest(const Instance& instance, const Grid& grid,
                   const std::vector<std::int64_t>& values, Meter& meter)
    : instance_(instance), grid_(grid), values_(values), meter_(meter), table_(instance, grid) {
    const std::vector<double> exactly(values.begin(), values.end());
    exact_ = table_.safe_scale(exactly, 1.0) >= 1.0;
    if (!exact_) return;
    table_.run(exactly);
    meter_.spend(table_.steps());
    least_height_.assign(static_cast<std::size_t>(grid.x.size()), none);
    for (const Item& item : instance.items)
        for (const bool turned : {false, true}) {
            if (turned && !item.turns) continue;
            const Length width = turned ? item.height : item.width;
            const Length height = turned ? item.width : item.height;
            for (std::int32_t x = 0; x < grid.x.size(); ++x) {
                Length& least = least_height_[static_cast<std::size_t>(x)];
                if (width <= grid.x.at(x)) least = std::min(least, height);
            }
        }
    meter_.spend(static_cast<std::int64_t>(least_height_.size() * instance.items.size()) * 4);
    for (const Sheet& sheet : instance.sheets)
        corners_.emplace_back(grid.x.below(sheet.width), grid.y.below(sheet.height));
}

/// Visits every cut with items in both parts: index of the first part along the axis, index of the
/// second, and the deficit of the cut.
template <class Use>
void NearBest::each_cut(std::int32_t x, std::int32_t y, const Use& use) {
    const std::int64_t best = value(x, y);
    std::int32_t cut = 1;
    for (; cut < grid_.x.size() && grid_.x.at(cut) <= grid_.x.at(x) / 2; ++cut) {
        const std::int32_t rest = rest_x(x, cut);
        if (holds(cut, y) && holds(rest, y))
            use(Along::x, cut, rest, best - value(cut, y) - value(rest, y));
    }
    meter_.spend(std::int64_t{cut} * 10);
    cut = 1;
    for (; cut < grid_.y.size() && grid_.y.at(cut) <= grid_.y.at(y) / 2; ++cut) {
        const std::int32_t rest = rest_y(y, cut);
        if (holds(x, cut) && holds(x, rest))
            use(Along::y, cut, rest, best - value(x, cut) - value(x, rest));
    }
    meter_.spend(std::int64_t{cut} * 10);
}

/// One part may have the whole deficit while the other is at its best.
void NearBest::allow_parts(std::int32_t x, std::int32_t y) {
    const std::int64_t may = may_lack_[cell(x, y)];
    each_cut(x, y, [&](Along axis, std::int32_t cut, std::int32_t rest, std::int64_t lost) {
        if (lost > may) return;
        for (const std::int32_t part : {cut, rest}) {
            std::int64_t& of_part = may_lack_[axis == Along::x ? cell(part, y) : cell(x, part)];
            of_part = std::max(of_part, may - lost);
        }
    });
}

std::int32_t NearBest::single(std::int32_t kind) {
    const auto [at, fresh] =
        numbers_.emplace(Counts{{kind, 1}}, static_cast<std::int32_t>(sets_.size()));
    if (fresh) sets_.push_back(&at->first);
    return at->second;
}

std::int32_t NearBest::joined_set(std::int32_t a, std::int32_t b) {
    if (a > b) std::swap(a, b);
    const std::uint64_t pair =
        (static_cast<std::uint64_t>(a) << 32) | static_cast<std::uint64_t>(b);
    const auto known = joined_.find(pair);
    if (known != joined_.end()) return known->second;
    Counts both;
    const Counts& first = *sets_[static_cast<std::size_t>(a)];
    const Counts& second = *sets_[static_cast<std::size_t>(b)];
    auto i = first.begin();
    auto j = second.begin();
    while (i != first.end() || j != second.end()) {
        if (j == second.end() || (i != first.end() && i->first < j->first)) {
            both.push_back(*i++);
        } else if (i == first.end() || j->first < i->first) {
            both.push_back(*j++);
        } else {
            both.emplace_back(i->first, i->second + j->second);
            ++i;
            ++j;
        }
    }
    meter_.spend(300);
    const auto [at, fresh] =
        numbers_.emplace(std::move(both), static_cast<std::int32_t>(sets_.size()));
    if (fresh) sets_.push_back(&at->first);
    joined_.emplace(pair, at->second);
    return at->second;
}

/// A single item, unless a strip beside it would hold another.
void NearBest::add_items(std::int32_t x, std::int32_t y, Entries& entries) {
    const Length width = grid_.x.at(x);
    const Length height = grid_.y.at(y);
    const std::int64_t may = may_lack_[cell(x, y)];
    for (std::size_t kind = 0; kind < instance_.items.size(); ++kind) {
        const Item& item = instance_.items[kind];
        for (const bool turned : {false, true}) {
            if (turned && !item.turns) continue;
            const Length w = turned ? item.height : item.width;
            const Length h = turned ? item.width : item.height;
            if (w > width || h > height) continue;
            if (holds(grid_.x.below(width - w), y)) continue;
            if (holds(x, grid_.y.below(height - h))) continue;
            const auto number = static_cast<std::int32_t>(kind);
            const std::int64_t lacks = value(x, y) - values_[kind];
            if (lacks > may) continue;
            ++count_;
            entries.push_back({lacks, single(number), 0, Along::x, number, turned ? 1 : 0});
            break;
        }
    }
    meter_.spend(static_cast<std::int64_t>(instance_.items.size()) * 10);
}

void NearBest::fill(std::int32_t x, std::int32_t y) {
    Entries entries;
    const std::int64_t may = may_lack_[cell(x, y)];
    add_items(x, y, entries);
    each_cut(x, y, [&](Along axis, std::int32_t cut, std::int32_t rest, std::int64_t lost) {
        if (lost > may) return;
        const Entries& first = entries_[axis == Along::x ? cell(cut, y) : cell(x, cut)];
        const Entries& second = entries_[axis == Along::x ? cell(rest, y) : cell(x, rest)];
        for (std::size_t i = 0; i < first.size() && first[i].lacks + lost <= may && !over(); ++i)
            for (std::size_t j = 0; j < second.size(); ++j) {
                const std::int64_t lacks = first[i].lacks + second[j].lacks + lost;
                if (lacks > may) break;
                ++count_;
                entries.push_back({lacks, joined_set(first[i].set, second[j].set), cut, axis,
                                   static_cast<std::int32_t>(i), static_cast<std::int32_t>(j)});
                meter_.spend(60);
            }
    });
    std::stable_sort(entries.begin(), entries.end());
    const auto end = std::unique(entries.begin(), entries.end(),
                                 [](const Entry& a, const Entry& b) { return a.set == b.set; });
    count_ -= static_cast<std::size_t>(entries.end() - end);
    entries.erase(end, entries.end());
    entries_[cell(x, y)] = std::move(entries);
}

bool NearBest::over() const {
    return meter_.over() || meter_.steps() >= end_ || count_ > most_entries_
           || sets_.size() > most_entries_ || joined_.size() > 2 * most_entries_;
}

bool NearBest::list(const std::vector<std::int64_t>& least, std::int64_t steps,
                    std::size_t most_entries) {
    if (!exact_) return false;
    end_ = meter_.steps() + steps;
    most_entries_ = most_entries;
    entries_.clear();
    count_ = 0;
    may_lack_.assign(cell(grid_.x.size(), 0), -1);
    for (std::size_t s = 0; s < corners_.size(); ++s) {
        const auto [x, y] = corners_[s];
        std::int64_t& may = may_lack_[cell(x, y)];
        may = std::max(may, value(x, y) - least[s]);
    }
    for (std::int32_t x = grid_.x.size() - 1; x > 0; --x) {
        for (std::int32_t y = grid_.y.size() - 1; y > 0; --y)
            if (may_lack_[cell(x, y)] >= 0) allow_parts(x, y);
        if (over()) return false;
    }
    for (std::int32_t x = 1; x < grid_.x.size(); ++x)
        for (std::int32_t y = 1; y < grid_.y.size(); ++y) {
            if (may_lack_[cell(x, y)] >= 0) fill(x, y);
            if (over()) return false;
        }
    least_ = least;
    return true;
}

std::vector<NearBest::Found> NearBest::found() const {
    std::vector<Found> found;
    for (std::size_t s = 0; s < corners_.size(); ++s) {
        const auto [x, y] = corners_[s];
        const auto entries = entries_.find(cell(x, y));
        if (entries == entries_.end()) continue;
        for (const Entry& entry : entries->second) {
            if (value(x, y) - entry.lacks < least_[s]) break;
            found.push_back({s, sets_[static_cast<std::size_t>(entry.set)]});
        }
    }
    return found;
}

Block NearBest::block(const Found& found) const {
    const auto [x, y] = corners_[found.sheet];
    const Entries& entries = entries_.at(cell(x, y));
    const auto entry = std::find_if(entries.begin(), entries.end(), [&](const Entry& e) {
        return sets_[static_cast<std::size_t>(e.set)] == found.counts;
    });
    return block(x, y, static_cast<std::size_t>(entry - entries.begin()));
}

Block NearBest::block(std::int32_t x, std::int32_t y, std::size_t number) const {
    const Entry& entry = entries_.at(cell(x, y))[number];
    if (entry.cut == 0) return leaf_of(instance_, entry.first, entry.second != 0);
    const bool across = entry.axis == Along::x;
    const std::int32_t rest = across ? rest_x(x, entry.cut) : rest_y(y, entry.cut);
    return joined(entry.axis,
                  across ? block(entry.cut, y, static_cast<std::size_t>(entry.first))
                         : block(x, entry.cut, static_cast<std::size_t>(entry.first)),
                  across ? block(rest, y, static_cast<std::size_t>(entry.second))
                         : block(x, rest, static_cast<std::size_t>(entry.second)));
}

} // namespace barrow::layout
