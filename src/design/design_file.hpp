#pragma once

#include "design/design.hpp"

#include <string_view>

namespace barrow::design {

/// Reads the text of a design file (TOML 1.0; the keys are described in README.md, "A design
/// file"). `file` is only a name for messages. Throws base::Error (Kind::bad_input) that names
/// line and column of each problem: TOML that cannot be read, keys that are unknown (with the
/// nearest known one), missing or of the wrong type, names used twice, formulas that cannot be
/// parsed. Whether names and dimensions fit is only known by working the design out.
Design read_design(std::string_view text, std::string_view file);

} // namespace barrow::design
