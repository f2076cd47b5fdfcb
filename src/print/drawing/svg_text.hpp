#pragma once

#include <string>

namespace barrow::print {

/// Text as it may stand in an SVG document, between tags or in an attribute.
std::string svg_text(const std::string& text);

} // namespace barrow::print
