#include "page/today/today_page.hpp"

#include "print/books/log.hpp"
#include "print/buying/orders.hpp"
#include "print/making/batch.hpp"
#include "print/selling/fairs.hpp"
#include "print/text/words.hpp"
#include "workshop/buying/orders.hpp"
#include "workshop/making/batch_report.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/selling/fairs.hpp"
#include "workshop/shared/quantity_text.hpp"
#include "workshop/stock/stockroom.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::page {
namespace {

using print::Column;
using print::Kind;
using print::Link;

std::string low_part(const workshop::Stock& stock) {
    print::Table table({{"Material"}, {"Name"}, {"On the shelf", Kind::quantity}});
    for (const workshop::StockLine& line : stock.lines)
        if (line.low)
            table.row({print::link(Link::To::material, line.material.code), line.material.name,
                       workshop::units_text(line.material.form, line.material.bulk_unit == "g",
                                            line.units)});
    if (table.empty()) return paragraph("Nothing is below its reorder level.");
    print::Blocks blocks("Low");
    blocks.add(table);
    return html_of(blocks) + "<p>" + link_to("/buying", "See what to order") + "</p>\n";
}

std::string bench_part(store::Database& database) {
    std::vector<workshop::BatchListLine> open;
    for (const auto& line : workshop::list_batches(database))
        if (line.batch.status == store::BatchStatus::planned
            || line.batch.status == store::BatchStatus::cut)
            open.push_back(line);
    if (open.empty()) return paragraph("No batch is under way.");
    return html_of(print::blocks(open));
}

std::string fair_part(const Visit& visit) {
    const workshop::Fairs fairs = workshop::fairs(visit.database);
    const workshop::FairView* next = nullptr;
    for (const workshop::FairView& fair : fairs.fairs) // latest first
        if (!(fair.fair.held_on < visit.today())) next = &fair;
    if (next == nullptr)
        return "<p>No fair is noted. " + link_to("/stall", "Note the next one") + "</p>\n";
    return "<p>" + link_to(fmt::format("/stall/fair/{}", next->fair.number), next->fair.name)
           + fmt::format(", {}, {} taken along.</p>\n", base::to_text(next->fair.held_on),
                         counted(static_cast<std::int64_t>(next->fair.journals.size()), "journal",
                                 "journals"));
}

std::string box_part(const Visit& visit) {
    const workshop::OffcutBox box = workshop::offcuts(visit.database, visit.today());
    if (box.lines.empty()) return paragraph("The offcut box is empty.");
    const auto oldest = std::max_element(
        box.lines.begin(), box.lines.end(),
        [](const auto& one, const auto& other) { return one.age_days < other.age_days; });
    const std::string label = oldest->there.offcut.code;
    return fmt::format("<p>{} worth {}. Longest kept: ",
                       counted(static_cast<std::int64_t>(box.lines.size()), "offcut", "offcuts"),
                       print::with_currency(box.value, visit.settings.currency))
           + link_to("/stock/offcut/" + encoded(label), label)
           + fmt::format(", {}. ", print::age_text(oldest->age_days))
           + link_to("/stock/offcuts", "Open the box") + "</p>\n";
}

std::string orders_part(const Visit& visit) {
    const workshop::Orders orders = workshop::orders(visit.database, visit.today(), false);
    if (orders.orders.empty()) return paragraph("No order is on its way.");
    return html_of(print::blocks(orders));
}

/// What a new shop needs first, in the order in which it is done.
std::string first_steps(const workshop::Stock& stock, bool designs) {
    if (!stock.lines.empty() && designs) return {};
    std::string text = "<ol>";
    if (stock.lines.empty())
        text += "<li>" + link_to("/stock", "Book what you bought")
                + ": papers, board, envelopes, wire</li>";
    text += "<li>" + link_to("/designs", "Begin a design") + " from one of the bases</li>";
    return section("First steps", text + "</ol>\n");
}

Response today_page(Visit& visit) {
    const workshop::Stock stock = workshop::stock(visit.database);
    const workshop::ShopValue value = workshop::shop_value(visit.database);
    std::string body = first_steps(stock, !workshop::list_designs(visit.database).empty());
    body += "<div class=\"cards\">\n";
    body += section("Low", low_part(stock));
    body += section("On the bench", bench_part(visit.database));
    body += section("Next fair", fair_part(visit));
    body += section("On order", orders_part(visit));
    body += section("Offcut box", box_part(visit));
    body += section(
        "The book",
        paragraph(
            value.difference.is_zero()
                ? "Every penny is accounted for."
                : fmt::format("{} cannot be accounted for.",
                              print::with_currency(value.difference, visit.settings.currency)))
            + "<p>" + link_to("/books", "Look into the book, check it or copy it") + "</p>\n");
    body += "</div>\n";
    const auto last = workshop::log(visit.database, 6);
    body += section("Last entries", last.empty() ? paragraph("Nothing is booked yet.")
                                                 : html_of(print::blocks(last)));
    return answer(visit, Room::today, "Today", body);
}

} // namespace

std::vector<Place> today_places() {
    return {{"/", today_page}};
}

} // namespace barrow::page
