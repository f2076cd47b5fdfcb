#include "print/selling/fairs.hpp"

#include "base/text.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using base::Money;
using workshop::FairView;

std::string some_journals(std::int64_t number) {
    return base::counted(number, "journal");
}

std::int64_t taken_along(const FairView& view) {
    return static_cast<std::int64_t>(view.fair.journals.size());
}

Table fair_table(const FairView& view) {
    const base::Currency& currency = view.settings.currency;
    Table table({{"Journal", Kind::label},
                 {"Design"},
                 {"Cost", Kind::money},
                 {"Asked", Kind::money},
                 {"Sold for", Kind::money},
                 {"", Kind::text, false, "Condition"}});
    for (std::size_t i = 0; i < view.fair.journals.size(); ++i) {
        const store::FairJournal& one = view.fair.journals[i];
        table.row({link(Link::To::journal, one.journal.serial), one.design_name,
                   money(one.journal.cost(), currency), money(view.asked[i], currency),
                   money(one.sold_for, currency), one.journal.second ? "second" : ""});
    }
    return table;
}

Facts fair_account(const FairView& view) {
    const base::Currency& currency = view.settings.currency;
    Facts facts{"", currency.code, {{}}};
    const auto add = [&](const std::string& what, Money amount) {
        facts.groups[0].facts.push_back({what, money(amount, currency), {}, false});
    };
    add(fmt::format("Taken for {}", some_journals(view.sold)), view.takings);
    add("- their materials", view.materials);
    for (const store::FairCost& cost : view.fair.costs) add("- " + cost.what, cost.amount);
    add("= left for your work and overheads", view.left());
    add("- your work on those sold, at your rate", view.labour);
    add("- their overheads", view.overheads);
    add("= beyond that", view.profit());
    return facts;
}

Text costs_text(const FairView& view) {
    std::string text;
    for (const store::FairCost& cost : view.fair.costs)
        text += fmt::format("{}{} {}", text.empty() ? "It costs: " : ", ", cost.what,
                            with_currency(cost.amount, view.settings.currency));
    return {text.empty() ? text : text + "."};
}

Text cover_text(const FairView& view) {
    if (view.costs.is_zero() || view.fair.journals.empty()) return {};
    for (const auto& asked : view.asked)
        if (!asked)
            return {"There is no price to ask yet: labour is not counted. Set it with: barrow "
                    "settings hourly-rate 12"};
    if (!view.to_cover || *view.to_cover > taken_along(view))
        return note("all of them sold at the prices asked would not bring in, over their "
                    "materials, what the fair costs.");
    return {fmt::format("At the prices asked, {} {} for the fair on average.",
                        some_journals(*view.to_cover), *view.to_cover == 1 ? "pays" : "pay")};
}

} // namespace

Blocks blocks(const FairView& view) {
    Blocks blocks(fmt::format("Fair {}", view.fair.number));
    blocks.add(Heading{fmt::format("Fair {}: {}, {}{}", view.fair.number, view.fair.name,
                                   base::to_text(view.fair.held_on),
                                   view.fair.undone ? " (taken back)" : "")});
    if (view.fair.journals.empty()) {
        blocks.add(Text{fmt::format("Nothing is on the list yet. Take journals along: "
                                    "barrow fair take {} DESIGN=NUMBER",
                                    view.fair.number)});
    } else {
        blocks.add(fair_table(view));
        blocks.add(
            Text{fmt::format("{} on the list, {} sold, {} not.", some_journals(taken_along(view)),
                             view.sold, taken_along(view) - view.sold)});
    }
    if (view.sold > 0) {
        blocks.add(fair_account(view));
    } else {
        blocks.under(costs_text(view));
        blocks.under(cover_text(view));
    }
    return blocks;
}

std::string screen(const FairView& view) {
    return terminal(blocks(view));
}

Blocks blocks(const workshop::Fairs& fairs) {
    Blocks blocks("Fairs");
    if (fairs.fairs.empty()) {
        blocks.add(Text{"No fairs yet. Note one with: barrow fair new NAME --on DATE"});
        return blocks;
    }
    Table table({{"Fair", Kind::count},
                 {"Day", Kind::date},
                 {"Name", Kind::text, true},
                 {"Taken along", Kind::count},
                 {"Sold", Kind::count},
                 {"Takings", Kind::money},
                 {"Materials", Kind::money},
                 {"Costs", Kind::money},
                 {"Left", Kind::money}});
    for (const FairView& view : fairs.fairs) {
        const base::Currency& currency = view.settings.currency;
        table.row({link(Link::To::fair, view.fair.number), date(view.fair.held_on), view.fair.name,
                   count(taken_along(view)), count(view.sold), money(view.takings, currency),
                   money(view.materials, currency), money(view.costs, currency),
                   money(view.left(), currency)});
    }
    blocks.add(table);
    blocks.add(Text{"Left for your work and overheads, once materials and fair are paid."});
    return blocks;
}

std::string screen(const workshop::Fairs& fairs) {
    return terminal(blocks(fairs));
}

} // namespace barrow::print
