#pragma once

#include <cstddef>
#include <string>

namespace barrow::print {

/// Text broken at spaces into lines of at most `width` columns, each but the first indented.
std::string wrapped(const std::string& text, std::size_t width, std::size_t indent);

} // namespace barrow::print
