#pragma once

#include "layout/model/instance.hpp"

#include <vector>

namespace barrow::layout {

/// For each set of sheets that some item is confined to, the part of the instance confined to it:
/// these sheets, and every item that no other sheet holds. What a part costs, the whole costs at
/// least. Sets that are all sheets are left out.
/// Where there are more than some hundred thousand pairs of items and sheets: none.
std::vector<Instance> parts_by_need(const Instance& instance, std::int64_t& steps);

} // namespace barrow::layout
