#pragma once

#include "layout/model/instance.hpp"

namespace barrow::layout {

/// Cost of sheets with the total area of all items, cheapest per area first and the last one in
/// part: never above the least cost. With one kind of sheet, whole sheets. Meaningless when the
/// copies do not suffice (then nothing is feasible).
Cost area_bound(const Instance& instance);

/// Value of items with the area of the sheet, most valuable per area first and the last one in part
/// (most_value; requires a sheet).
Cost area_value_bound(const Instance& instance);

} // namespace barrow::layout
