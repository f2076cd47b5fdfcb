#pragma once

#include "layout/model/instance.hpp"

namespace barrow::layout {

enum class Rounding {
    up,   ///< items up: a pattern of the rounded instance holds in the true one
    down, ///< items down: a true pattern holds in the rounded instance, so its bounds are valid
};

/// The instance on a coarser grid, on which no sheet is longer than the given number of units.
/// Sheets are always rounded down (items beside each other add up to whole units). Items and sheets
/// keep their order. Without items when one would vanish.
Instance rounded(const Instance& instance, Length most, Rounding rounding);

} // namespace barrow::layout
