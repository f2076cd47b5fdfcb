#pragma once

#include "layout/model/instance.hpp"

namespace barrow::layout {

/// Least cost of sheets whose area, taken in the order of cost for area and the last one in part,
/// is that of all items: never above the least cost of the instance. With one kind of sheet whole
/// sheets are counted. Not a bound when copies do not suffice (then nothing is feasible).
Cost area_bound(const Instance& instance);

/// Largest value that items of the sheet's area can have, the most valued for their area first
/// and the last one in part (most_value; requires a sheet).
Cost area_value_bound(const Instance& instance);

} // namespace barrow::layout
