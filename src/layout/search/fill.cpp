#include "layout/search/fill.hpp"

#include "base/wide.hpp"
#include "layout/bound/area.hpp"
#include "layout/search/insertion.hpp"

#include <algorithm>
#include <numeric>

namespace barrow::layout {
namespace {

Filling fill_in_order(const Instance& instance, const std::vector<std::int32_t>& kinds, Fit fit) {
    const Sheet& sheet = instance.sheets.front();
    SlicingTree tree(sheet.width, sheet.height);
    Filling filling;
    for (const std::int32_t kind : kinds) {
        const Item& item = instance.items[static_cast<std::size_t>(kind)];
        for (std::int64_t n = item.demand; n > 0; --n) {
            const Spot spot = best_spot(tree, item, fit);
            if (!spot.found()) break;
            insert_at(tree, spot, item, kind);
            filling.value += item.value;
        }
    }
    if (!tree.empty()) filling.block = tree.block();
    return filling;
}

} // namespace

Filling fill_greedily(const Instance& instance) {
    Filling best;
    if (instance.sheets.empty()) return best;
    std::vector<std::int32_t> kinds(instance.items.size());
    std::iota(kinds.begin(), kinds.end(), 0);
    const auto item = [&](std::int32_t kind) -> const Item& {
        return instance.items[static_cast<std::size_t>(kind)];
    };
    for (const bool by_density : {true, false}) {
        std::stable_sort(kinds.begin(), kinds.end(), [&](std::int32_t a, std::int32_t b) {
            if (!by_density) return item(a).value > item(b).value;
            return base::Wide(item(a).value) * item(b).area()
                   > base::Wide(item(b).value) * item(a).area();
        });
        for (const Fit fit : {Fit::area, Fit::short_side, Fit::waste}) {
            Filling filling = fill_in_order(instance, kinds, fit);
            if (filling.value > best.value) best = std::move(filling);
        }
    }
    best.bound = area_value_bound(instance);
    return best;
}

} // namespace barrow::layout
