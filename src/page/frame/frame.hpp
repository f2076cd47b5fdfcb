#pragma once

#include "page/server/http.hpp"
#include "print/blocks/blocks.hpp"
#include "print/write/html.hpp"

#include <string>
#include <vector>

namespace barrow::page {

/// The rooms of the workshop, as the line of links on top of each page has them.
enum class Room { today, stock, making, bench, stall, buying, books };

/// A page of a room, before it is HTML.
struct Sheet {
    Room room = Room::today;
    std::string title;
    std::string done; ///< what was just done, said on top; may be empty
    std::string body; ///< HTML
    bool bad = false; ///< sent with status 422: what was typed was not taken
};

/// The whole page.
Response page_of(const Sheet& sheet);

/// Address of a thing of the shop: of each kind there is a page.
print::Address address_of_things();

/// Blocks inside a page.
std::string html_of(const print::Blocks& blocks);

/// A heading and what stands under it, as a part of the page that has a name of its own.
std::string section(const std::string& heading, const std::string& inside);

/// A link that looks like one.
std::string link_to(const std::string& address, const std::string& words);

/// Words in a paragraph.
std::string paragraph(const std::string& words);

} // namespace barrow::page
