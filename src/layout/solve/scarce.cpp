#include "layout/solve/scarce.hpp"

#include "base/wide.hpp"
#include "layout/sheets/construct.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

/// Costs of the limited sheets follow their area, on a scale so coarse that sums stay small.
constexpr Cost cost_of_largest = 1000;

bool fits_unlimited(const Instance& instance, const Item& item) {
    return std::any_of(instance.sheets.begin(), instance.sheets.end(), [&](const Sheet& sheet) {
        return sheet.copies == unlimited && instance.holds(sheet, item);
    });
}

Block renumbered(Block block, const std::vector<std::int32_t>& items) {
    if (block.leaf()) block.item = items[static_cast<std::size_t>(block.item)];
    for (Block& child : block.children) child = renumbered(std::move(child), items);
    return block;
}

} // namespace

Scarce::Scarce(const Instance& instance) : given_(instance), scarce_(instance) {
    scarce_.items.clear();
    scarce_.sheets.clear();
    for (std::size_t i = 0; i < instance.items.size(); ++i) {
        if (fits_unlimited(instance, instance.items[i])) continue;
        scarce_.items.push_back(instance.items[i]);
        items_.push_back(static_cast<std::int32_t>(i));
    }
    std::int64_t largest = 1;
    for (std::size_t s = 0; s < instance.sheets.size(); ++s) {
        const Sheet& sheet = instance.sheets[s];
        const bool useful =
            std::any_of(scarce_.items.begin(), scarce_.items.end(),
                        [&](const Item& item) { return instance.holds(sheet, item); });
        if (!useful) continue;
        scarce_.sheets.push_back(sheet);
        sheets_.push_back(s);
        largest = std::max(largest, sheet.area());
    }
    const std::int64_t pieces = scarce_.pieces_wanted();
    for (Sheet& sheet : scarce_.sheets) {
        sheet.offcut = false; // offcuts would let the search end short of the goal
        sheet.copies = std::min(sheet.copies, pieces);
        sheet.cost = std::max<Cost>(
            1, static_cast<Cost>(base::Wide(sheet.area()) * cost_of_largest / largest));
        goal_ += sheet.copies * sheet.cost;
    }
    const std::size_t kinds = scarce_.sheets.size();
    if (kinds == 1) {
        scarce_.sheets.front().copies = unlimited;
        return;
    }
    for (std::size_t s = 0; s < kinds; ++s) {
        Sheet more = scarce_.sheets[s];
        more.copies = unlimited;
        more.cost = goal_ + more.cost;
        scarce_.sheets.push_back(std::move(more));
        sheets_.push_back(sheets_[s]);
    }
}

Solution Scarce::whole(const Solution& scarce, Meter& meter) const {
    Instance others = given_;
    Solution whole;
    for (const std::int32_t item : items_) others.items[static_cast<std::size_t>(item)].demand = 0;
    for (const Pattern& pattern : scarce.patterns) {
        const std::size_t sheet = sheets_[pattern.sheet];
        others.sheets[sheet].copies -= pattern.copies;
        whole.cost += pattern.copies * given_.sheets[sheet].cost;
        whole.patterns.push_back({sheet, pattern.copies, renumbered(pattern.block, items_)});
    }
    const Solution rest = construct(others, meter);
    whole.unplaced = rest.unplaced;
    whole.cost += rest.cost;
    whole.patterns.insert(whole.patterns.end(), rest.patterns.begin(), rest.patterns.end());
    return whole;
}

} // namespace barrow::layout
