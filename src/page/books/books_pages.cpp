#include "page/books/books_pages.hpp"

#include "base/error.hpp"
#include "print/books/exports.hpp"
#include "print/books/history.hpp"
#include "print/books/log.hpp"
#include "print/books/reports.hpp"
#include "print/books/value.hpp"
#include "print/text/words.hpp"
#include "workshop/books/exports.hpp"
#include "workshop/books/history.hpp"
#include "workshop/books/reports.hpp"
#include "workshop/books/reverse.hpp"
#include "workshop/books/shop_file.hpp"
#include "workshop/stock/stockroom.hpp"

#include <fmt/format.h>

#include <charconv>

namespace barrow::page {
namespace {

std::int64_t entry_in(const Visit& visit) {
    std::int64_t number = 0;
    const std::string& text = visit.code();
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number; // 0 is no entry: said so by the use case
}

base::Date day_in(const std::string& typed, const std::string& field, const base::Date& else_day) {
    return typed.empty() ? else_day : base::read_date(typed, field);
}

Response books_page(Visit& visit) {
    const Values& asked = visit.request.query;
    std::string body = "<p class=\"links\">" + link_to("/books/year", "The year") + " "
                       + link_to("/books/used", "What was used") + " "
                       + link_to("/books/settings", "Settings") + " "
                       + link_to("/books/check", "Check the book") + " "
                       + link_to("/books/copies", "Copies and tables") + "</p>\n";
    body +=
        section("Where the money is", html_of(print::blocks(workshop::shop_value(visit.database))));
    const std::int64_t most = asked.get("all").empty() ? 50 : 1'000'000;
    body += section("Entries",
                    html_of(print::blocks(workshop::log(visit.database, most)))
                        + (most == 50 ? "<p>" + link_to("/books?all=yes", "All of them") + "</p>\n"
                                      : std::string()));
    return answer(visit, Room::books, "Books", body);
}

Response entry_page(Visit& visit) {
    const std::int64_t number = entry_in(visit);
    std::vector<workshop::LogLine> found;
    for (const workshop::LogLine& line : workshop::log(visit.database, 1'000'000))
        if (line.posting.id == number) found.push_back(line);
    if (found.empty())
        throw base::bad_input("entry", fmt::format("there is no entry {}", visit.code()));
    Form undo{fmt::format("/books/entry/{}/undo", number),
              "Take it back",
              {{"note", "Why", Field::As::text}}};
    undo.about = "Everything it moved is moved back, in a new entry that points at this one.";
    std::string body = html_of(print::blocks(found));
    body += found.front().reversed_by.empty()
                ? show(visit, undo)
                : paragraph("It was taken back by entry " + found.front().reversed_by + ".");
    return answer(visit, Room::books, fmt::format("Entry {}", number), body);
}

Done undo_entry(Visit& visit) {
    const auto reversed = workshop::reverse(visit.context, entry_in(visit));
    return {
        fmt::format("Entry {} is taken back by entry {}.", reversed.original.id, reversed.posting),
        fmt::format("/books/entry/{}", reversed.original.id)};
}

Response lot_page(Visit& visit) {
    return answer(visit, Room::books, "Lot " + visit.code(),
                  html_of(print::blocks(
                      workshop::history(visit.database, workshop::Subject::lot, visit.code()))));
}

std::string period_form(const std::string& path, const base::Date& from, const base::Date& to) {
    Form form{path, "Show it"};
    form.reads = form.in_one_line = true;
    form.fields = {{"from", "From", Field::As::date, base::to_text(from)},
                   {"to", "To", Field::As::date, base::to_text(to)}};
    return html(form);
}

Response year_page(Visit& visit) {
    const base::Date today = visit.today();
    const base::Date from =
        day_in(visit.request.query.get("from"), "from",
               base::read_date(base::to_text(today).substr(0, 4) + "-01-01", "from"));
    const base::Date to = day_in(visit.request.query.get("to"), "to", today);
    return answer(visit, Room::books, "The year",
                  period_form("/books/year", from, to)
                      + html_of(print::blocks(workshop::year(visit.database, from, to))));
}

Response used_page(Visit& visit) {
    const base::Date today = visit.today();
    const base::Date from =
        day_in(visit.request.query.get("from"), "from",
               base::read_date(base::to_text(today).substr(0, 4) + "-01-01", "from"));
    const base::Date to = day_in(visit.request.query.get("to"), "to", today);
    return answer(visit, Room::books, "What was used",
                  period_form("/books/used", from, to)
                      + html_of(print::blocks(workshop::usage(visit.database, from, to))));
}

Response settings_page(Visit& visit) {
    std::string body;
    for (const workshop::SettingLine& line : workshop::describe(visit.settings)) {
        Form form{"/books/settings/" + encoded(line.name), "Change"};
        form.in_one_line = true;
        form.fields = {{"value", line.name, Field::As::text, line.value, line.about}};
        body += show(visit, form);
    }
    return answer(visit, Room::books, "Settings", body);
}

Done change_one(Visit& visit) {
    workshop::change_setting(visit.context, visit.code(), visit.fields.get("value"));
    return {visit.code() + " is changed.", "/books/settings"};
}

Response check_page(Visit& visit) {
    const auto problems = workshop::check(visit.database);
    std::string body = problems.empty() ? paragraph("The book is sound. Every lot, offcut and "
                                                    "journal adds up to the unit.")
                                        : std::string();
    for (const std::string& problem : problems) body += paragraph(problem);
    if (!problems.empty())
        body += paragraph("The shop file is damaged. Restore a copy: barrow restore FILE");
    return answer(visit, Room::books, "Check of the book", body);
}

Response copies_page(Visit& visit) {
    Form copy{"/books/copies", "Copy the shop"};
    copy.about = "Best onto a stick. What is there is not overwritten.";
    copy.fields = {{"file",
                    "File",
                    Field::As::text,
                    visit.database.path().string() + "." + base::to_text(visit.today()),
                    "",
                    {},
                    true}};
    std::string tables = "<ul>";
    for (const std::string& name : workshop::export_names())
        tables += "<li>" + link_to("/books/table/" + name, name) + "</li>";
    return answer(visit, Room::books, "Copies and tables",
                  section("A copy of the shop", show(visit, copy))
                      + section("Tables for a spreadsheet", tables + "</ul>\n")
                      + section("Putting a copy back",
                                paragraph("A copy replaces the whole shop, so it is done in the "
                                          "terminal: barrow restore FILE. The shop that was "
                                          "there is kept beside it.")));
}

Done copy_shop(Visit& visit) {
    const std::string& file = visit.fields.get("file");
    if (file.empty() || file.front() != '/')
        throw base::bad_input("file", "is not the whole path of a file",
                              "begin with /, like /media/stick/shop.db");
    workshop::backup(visit.database, file);
    return {"The shop is copied to " + file + ".", "/books/copies"};
}

Response table_file(Visit& visit) {
    return download(visit.code() + ".csv", "text/csv; charset=utf-8",
                    print::csv(workshop::export_table(visit.database, visit.code())));
}

} // namespace

std::vector<Place> books_places() {
    return {{"/books", books_page},
            {"/books/entry/*", entry_page},
            {"/books/entry/*/undo", nullptr, undo_entry, entry_page},
            {"/books/lot/*", lot_page},
            {"/books/year", year_page},
            {"/books/used", used_page},
            {"/books/settings", settings_page},
            {"/books/settings/*", nullptr, change_one, settings_page},
            {"/books/check", check_page},
            {"/books/copies", copies_page, copy_shop, copies_page},
            {"/books/table/*", table_file}};
}

} // namespace barrow::page
