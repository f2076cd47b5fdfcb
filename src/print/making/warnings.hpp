#pragma once

#include "design/recipe/warning.hpp"
#include "print/blocks/blocks.hpp"
#include "print/json/values.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// A warning of a design as a paragraph: "Note: ..." or "Cannot be put together: ...", then `end`.
Text warning_text(const design::Warning& warning, const std::string& end = {});

/// Adds all of them, one under the other, as a group of their own.
void add_warnings(Blocks& blocks, const std::vector<design::Warning>& warnings);

/// "warnings": the text of each; "stops": of those that say it cannot be put together.
void put_warnings(Json& document, const std::vector<design::Warning>& warnings);

} // namespace barrow::print
