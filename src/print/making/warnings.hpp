#pragma once

#include "design/recipe/warning.hpp"
#include "print/json/values.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// A warning of a design as a paragraph: "Mind: ..." or "Cannot be put together: ...", then `end`.
std::string warning_text(const design::Warning& warning, const std::string& end = {});

/// "warnings": the text of each; "stops": of those that say it cannot be put together.
void put_warnings(Json& document, const std::vector<design::Warning>& warnings);

} // namespace barrow::print
