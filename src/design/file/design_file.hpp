#pragma once

#include "design/recipe/design.hpp"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::design {

/// The text of a design file, and the name it goes by in messages.
struct DesignText {
    std::string text;
    std::string file;
};

/// Finds the text of a design that another builds on, by its code; nothing when there is none.
/// The layer reads no files and no shop itself: whoever calls it knows where designs are kept.
using DesignFinder = std::function<std::optional<DesignText>(const std::string& code)>;

/// Reads the text of a design file (TOML 1.0; the keys are described in design-file.md) with its
/// variants and everything it builds on. `file` is only a name for messages.
///
/// Throws base::Error (Kind::bad_input) that names line and column of each problem, all of them
/// together: TOML that cannot be read, keys that are unknown (with the nearest known one), missing
/// or of the wrong type, names used twice, formulas that cannot be parsed, slots, panels, folds and
/// adhesives that are not there, designs that build on each other in a circle or on one that
/// `find` does not have. Whether names in formulas and their dimensions fit is only known by
/// working the design out.
Design read_design(std::string_view text, std::string_view file, const DesignFinder& find = {});

/// The code that the text of a design file gives itself, without reading the rest; empty when it
/// cannot be told.
std::string code_in(std::string_view text);

/// The design or the variant of it that goes by `code`: its own code, "code.variant", or the
/// variant's second code; case is ignored. Nothing when none does.
const Design* find_variant(const Design& design, std::string_view code);

/// The part of a code before the last dot, and the variant behind it ("quayside.large" gives
/// "quayside" and "large"); the variant is empty when there is no dot.
struct VariantCode {
    std::string design;
    std::string variant;
};
VariantCode split_code(std::string_view code);

} // namespace barrow::design
