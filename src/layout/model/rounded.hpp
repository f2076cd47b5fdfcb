#pragma once

#include "layout/model/instance.hpp"

namespace barrow::layout {

enum class Rounding {
    up,   ///< of items: what can be cut then can be cut in truth
    down, ///< what can be cut in truth can be cut then, so that bounds hold
};

/// The instance on a grid so coarse that no sheet is longer than so many units; sheets are always
/// rounded down (the units of items that lie beside each other add up to whole units). Items and
/// sheets keep their order. Empty of items when one would vanish.
Instance rounded(const Instance& instance, Length most, Rounding rounding);

} // namespace barrow::layout
