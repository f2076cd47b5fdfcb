#include "layout/lengths/bars.hpp"

#include <algorithm>
#include <numeric>

namespace barrow::layout {

std::vector<std::size_t> longest_first(const Instance& instance) {
    std::vector<std::size_t> kinds(instance.items.size());
    std::iota(kinds.begin(), kinds.end(), std::size_t{0});
    std::stable_sort(kinds.begin(), kinds.end(), [&](std::size_t a, std::size_t b) {
        return instance.items[a].width > instance.items[b].width;
    });
    return kinds;
}

Solution answer_of_bars(const Instance& instance, const std::vector<BarContent>& bars) {
    Solution solution;
    solution.unplaced.assign(instance.items.size(), 0);
    for (const BarContent& bar : bars) {
        Block row;
        for (const auto& [item, copies] : bar)
            for (std::int64_t n = 0; n < copies; ++n)
                put_beside(Along::x, row,
                           leaf_of(instance, static_cast<std::int32_t>(item), false));
        solution.patterns.push_back({0, 1, std::move(row)});
        solution.cost += instance.sheets.front().cost;
    }
    return solution;
}

} // namespace barrow::layout
