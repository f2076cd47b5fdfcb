#pragma once

#include "layout/job.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>
#include <vector>

namespace barrow::layout::test {

/// The answer to a small job by trying every guillotine cut tree: every cut at every whole measure
/// with every split of the pieces. Shares nothing with the engine but the job.
class BruteForce {
public:
    explicit BruteForce(const Job& job) : job_(job) {
        for (const Piece& piece : job.pieces) {
            unit_.push_back(all_);
            base_.push_back(static_cast<int>(*piece.count) + 1);
            all_ *= base_.back();
        }
    }

    /// Least cost of all pieces; nothing when they cannot all be cut.
    std::optional<Cost> least_cost() {
        std::vector<std::int64_t> copies;
        for (const Stock& stock : job_.stock) copies.push_back(stock.count.value_or(99));
        cheapest_.clear();
        return cheapest(0, all_ - 1, copies.front());
    }

    /// Most value of pieces on a sheet of the first entry.
    Cost most_value() {
        Cost best = 0;
        for (int set = 0; set < all_; ++set) {
            Cost value = 0;
            for (std::size_t i = 0; i < unit_.size(); ++i)
                value += count(set, i) * job_.pieces[i].value;
            if (value > best && holds(job_.stock.front(), set)) best = value;
        }
        return best;
    }

private:
    int count(int set, std::size_t piece) const { return set / unit_[piece] % base_[piece]; }

    bool part_of(int part, int set) const {
        for (std::size_t i = 0; i < unit_.size(); ++i)
            if (count(part, i) > count(set, i)) return false;
        return true;
    }

    bool holds(const Stock& stock, int set) {
        const Margin& m = stock.margin;
        return can(stock.width - m.left - m.right, stock.height - m.top - m.bottom, set);
    }

    bool alone(Measure width, Measure height, int set) const {
        for (std::size_t i = 0; i < unit_.size(); ++i) {
            if (set != unit_[i]) continue;
            const Piece& p = job_.pieces[i];
            return (p.width <= width && p.height <= height)
                   || (p.turn == Turn::quarter && !job_.one_dimensional && p.height <= width
                       && p.width <= height);
        }
        return false;
    }

    bool can(Measure width, Measure height, int set) {
        if (set == 0) return true;
        if (width <= 0 || height <= 0) return false;
        Measure area = 0;
        for (std::size_t i = 0; i < unit_.size(); ++i)
            area += count(set, i) * job_.pieces[i].width * job_.pieces[i].height;
        if (area > width * height) return false;
        if (alone(width, height, set)) return true;
        const auto key = std::tuple(width, height, set);
        if (const auto known = can_.find(key); known != can_.end()) return known->second;
        return can_[key] = split(width, height, set);
    }

    bool split(Measure width, Measure height, int set) {
        for (int part = 1; part < set; ++part) {
            if (!part_of(part, set)) continue;
            for (Measure at = 1; at < width; ++at)
                if (can(at, height, part) && can(width - at - job_.kerf, height, set - part))
                    return true;
            for (Measure at = 1; at < height; ++at)
                if (can(width, at, part) && can(width, height - at - job_.kerf, set - part))
                    return true;
        }
        return false;
    }

    std::optional<Cost> cheapest(std::size_t stock, int set, std::int64_t copies) {
        if (set == 0) return 0;
        const auto key = std::tuple(stock, set, copies);
        if (const auto known = cheapest_.find(key); known != cheapest_.end()) return known->second;
        std::optional<Cost> best;
        if (stock + 1 < job_.stock.size())
            best = cheapest(stock + 1, set, job_.stock[stock + 1].count.value_or(99));
        for (int part = 1; part <= set && copies > 0; ++part) {
            if (!part_of(part, set) || !holds(job_.stock[stock], part)) continue;
            const auto rest = cheapest(stock, set - part, copies - 1);
            if (rest && (!best || job_.stock[stock].cost + *rest < *best))
                best = job_.stock[stock].cost + *rest;
        }
        cheapest_[key] = best;
        return best;
    }

    const Job& job_;
    std::vector<int> unit_;
    std::vector<int> base_;
    int all_ = 1;
    std::map<std::tuple<Measure, Measure, int>, bool> can_;
    std::map<std::tuple<std::size_t, int, std::int64_t>, std::optional<Cost>> cheapest_;
};

} // namespace barrow::layout::test
