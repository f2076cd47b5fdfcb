#include "layout/bound/area.hpp"

#include "base/wide.hpp"

#include <algorithm>
#include <numeric>

namespace barrow::layout {

using base::Wide;

Cost area_bound(const Instance& instance) {
    Wide area = 0;
    for (const Item& item : instance.items) area += Wide(item.demand) * item.area();
    if (instance.sheets.size() == 1) {
        const Sheet& only = instance.sheets.front();
        return static_cast<Cost>(base::divide_up(area, only.area()) * only.cost);
    }
    std::vector<std::size_t> order(instance.sheets.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return Wide(instance.sheets[a].cost) * instance.sheets[b].area()
               < Wide(instance.sheets[b].cost) * instance.sheets[a].area();
    });
    Wide cost = 0;
    for (const std::size_t index : order) {
        const Sheet& sheet = instance.sheets[index];
        if (Wide(sheet.copies) * sheet.area() >= area)
            return static_cast<Cost>(cost + base::divide_up(area * sheet.cost, sheet.area()));
        cost += Wide(sheet.copies) * sheet.cost;
        area -= Wide(sheet.copies) * sheet.area();
    }
    return static_cast<Cost>(cost);
}

Cost area_value_bound(const Instance& instance) {
    std::vector<std::size_t> order(instance.items.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return Wide(instance.items[a].value) * instance.items[b].area()
               > Wide(instance.items[b].value) * instance.items[a].area();
    });
    Wide area = instance.sheets.front().area();
    Wide value = 0;
    for (const std::size_t index : order) {
        const Item& item = instance.items[index];
        if (Wide(item.demand) * item.area() >= area) {
            value += area * item.value / item.area();
            break;
        }
        value += Wide(item.demand) * item.value;
        area -= Wide(item.demand) * item.area();
    }
    return static_cast<Cost>(value);
}

} // namespace barrow::layout
