#pragma once

#include "base/wide.hpp"
#include "layout/model/instance.hpp"

namespace barrow::layout {

/// The item with the greatest value per area, the first of several: no rectangle can be worth more
/// than its area at that rate. Requires items.
inline const Item& densest(const Instance& instance) {
    const Item* best = &instance.items.front();
    for (const Item& item : instance.items)
        if (base::Wide(item.value) * best->area() > base::Wide(best->value) * item.area())
            best = &item;
    return *best;
}

} // namespace barrow::layout
