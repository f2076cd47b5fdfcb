#include "layout/bound/stock_sums.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

using base::Wide;

constexpr std::int64_t most_steps = 20'000'000;
constexpr Wide boundless = Wide(1) << 120;

struct Bundle {
    std::size_t cost = 0; ///< in steps of cost, at least 1
    Wide area = 0;
    bool repeated = false; ///< any number of times
};

/// Limited sheets in bundles of powers of two; none costs more than `last`.
std::vector<Bundle> bundles_of(const Sheet& sheet, Cost step, std::size_t last) {
    std::vector<Bundle> bundles;
    const auto cost = static_cast<std::size_t>(sheet.cost / step);
    if (cost > last) return bundles;
    const auto useful = static_cast<std::int64_t>(last / cost);
    if (sheet.copies >= useful) return {{cost, sheet.area(), true}};
    std::int64_t left = sheet.copies;
    for (std::int64_t copies = 1; left > 0; copies *= 2) {
        const std::int64_t n = std::min(copies, left);
        bundles.push_back({cost * static_cast<std::size_t>(n), Wide(sheet.area()) * n, false});
        left -= n;
    }
    return bundles;
}

void put_in(const Bundle& bundle, std::vector<Wide>& exact) {
    const auto raise = [&](std::size_t c) {
        if (exact[c - bundle.cost] >= 0)
            exact[c] = std::max(exact[c], exact[c - bundle.cost] + bundle.area);
    };
    if (bundle.repeated)
        for (std::size_t c = bundle.cost; c < exact.size(); ++c) raise(c);
    else
        for (std::size_t c = exact.size(); c-- > bundle.cost;) raise(c);
}

} // namespace

Wide area_wanted(const Instance& instance) {
    Wide area = 0;
    for (const Item& item : instance.items) area += Wide(item.demand) * item.area();
    return area;
}

StockSums::StockSums(const Instance& instance, Cost most, Cost step) : step_(step) {
    const auto last = static_cast<std::size_t>(most / step);
    if (instance.sheets.empty()) return; // no piece fits any sheet
    if (most / step > most_steps / static_cast<Cost>(instance.sheets.size())) return;
    Wide gratis = 0;
    std::vector<Bundle> bundles;
    for (const Sheet& sheet : instance.sheets) {
        if (sheet.cost == 0) {
            gratis += Wide(sheet.copies) * sheet.area();
            continue;
        }
        const std::vector<Bundle> some = bundles_of(sheet, step, last);
        bundles.insert(bundles.end(), some.begin(), some.end());
    }
    steps_ = static_cast<std::int64_t>(bundles.size() * (last + 1)) * 2;
    if (steps_ > 4 * most_steps) return;
    exact_.assign(last + 1, -1);
    exact_[0] = gratis;
    for (const Bundle& bundle : bundles) put_in(bundle, exact_);
    at_most_ = exact_;
    for (std::size_t c = 1; c < at_most_.size(); ++c)
        at_most_[c] = std::max(at_most_[c], at_most_[c - 1]);
}

Wide StockSums::most_area(Cost budget) const {
    if (budget < 0) return -1;
    const auto index = static_cast<std::size_t>(budget / step_);
    return index < at_most_.size() ? at_most_[index] : boundless;
}

Cost StockSums::least_cost(Wide area, Cost from) const {
    for (auto c = static_cast<std::size_t>(base::divide_up(from, step_)); c < exact_.size(); ++c)
        if (exact_[c] >= area) return static_cast<Cost>(c) * step_;
    return from;
}

} // namespace barrow::layout
