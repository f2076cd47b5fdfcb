#include "page/stock/stock_pages.hpp"

#include "page/stock/material_form.hpp"
#include "print/books/history.hpp"
#include "print/making/yields.hpp"
#include "print/stock/lots.hpp"
#include "print/stock/offcuts.hpp"
#include "print/stock/stock.hpp"
#include "print/stock/stocktake.hpp"
#include "print/text/words.hpp"
#include "workshop/books/history.hpp"
#include "workshop/buying/delivery.hpp"
#include "workshop/making/yields.hpp"
#include "workshop/shared/quantity_text.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/leaving.hpp"
#include "workshop/stock/offcut_box.hpp"
#include "workshop/stock/stocktake.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace barrow::page {
namespace {

std::vector<std::pair<std::string, std::string>> material_choices(store::Database& database) {
    std::vector<std::pair<std::string, std::string>> choices = {{"", "Choose"}};
    for (const auto& line : workshop::list_materials(database))
        choices.emplace_back(line.material.code, line.material.code + ": " + line.material.name);
    return choices;
}

Form receive_form(const Visit& visit, const std::string& material) {
    Form form{"/stock/material/" + encoded(material) + "/receive", "Book it in"};
    form.fields.push_back({"packs", "Packs", Field::As::text, "", "or how many sheets or pieces:"});
    form.fields.push_back({"units", "Units", Field::As::text, "", "20, or 250 ml"});
    form.fields.push_back({"cost", "Paid for all of it", Field::As::text, "",
                           "without freight and tax; 0 for a free sample"});
    form.fields.push_back({"price", "or for one pack", Field::As::text});
    form.fields.push_back({"freight", "Freight", Field::As::text});
    form.fields.push_back({"date", "Day it came", Field::As::date, base::to_text(visit.today())});
    form.fields.push_back({"note", "Note", Field::As::text});
    for (Field& field : form.fields) field.number = field.name != "note" && field.name != "date";
    return form;
}

Form buy_form(const Visit& visit) {
    Form form{"/stock/buy", "Book it"};
    form.about = "New to the shop or known: what it is, how it comes, what was paid.";
    form.fields = {
        {"name",
         "What it is",
         Field::As::text,
         "",
         "a name, or the code of what you have",
         {},
         true},
        {"comes",
         "It comes",
         Field::As::choice,
         "",
         "only for what is new",
         {{"", "by the piece"},
          {"sheet", "in sheets"},
          {"reel", "on a reel"},
          {"strip", "as wire, in strips of loops"},
          {"bottle", "poured"}}},
        {"size", "of this size", Field::As::text, "", "8in x 8in, 25 m, 34 loops, 250 ml"},
        {"pack", "In a pack", Field::As::text, "", "how many; empty: 1"},
        {"packs", "Packs", Field::As::text, "", "empty: 1"},
        {"paid", "Paid for all", Field::As::text, "", "0 for a free sample"},
        {"code", "Code", Field::As::text, "", "empty: made of the name"},
        {"supplier", "Supplier", Field::As::choice, "", "", supplier_choices(visit.database)},
        {"date", "Day it came", Field::As::date, base::to_text(visit.today())}};
    for (const std::size_t i : {3U, 4U, 5U}) form.fields[i].number = true;
    return form;
}

Done buy_it(Visit& visit) {
    const Values& typed = visit.fields;
    workshop::Purchase purchase;
    purchase.name = typed.get("name");
    purchase.code = typed.get("code");
    purchase.pack = typed.get("pack");
    purchase.packs = typed.get("packs");
    purchase.paid = typed.get("paid");
    purchase.supplier = typed.get("supplier");
    purchase.date = typed.get("date");
    purchase.note = typed.get("note");
    const std::string& comes = typed.get("comes");
    const std::string& size = typed.get("size");
    if (comes.empty() != size.empty())
        throw base::bad_input("size",
                              comes.empty() ? "has a size, but it comes by the piece" : "is empty",
                              "say how it comes, and how large one is");
    if (comes == "sheet") purchase.sheet = size;
    if (comes == "reel") purchase.reel = size;
    if (comes == "strip") purchase.strip = size.substr(0, size.find(" loops"));
    if (comes == "bottle") purchase.bottle = size;
    const auto bought = workshop::buy(visit.context, purchase);
    return {fmt::format("Booked: {} of {} for {}.",
                        workshop::units_text(bought.received.form, bought.received.bulk_is_mass,
                                             bought.received.units),
                        bought.received.material,
                        print::with_currency(bought.received.lot.cost, visit.settings.currency)),
            "/stock"};
}

Response stock_page(Visit& visit) {
    const workshop::Stock stock = workshop::stock(visit.database);
    std::string body = "<p class=\"links\">" + link_to("/stock/new", "A new material") + " "
                       + link_to("/stock/offcuts", "Offcut box") + " "
                       + link_to("/stock/count", "Count the shelves") + "</p>\n";
    if (stock.lines.empty()) {
        body += paragraph("Nothing is entered yet. Begin with what lies on the table.");
        body += section("Bought something", show(visit, buy_form(visit)));
    } else {
        body += "<div data-find=\"Find a material\">" + html_of(print::blocks(stock)) + "</div>\n";
        body += section("Bought something", show(visit, buy_form(visit)));
    }
    return answer(visit, Room::stock, "Stock", body);
}

Response new_page(Visit& visit) {
    std::string body = show(visit, material_form(visit, nullptr));
    return answer(visit, Room::stock, "A new material", body);
}

Done keep_new(Visit& visit) {
    const workshop::Row row = row_of(visit.fields);
    workshop::keep_materials(visit.context, {row}, workshop::Expect::fresh);
    const std::string code = row.fields.at("code");
    return {fmt::format("{} is entered. Book in what you have of it.", code),
            "/stock/material/" + encoded(code)};
}

std::string remark_on(const workshop::Stock& stock, const std::string& code) {
    for (const workshop::StockLine& line : stock.lines) {
        if (line.material.code != code) continue;
        const bool mass = line.material.bulk_unit == "g";
        std::string text = workshop::units_text(line.material.form, mass, line.units)
                           + " on the shelf, worth "
                           + print::with_currency(line.shelf_value, stock.settings.currency);
        if (line.reserved > 0)
            text += "; " + workshop::units_text(line.material.form, mass, line.reserved)
                    + " reserved for planned batches";
        if (line.on_order > 0)
            text +=
                "; " + workshop::units_text(line.material.form, mass, line.on_order) + " on order";
        if (line.offcuts > 0) text += "; " + counted(line.offcuts, "offcut", "offcuts");
        return text + (line.low ? ". That is low." : ".");
    }
    return {};
}

Response material_page(Visit& visit) {
    const store::Material material =
        workshop::material_called(visit.database, visit.code(), "material");
    const std::string at = "/stock/material/" + encoded(material.code);
    std::string body = paragraph(remark_on(workshop::stock(visit.database), material.code));
    const workshop::Lots lots = workshop::lots(visit.database, material.code);
    if (!lots.lines.empty()) body += section("Lots", html_of(print::blocks(lots)));
    body += section("Book in", show(visit, receive_form(visit, material.code)));
    Form off{at + "/write-off", "Write it off"};
    off.fields = {{"units", "How much", Field::As::text, "", "3, or 40 ml", {}, true, true},
                  {"note", "Why", Field::As::text, "", "spoiled, lost, given away", {}, true}};
    body += section("Write off", show(visit, off));
    body += section("What the program knows of it", show(visit, material_form(visit, &material)));
    body += section("History", html_of(print::blocks(workshop::history(
                                   visit.database, workshop::Subject::material, material.code))));
    return answer(visit, Room::stock, material.code + ": " + material.name, body);
}

Done receive_this(Visit& visit) {
    workshop::Row row = row_of(visit.fields);
    row.fields["material"] = visit.code();
    const auto came = workshop::receive(visit.context, {row}, costing::ShareBy::value);
    std::string said;
    for (const workshop::Received& one : came)
        said +=
            fmt::format("Booked in: {} of {} for {}. ",
                        workshop::units_text(one.form, one.bulk_is_mass, one.units), one.material,
                        print::with_currency(one.lot.cost, visit.settings.currency));
    return {said, "/stock/material/" + encoded(came.front().material)};
}

Done write_off(Visit& visit) {
    const workshop::Left left =
        workshop::write_off_material(visit.context, visit.code(), visit.fields.get("units"));
    return {fmt::format("Written off: {}, {}.", left.what,
                        print::with_currency(left.value, visit.settings.currency)),
            "/stock/material/" + encoded(visit.code())};
}

Done change_material(Visit& visit) {
    workshop::Row row = row_of(visit.fields);
    row.fields["code"] = visit.code();
    // A text that was emptied in the form is meant to be empty.
    for (const char* name : {"collection", "note", "place", "supplier", "grain"})
        if (visit.fields.has(name) && row.fields.count(name) == 0) row.fields[name] = "-";
    const workshop::Kept kept =
        workshop::keep_materials(visit.context, {row}, workshop::Expect::known);
    return {kept.changed > 0 ? visit.code() + " is changed." : "Nothing was changed.",
            "/stock/material/" + encoded(visit.code())};
}

/// The box drawn to scale: every rectangle against the same square, largest first.
std::string drawn_box(const workshop::OffcutBox& box, base::Unit unit) {
    std::vector<const workshop::OffcutLine*> lines;
    for (const workshop::OffcutLine& line : box.lines)
        if (line.form == base::Form::sheet) lines.push_back(&line);
    if (lines.empty()) return {};
    std::stable_sort(lines.begin(), lines.end(), [](const auto* one, const auto* other) {
        return one->there.quantity > other->there.quantity;
    });
    std::int64_t longest = 1;
    for (const auto* line : lines)
        longest =
            std::max({longest, line->there.offcut.size.width, line->there.offcut.size.height});
    std::string text = "<ul class=\"box\">\n";
    for (const auto* line : lines) {
        const base::StockSize& size = line->there.offcut.size;
        constexpr std::int64_t side = 130; // pixels of the longest of all
        const std::int64_t width = std::max<std::int64_t>(2, size.width * side / longest);
        const std::int64_t height = std::max<std::int64_t>(2, size.height * side / longest);
        const std::string& label = line->there.offcut.code;
        text += fmt::format(
            "<li><a href=\"/stock/offcut/{}\"><svg width=\"{}\" height=\"{}\" aria-hidden=\"true\">"
            "<rect class=\"paper\" x=\"0.5\" y=\"0.5\" width=\"{}\" height=\"{}\"/></svg>"
            "<b>{}</b></a> {}<br/>{}</li>\n",
            encoded(label), width + 1, height + 1, width, height, label,
            print::size_text(line->form, size, unit), print::age_text(line->age_days));
    }
    return text + "</ul>\n";
}

Response box_page(Visit& visit) {
    const workshop::OffcutBox box = workshop::offcuts(visit.database, visit.today());
    std::string body;
    if (box.lines.empty())
        body = paragraph("The box is empty. What a cut plan keeps goes into it by itself.");
    else
        body = drawn_box(box, visit.settings.unit) + html_of(print::blocks(box));
    Form found{"/stock/offcuts/found", "Put it into the box"};
    found.about = "A piece the book does not know: thought waste, found in the bin.";
    found.fields = {
        {"material", "Material", Field::As::choice, "", "", material_choices(visit.database), true},
        {"size", "Size", Field::As::text, "", "120mm x 80mm, 40cm, 6 loops", {}, true},
        {"place", "Place", Field::As::text}};
    body += section("Found a piece", show(visit, found));
    return answer(visit, Room::stock, "Offcut box", body);
}

Done keep_found_piece(Visit& visit) {
    const auto made = workshop::keep_found(visit.context, visit.fields.get("material"),
                                           visit.fields.get("size"), visit.fields.get("place"));
    return {"Write this label on it: " + made.offcuts.front().offcut.code, "/stock/offcuts"};
}

Response offcut_page(Visit& visit) {
    const workshop::Yields yields =
        workshop::yields(visit.database, visit.code(), {}, visit.today());
    const std::string label = yields.offcut.offcut.code;
    const std::string at = "/stock/offcut/" + encoded(label);
    std::string body =
        "<p>" + link_to("/stock/material/" + encoded(yields.material.code), yields.material.name)
        + fmt::format(
            ", {}, worth {}, {} old.</p>\n",
            print::size_text(yields.material.form, yields.offcut.offcut.size, visit.settings.unit),
            print::with_currency(yields.offcut.value, visit.settings.currency),
            print::age_text(yields.age_days));
    body += section("What it would give", html_of(print::blocks(yields)));
    Form place{at + "/place",
               "Keep",
               {{"place", "Place", Field::As::text, yields.offcut.offcut.place},
                {"note", "Note", Field::As::text, yields.offcut.offcut.note}}};
    body += section("Where it is", show(visit, place));
    Form split{at + "/split", "Cut it up"};
    split.fields = {{"sizes", "Sizes", Field::As::text, "", "120mm x 80mm, 60mm x 80mm", {}, true}};
    body += section("Cut into smaller ones", show(visit, split));
    Form off{
        at + "/write-off", "Write it off", {{"note", "Why", Field::As::text, "", "", {}, true}}};
    body += section("Write off", show(visit, off));
    body += section("History", html_of(print::blocks(workshop::history(
                                   visit.database, workshop::Subject::offcut, label))));
    return answer(visit, Room::stock, "Offcut " + label, body);
}

Done place_offcut(Visit& visit) {
    const auto text = [&](const char* name) {
        return visit.fields.get(name).empty() ? std::string("-") : visit.fields.get(name);
    };
    workshop::describe_offcut(visit.context, visit.code(), text("place"), text("note"));
    return {"Noted.", "/stock/offcut/" + encoded(visit.code())};
}

Done split_this(Visit& visit) {
    std::vector<std::string> sizes;
    std::istringstream typed(visit.fields.get("sizes"));
    for (std::string size; std::getline(typed, size, ',');) sizes.push_back(size);
    std::string labels;
    for (const auto& made : workshop::split_offcut(visit.context, visit.code(), sizes).offcuts)
        labels += (labels.empty() ? "" : ", ") + made.offcut.code;
    return {"Write these labels on the pieces: " + labels, "/stock/offcuts"};
}

Done write_off_this(Visit& visit) {
    const workshop::Left left = workshop::write_off_offcut(visit.context, visit.code());
    return {fmt::format("Written off: {}, {}.", left.what,
                        print::with_currency(left.value, visit.settings.currency)),
            "/stock/offcuts"};
}

Response count_page(Visit& visit) {
    std::string body;
    std::optional<workshop::CountSheet> open;
    try {
        open = workshop::count_sheet(visit.database);
    } catch (const base::Error&) { // none is open
    }
    if (!open) {
        Form begin{
            "/stock/count/begin",
            "Begin to count",
            {{"place", "Only at this place", Field::As::text, "", "empty: everything there is"}}};
        body = show(visit, begin);
    } else {
        body = html_of(print::blocks(*open));
        Form enter{"/stock/count/enter", "Enter"};
        enter.fields = {
            {"code", "Material or label of an offcut", Field::As::text, "", "", {}, true},
            {"counted",
             "Counted",
             Field::As::text,
             "",
             "12, 180 ml; an offcut: 1 is there, 0 is not",
             {},
             true,
             true}};
        enter.in_one_line = true;
        body += section("Enter what you count", show(visit, enter));
        body += section("When all is counted",
                        show(visit, {"/stock/count/post", "Correct the book"})
                            + show(visit, {"/stock/count/drop", "Give the count up"}));
    }
    return answer(visit, Room::stock, "Count the shelves", body);
}

Done begin_count(Visit& visit) {
    workshop::start_stocktake(visit.context, visit.fields.get("place"));
    return {"The count is open.", "/stock/count"};
}

Done enter_count(Visit& visit) {
    workshop::enter_counts(visit.context, {row_of(visit.fields)});
    return {visit.fields.get("code") + " is entered.", "/stock/count"};
}

Done post_count(Visit& visit) {
    const workshop::CountPosted posted = workshop::post_stocktake(visit.context);
    return {fmt::format("The book is corrected: {}, {} written off.",
                        counted(posted.corrected, "difference", "differences"),
                        print::with_currency(posted.missing, visit.settings.currency)),
            "/stock"};
}

Done drop_count(Visit& visit) {
    workshop::drop_stocktake(visit.context);
    return {"The count is closed; the book is as it was.", "/stock"};
}

} // namespace

std::vector<Place> stock_places() {
    return {{"/stock", stock_page},
            {"/stock/new", new_page, keep_new, new_page},
            {"/stock/buy", nullptr, buy_it, stock_page},
            {"/stock/material/*", material_page},
            {"/stock/material/*/receive", nullptr, receive_this, material_page},
            {"/stock/material/*/write-off", nullptr, write_off, material_page},
            {"/stock/material/*/change", nullptr, change_material, material_page},
            {"/stock/offcuts", box_page},
            {"/stock/offcuts/found", nullptr, keep_found_piece, box_page},
            {"/stock/offcut/*", offcut_page},
            {"/stock/offcut/*/place", nullptr, place_offcut, offcut_page},
            {"/stock/offcut/*/split", nullptr, split_this, offcut_page},
            {"/stock/offcut/*/write-off", nullptr, write_off_this, offcut_page},
            {"/stock/count", count_page},
            {"/stock/count/begin", nullptr, begin_count, count_page},
            {"/stock/count/enter", nullptr, enter_count, count_page},
            {"/stock/count/post", nullptr, post_count, count_page},
            {"/stock/count/drop", nullptr, drop_count, count_page}};
}

} // namespace barrow::page
