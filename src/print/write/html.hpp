#pragma once

#include "print/blocks/blocks.hpp"

#include <functional>
#include <string>

namespace barrow::print {

/// Gives the address of a thing, or nothing where it has no page.
using Address = std::function<std::string(const Link&)>;

/// The answer as HTML for the inside of a page. It is also well-formed XML: headings (h2),
/// paragraphs, tables with <th scope>, lists of steps, figures. Every text is escaped; there is no
/// script. Cells that name a thing are links where `address` gives one.
std::string html(const Blocks& blocks, const Address& address = {});

/// The same as a whole page that needs no other file: HTML 5 in XML syntax, its style inside it.
std::string html_page(const Blocks& blocks, const Address& address = {});

} // namespace barrow::print
