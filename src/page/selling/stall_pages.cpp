#include "page/selling/stall_pages.hpp"

#include "base/error.hpp"
#include "page/server/secret.hpp"
#include "print/books/history.hpp"
#include "print/selling/fairs.hpp"
#include "print/selling/journals.hpp"
#include "print/text/markup.hpp"
#include "print/text/words.hpp"
#include "workshop/books/history.hpp"
#include "workshop/selling/fairs.hpp"
#include "workshop/selling/journal_care.hpp"
#include "workshop/stock/stockroom.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <set>
#include <sstream>

namespace barrow::page {
namespace {

using print::markup_text;

std::int64_t fair_number(const Visit& visit) {
    std::int64_t number = 0;
    const std::string& text = visit.code();
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number; // 0 is no fair: said so by the use case
}

/// Serials as they are typed: blanks or commas between them.
workshop::Serials serials_in(const std::string& typed) {
    std::string plain = typed;
    std::replace(plain.begin(), plain.end(), ',', ' ');
    std::istringstream words(plain);
    workshop::Serials serials;
    for (std::string serial; words >> serial;) serials.push_back(serial);
    if (serials.empty()) throw base::bad_input("serials", "no journal is named", "like 1-01 1-02");
    return serials;
}

Form new_fair_form(const Visit& visit) {
    Form form{"/stall", "Note it"};
    form.fields = {{"name", "Name", Field::As::text, "", "Spring fair", {}, true},
                   {"on", "Day", Field::As::date, base::to_text(visit.today()), "", {}, true},
                   {"fee", "Pitch fee", Field::As::text}};
    form.fields[2].number = true;
    return form;
}

Response stall_page(Visit& visit) {
    const workshop::Fairs fairs = workshop::fairs(visit.database);
    const workshop::Journals journals = workshop::journals(visit.database);
    std::string body;
    if (!fairs.fairs.empty()) body += html_of(print::blocks(fairs));
    body += section("A fair to come", show(visit, new_fair_form(visit)));
    std::string hand = journals.lines.empty() ? paragraph("No journal is in hand.")
                                              : html_of(print::blocks(journals));
    if (!journals.lines.empty()) {
        Form sell{"/stall/sell", "Sold"};
        sell.about = "Sold elsewhere than at a fair.";
        sell.fields = {{"serials", "Journals", Field::As::text, "", "1-01 1-02", {}, true},
                       {"price", "Each for", Field::As::text},
                       {"note", "Note", Field::As::text}};
        sell.fields[1].number = true;
        sell.in_one_line = true;
        hand += show(visit, sell);
    }
    body += section("In hand", hand);
    return answer(visit, Room::stall, "Stall", body);
}

Done note_fair(Visit& visit) {
    const auto fair = workshop::new_fair(
        visit.context, {visit.fields.get("name"), base::read_date(visit.fields.get("on"), "on"),
                        visit.fields.get("fee")});
    return {fair.fair.name + " is noted.", fmt::format("/stall/fair/{}", fair.fair.number)};
}

Done sell_elsewhere(Visit& visit) {
    const auto left =
        workshop::sell_journals(visit.context, serials_in(visit.fields.get("serials")),
                                {visit.fields.get("price"), std::nullopt});
    return {counted(static_cast<std::int64_t>(left.journals.size()), "journal is", "journals are")
                + " sold.",
            "/stall"};
}

/// A button to sell one journal: design, serial, price. The script keeps the sale on this device
/// when the shop cannot be reached, and sends it later under the same key.
std::string sell_button(std::int64_t fair, const std::string& serial, const std::string& name,
                        const std::string& price, const std::string& currency) {
    return fmt::format(
        "<form class=\"sell\" method=\"post\" action=\"/stall/fair/{0}/sell\" data-sale=\"{1}\">"
        "<input type=\"hidden\" name=\"key\" value=\"{2}\"/><input type=\"hidden\" "
        "name=\"serials\" value=\"{1}\"/><span><b>{3}</b> {1}</span><label>{5} <input "
        "type=\"text\" inputmode=\"decimal\" name=\"price\" value=\"{4}\" required=\"required\" "
        "aria-label=\"Price of {1} in {5}\"/></label><button type=\"submit\">Sold<span "
        "class=\"unseen\"> {1}</span></button></form>\n",
        fair, markup_text(serial), new_secret(), markup_text(name), markup_text(price),
        markup_text(currency));
}

std::string to_sell(const Visit& visit, const workshop::FairView& fair) {
    std::string text;
    for (std::size_t i = 0; i < fair.fair.journals.size(); ++i) {
        const store::FairJournal& one = fair.fair.journals[i];
        if (one.sold_for) continue;
        text +=
            sell_button(fair.fair.number, one.journal.serial, one.design_name,
                        fair.asked.at(i) ? base::to_text(*fair.asked.at(i), visit.settings.currency)
                                         : std::string(),
                        visit.settings.currency.code);
    }
    if (text.empty()) return paragraph("Nothing that was taken along is left to sell.");
    return "<div id=\"waiting\" hidden=\"hidden\" data-fair=\"" + std::to_string(fair.fair.number)
           + "\"></div>\n<div class=\"sells\">\n" + text + "</div>\n";
}

Response fair_page(Visit& visit) {
    const auto fair = workshop::fair_numbered(visit.database, fair_number(visit));
    const std::string at = fmt::format("/stall/fair/{}", fair.fair.number);
    std::string body;
    if (!fair.fair.journals.empty()) body += section("Sell", to_sell(visit, fair));
    Form take{at + "/take", "Take along"};
    take.fields = {{"serials", "Journals", Field::As::text, "", "serials: 1-01 1-02"}};
    std::set<std::string> listed;
    std::set<std::string> designs;
    for (const auto& one : fair.fair.journals) listed.insert(one.journal.serial);
    for (const auto& line : workshop::journals(visit.database).lines)
        if (listed.count(line.journal.serial) == 0) designs.insert(line.design_code);
    for (const std::string& design : designs) {
        Field field{"take." + design, "How many of " + design};
        field.number = true;
        take.fields.push_back(field);
    }
    body += section("Take along", designs.empty() ? paragraph("No other journal is in hand.")
                                                  : show(visit, take));
    Form pay{at + "/pay", "Note the cost"};
    pay.fields = {{"what", "What for", Field::As::text, "", "bus, table, parking", {}, true},
                  {"amount", "Amount", Field::As::text, "", "", {}, true, true}};
    pay.in_one_line = true;
    body += section("What else it cost", show(visit, pay));
    body += section("How it stands", html_of(print::blocks(fair)));
    return answer(visit, Room::stall, fair.fair.name, body);
}

Done take_along(Visit& visit) {
    workshop::Taking taking;
    if (!visit.fields.get("serials").empty())
        taking.serials = serials_in(visit.fields.get("serials"));
    for (const auto& [design, typed] : visit.fields.under("take.")) {
        std::int64_t number = 0;
        const auto read = std::from_chars(typed.data(), typed.data() + typed.size(), number);
        if (read.ec != std::errc() || read.ptr != typed.data() + typed.size() || number < 0)
            throw base::bad_input("take." + design,
                                  fmt::format("\"{}\" is not a number of journals", typed));
        if (number > 0) taking.designs.emplace_back(design, number);
    }
    const auto fair = workshop::take_to_fair(visit.context, fair_number(visit), taking);
    return {
        counted(static_cast<std::int64_t>(fair.fair.journals.size()), "journal goes", "journals go")
            + " along.",
        fmt::format("/stall/fair/{}", fair.fair.number)};
}

Done pay(Visit& visit) {
    const auto fair = workshop::pay_for_fair(visit.context, fair_number(visit),
                                             visit.fields.get("what"), visit.fields.get("amount"));
    return {"The cost is noted.", fmt::format("/stall/fair/{}", fair.fair.number)};
}

Done sell_there(Visit& visit) {
    const auto [left, fair] =
        workshop::sell_at_fair(visit.context, fair_number(visit),
                               serials_in(visit.fields.get("serials")), visit.fields.get("price"));
    base::Money sum;
    for (const base::Money price : left.prices) sum = sum + price;
    return {fmt::format("{} sold for {}. Takings: {}.", left.journals.front().serial,
                        print::with_currency(sum, visit.settings.currency),
                        print::with_currency(fair.takings, visit.settings.currency)),
            fmt::format("/stall/fair/{}", fair.fair.number)};
}

Response journal_page(Visit& visit) {
    const store::Journal journal = workshop::journal_called(visit.database, visit.code());
    const std::string at = "/stall/journal/" + encoded(journal.serial);
    const auto money = [&](base::Money amount) {
        return print::with_currency(amount, visit.settings.currency);
    };
    print::Blocks blocks(journal.serial);
    blocks.add(print::Facts{"",
                            "",
                            {{"",
                              {{"Materials", money(journal.materials)},
                               {"Work", money(journal.labour)},
                               {"Overheads", money(journal.overheads)},
                               {"It cost", money(journal.cost())}}}}});
    std::string body = html_of(blocks);
    Form change{at + "/change", "Change it"};
    change.fields = {
        {"place", "Place", Field::As::text, journal.place},
        {"price", "Price of its own", Field::As::text,
         journal.price ? base::to_text(*journal.price, visit.settings.currency) : std::string()},
        {"condition",
         "Condition",
         Field::As::choice,
         journal.second ? "second" : "good",
         "",
         {{"good", "Good"}, {"second", "A second"}}},
        {"remark", "Note", Field::As::text, journal.note}};
    body += section("What is said of it", show(visit, change));
    body += section(
        "It left otherwise",
        show(visit,
             {at + "/give", "Given away", {{"note", "To whom", Field::As::text, "", "", {}, true}}})
            + show(visit, {at + "/damage",
                           "Damaged",
                           {{"note", "What happened", Field::As::text, "", "", {}, true}}}));
    body += section("History", html_of(print::blocks(workshop::history(
                                   visit.database, workshop::Subject::journal, journal.serial))));
    return answer(visit, Room::stall, "Journal " + journal.serial, body);
}

Done change_journal(Visit& visit) {
    const auto text = [&](const char* name) {
        return visit.fields.get(name).empty() ? std::string("-") : visit.fields.get(name);
    };
    workshop::change_journals(
        visit.context, {visit.code()},
        {text("place"), text("price"), visit.fields.get("condition"), text("remark")});
    return {"It is changed.", "/stall/journal/" + encoded(visit.code())};
}

Done give(Visit& visit) {
    workshop::give_journals(visit.context, {visit.code()});
    return {"It is given away.", "/stall/journal/" + encoded(visit.code())};
}

Done damage(Visit& visit) {
    workshop::damage_journals(visit.context, {visit.code()});
    return {"It is written off.", "/stall/journal/" + encoded(visit.code())};
}

} // namespace

std::vector<Place> stall_places() {
    return {{"/stall", stall_page, note_fair, stall_page},
            {"/stall/sell", nullptr, sell_elsewhere, stall_page},
            {"/stall/fair/*", fair_page},
            {"/stall/fair/*/take", nullptr, take_along, fair_page},
            {"/stall/fair/*/pay", nullptr, pay, fair_page},
            {"/stall/fair/*/sell", nullptr, sell_there, fair_page},
            {"/stall/journal/*", journal_page},
            {"/stall/journal/*/change", nullptr, change_journal, journal_page},
            {"/stall/journal/*/give", nullptr, give, journal_page},
            {"/stall/journal/*/damage", nullptr, damage, journal_page}};
}

} // namespace barrow::page
