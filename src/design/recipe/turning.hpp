#pragma once

namespace barrow::design {

/// How a piece may be turned against the sheet it is cut from.
enum class Turn { none, half, quarter };

/// Which side of a piece the grain of its paper or board must run along.
enum class Grain { width, height };

} // namespace barrow::design
