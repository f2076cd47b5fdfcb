#include "layout/columns/proper_pricing.hpp"

#include <algorithm>
#include <cmath>

namespace barrow::layout {
namespace {

constexpr std::int64_t slower = 3;    // a step takes this much longer on small tables (measured)
constexpr double dearest_price = 1e6; // prices are scaled up to this; fine enough

void rename_items(Block& block, const std::vector<std::int32_t>& names) {
    if (block.leaf()) block.item = names[static_cast<std::size_t>(block.item)];
    for (Block& child : block.children) rename_items(child, names);
}

} // namespace

double ProperPricing::scale_for(const std::vector<double>& prices) const {
    const double dearest = *std::max_element(prices.begin(), prices.end());
    if (dearest == 0) return 1;
    // Larger values could not be added exactly.
    if (dearest * static_cast<double>(instance_.pieces_wanted()) > 4e15) return 0;
    return std::max(1.0, std::floor(dearest_price / dearest));
}

void ProperPricing::run(const std::vector<std::int64_t>& prices,
                        const std::vector<std::int64_t>& most) {
    found_.clear();
    steps_ = 0;
    for (const Sheet& sheet : instance_.sheets) {
        Instance one;
        one.sheets.push_back(sheet);
        std::vector<std::int32_t> names;
        for (std::size_t i = 0; i < prices.size(); ++i) {
            if (prices[i] == 0 || most[i] == 0 || !instance_.holds(sheet, instance_.items[i]))
                continue;
            one.items.push_back(instance_.items[i]);
            one.items.back().value = prices[i];
            one.items.back().demand = most[i];
            names.push_back(static_cast<std::int32_t>(i));
        }
        if (one.items.empty()) {
            found_.emplace_back();
            continue;
        }
        const Options options; // values are not reported to the caller
        Meter meter(options, fill_work_limit(Effort::quick));
        found_.push_back(fill(one, one_price_of_many(), meter));
        steps_ += slower * meter.steps();
        if (found_.back().block) rename_items(*found_.back().block, names);
    }
}

Block ProperPricing::block(std::size_t sheet) const {
    return *found_[sheet].block;
}

} // namespace barrow::layout
