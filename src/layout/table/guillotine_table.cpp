#include "layout/table/guillotine_table.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

/// Columns computed together, so that the cells read stay in the processor's cache (found by
/// trial).
constexpr std::int32_t strip = 512;

/// target[j] = max(target[j], a[j] + b[j]): the innermost loop. Lengths are multiples of 8, so that
/// the compiler vectorises it.
template <typename Value>
void raise(Value* __restrict target, const Value* __restrict a, const Value* __restrict b,
           std::int32_t length) {
    for (std::int32_t j = 0; j < length; j += 8)
        for (std::int32_t k = 0; k < 8; ++k) {
            const Value sum = a[j + k] + b[j + k];
            target[j + k] = sum > target[j + k] ? sum : target[j + k];
        }
}

} // namespace

template <typename Value>
GuillotineTable<Value>::GuillotineTable(const Instance& instance, const Grid& grid)
    : instance_(instance), grid_(grid),
      stride_((static_cast<std::size_t>(grid.y.size()) + 7) / 8 * 8) {
    cells_.assign(stride_ * static_cast<std::size_t>(grid.x.size()), 0);
    for (std::size_t i = 0; i < instance.items.size(); ++i) {
        const Item& item = instance.items[i];
        for (const bool turned : {false, true}) {
            if (turned && !item.turns) continue;
            const Length w = turned ? item.height : item.width;
            const Length h = turned ? item.width : item.height;
            const std::int32_t x = grid.x.below(w);
            const std::int32_t y = grid.y.below(h);
            if (grid.x.at(x) == w && grid.y.at(y) == h)
                corners_.push_back({x, y, static_cast<std::int32_t>(i), turned});
        }
    }
    std::sort(corners_.begin(), corners_.end(),
              [](const Corner& a, const Corner& b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
    if (grid.y.is_dense()) return;
    for (std::int32_t y = 0; y < grid.y.size(); ++y) {
        rest_y_start_.push_back(rest_y_.size());
        for (std::int32_t cut = 1; cut < y && grid.y.at(cut) <= grid.y.at(y) / 2; ++cut)
            rest_y_.push_back(grid.y.below(grid.y.at(y) - grid.y.at(cut)));
    }
    rest_y_start_.push_back(rest_y_.size());
}

template <typename Value>
double GuillotineTable<Value>::safe_scale(const std::vector<double>& prices, double wanted) const {
    double densest = 0;
    std::int64_t area = 0;
    for (const Sheet& sheet : instance_.sheets) area = std::max(area, sheet.area());
    for (std::size_t i = 0; i < prices.size(); ++i)
        densest = std::max(densest, prices[i] / static_cast<double>(instance_.items[i].area()));
    if (densest <= 0) return wanted;
    // Slightly less than allowed, since prices are rounded up.
    return std::min(wanted,
                    0.9 * static_cast<double>(most) / (densest * static_cast<double>(area)));
}

template <typename Value>
void GuillotineTable<Value>::cuts_across(std::int32_t x, std::int32_t from, std::int32_t to) {
    Value* target = row(x);
    const Length width = grid_.x.at(x);
    std::int32_t rest = x;
    std::int64_t cuts = 0;
    for (const std::int32_t cut : useful_rows_) {
        if (grid_.x.at(cut) > width / 2) break;
        while (grid_.x.at(rest) > width - grid_.x.at(cut)) --rest;
        raise(target + from, row(cut) + from, row(rest) + from, to - from);
        ++cuts;
    }
    steps_ += cuts * ((to - from) / 8 + 2);
}

template <typename Value>
void GuillotineTable<Value>::find_useful_cuts(const Value* cells, std::int32_t end) {
    useful_cuts_.clear();
    for (std::int32_t y = 1; y < end; ++y)
        if (cells[y] > cells[y - 1]) useful_cuts_.push_back(y);
}

/// On a raster of sums: the remainder of each cut is looked up.
template <typename Value>
void GuillotineTable<Value>::cuts_up(std::int32_t x, std::int32_t from, std::int32_t to) {
    Value* cells = row(x);
    find_useful_cuts(cells, from);
    for (std::int32_t y = std::max(from, 1); y < std::min(to, grid_.y.size()); ++y) {
        const auto index = static_cast<std::size_t>(y);
        const std::int32_t* rest = rest_y_.data() + rest_y_start_[index];
        const auto last =
            static_cast<std::int32_t>(rest_y_start_[index + 1] - rest_y_start_[index]);
        Value best = std::max(cells[y], cells[y - 1]);
        for (const std::int32_t cut : useful_cuts_) {
            if (cut > last) break;
            best = std::max<Value>(best, cells[cut] + cells[rest[cut - 1]]);
        }
        cells[y] = best;
        if (best > cells[y - 1]) useful_cuts_.push_back(y);
        steps_ += std::min(last, static_cast<std::int32_t>(useful_cuts_.size()));
    }
}

/// On a dense raster, eight cells at a time: for cuts at 8 or more every cell read lies below the
/// eight and is final; the few cuts below 8 follow one by one.
template <typename Value>
void GuillotineTable<Value>::cuts_up_dense(std::int32_t x, std::int32_t from, std::int32_t to) {
    Value* cells = row(x);
    find_useful_cuts(cells, std::min(from, to / 2 + 1));
    const auto small = [](std::int32_t cut) { return cut < 8; };
    auto large = static_cast<std::size_t>(
        std::count_if(useful_cuts_.begin(), useful_cuts_.end(), small)); // first one at 8 or more
    for (std::int32_t start = from; start < to; start += 8) {
        Value* block = cells + start;
        std::size_t i = large;
        for (; i < useful_cuts_.size() && useful_cuts_[i] <= (start + 7) / 2; ++i) {
            const Value value = cells[useful_cuts_[i]];
            const Value* rest = block - useful_cuts_[i];
            for (int k = 0; k < 8; ++k) {
                const Value sum = value + rest[k];
                block[k] = sum > block[k] ? sum : block[k];
            }
        }
        steps_ += static_cast<std::int64_t>(i) + 4;
        for (std::int32_t y = std::max(start, 1); y < start + 8; ++y) {
            Value best = std::max(cells[y], cells[y - 1]);
            for (i = 0; i < large && useful_cuts_[i] <= y / 2; ++i)
                best = std::max<Value>(best, cells[useful_cuts_[i]] + cells[y - useful_cuts_[i]]);
            cells[y] = best;
            if (best > cells[y - 1] && y <= to / 2) {
                useful_cuts_.push_back(y);
                if (small(y)) ++large;
            }
        }
    }
}

template <typename Value>
void GuillotineTable<Value>::run_strip(std::int32_t from, std::int32_t to) {
    useful_rows_.clear();
    auto corner = corners_.begin();
    for (std::int32_t x = 1; x < grid_.x.size(); ++x) {
        std::copy_n(row(x - 1) + from, to - from, row(x) + from);
        for (; corner != corners_.end() && corner->x == x; ++corner) {
            if (corner->y < from || corner->y >= to) continue;
            Value& cell = row(x)[corner->y];
            cell = std::max(cell, values_[static_cast<std::size_t>(corner->item)]);
        }
        cuts_across(x, from, to);
        if (grid_.y.is_dense())
            cuts_up_dense(x, from, to);
        else
            cuts_up(x, from, to);
        // A row nowhere better than the one before it makes no useful cut.
        if (!std::equal(row(x) + from, row(x) + to, row(x - 1) + from)) useful_rows_.push_back(x);
    }
}

template <typename Value>
void GuillotineTable<Value>::run(const std::vector<Value>& values) {
    values_ = values;
    steps_ = 0;
    std::fill_n(row(0), stride_, 0);
    const auto end = static_cast<std::int32_t>(stride_);
    for (std::int32_t from = 0; from < end; from += strip)
        run_strip(from, std::min(from + strip, end));
}

template <typename Value>
bool GuillotineTable<Value>::item_at(std::int32_t x, std::int32_t y, Block& block) const {
    for (const Corner& corner : corners_) {
        if (corner.x != x || corner.y != y) continue;
        if (values_[static_cast<std::size_t>(corner.item)] != row(x)[y]) continue;
        block = leaf_of(instance_, corner.item, corner.turned);
        return true;
    }
    return false;
}

template <typename Value>
Block GuillotineTable<Value>::block_at(std::int32_t x, std::int32_t y) const {
    const Value value = row(x)[y];
    // First down to the least rectangle of this value: the rest is waste.
    while (row(x - 1)[y] == value) --x;
    while (row(x)[y - 1] == value) --y;
    Block block;
    if (item_at(x, y, block)) return block;
    for (std::int32_t cut = 1; cut < x; ++cut) {
        const std::int32_t rest = grid_.x.below(grid_.x.at(x) - grid_.x.at(cut));
        if (rest > 0 && row(cut)[y] + row(rest)[y] == value)
            return joined(Along::x, block_at(cut, y), block_at(rest, y));
    }
    for (std::int32_t cut = 1; cut < y; ++cut) {
        const std::int32_t rest = grid_.y.below(grid_.y.at(y) - grid_.y.at(cut));
        if (rest > 0 && row(x)[cut] + row(x)[rest] == value)
            return joined(Along::y, block_at(x, cut), block_at(x, rest));
    }
    return block; // unreachable: every value has one of these origins
}

template class GuillotineTable<std::int32_t>;
template class GuillotineTable<double>;

} // namespace barrow::layout
