#include "page/frame/frame.hpp"

#include "print/text/markup.hpp"

#include <array>

namespace barrow::page {
namespace {

using print::markup_text;

struct RoomLink {
    Room room;
    const char* path;
    const char* name;
};

constexpr std::array<RoomLink, 7> rooms = {{{Room::today, "/", "Today"},
                                            {Room::stock, "/stock", "Stock"},
                                            {Room::making, "/designs", "Design desk"},
                                            {Room::bench, "/bench", "Bench"},
                                            {Room::stall, "/stall", "Stall"},
                                            {Room::buying, "/buying", "Buying"},
                                            {Room::books, "/books", "Books"}}};

std::string links(Room here) {
    std::string text = "<nav aria-label=\"Rooms\"><ul>";
    for (const RoomLink& room : rooms)
        text += std::string("<li><a href=\"") + room.path + "\""
                + (room.room == here ? " aria-current=\"page\"" : "") + ">" + room.name
                + "</a></li>";
    return text + "</ul></nav>\n";
}

} // namespace

Response page_of(const Sheet& sheet) {
    Response response;
    const std::string title = markup_text(sheet.title);
    response.body =
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" "
        "content=\"width=device-width, initial-scale=1\"><title>"
        + title
        + " - Paperbarrow</title><link rel=\"stylesheet\" href=\"/page.css\"><link rel=\"icon\" "
          "href=\"/barrow.svg\"><script src=\"/page.js\" defer></script></head>\n<body><a "
          "class=\"skip\" href=\"#main\">To the page</a>\n<header>"
        + links(sheet.room) + "</header>\n<main id=\"main\">\n";
    if (!sheet.done.empty())
        response.body += "<p class=\"done\" role=\"status\">" + markup_text(sheet.done) + "</p>\n";
    response.body += "<h1>" + title + "</h1>\n" + sheet.body + "</main>\n</body></html>\n";
    if (sheet.bad) response.status = 422;
    return response;
}

print::Address address_of_things() {
    return [](const print::Link& link) -> std::string {
        using To = print::Link::To;
        const std::string code = encoded(link.code);
        switch (link.to) {
        case To::material: return "/stock/material/" + code;
        case To::lot: return "/books/lot/" + code;
        case To::offcut: return "/stock/offcut/" + code;
        case To::journal: return "/stall/journal/" + code;
        case To::batch: return "/bench/batch/" + code;
        case To::design: return "/designs/" + code;
        case To::fair: return "/stall/fair/" + code;
        case To::order: return "/buying/order/" + code;
        case To::supplier: return "/buying/supplier/" + code;
        case To::entry: return "/books/entry/" + code;
        }
        return {};
    };
}

std::string html_of(const print::Blocks& blocks) {
    return "<div class=\"answer\">\n" + print::html(blocks, address_of_things()) + "</div>\n";
}

std::string section(const std::string& heading, const std::string& inside) {
    return "<section><h2>" + markup_text(heading) + "</h2>\n" + inside + "</section>\n";
}

std::string link_to(const std::string& address, const std::string& words) {
    return "<a href=\"" + markup_text(address) + "\">" + markup_text(words) + "</a>";
}

std::string paragraph(const std::string& words) {
    return "<p>" + markup_text(words) + "</p>\n";
}

} // namespace barrow::page
