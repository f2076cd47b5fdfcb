#pragma once

#include <string>

namespace barrow::print {

/// Text as it may stand in XML, SVG and HTML, between tags or in an attribute in quotation marks:
/// made harmless (text/harmless.hpp), then escaped.
std::string markup_text(const std::string& text);

} // namespace barrow::print
