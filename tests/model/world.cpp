#include "model/world.hpp"

#include "model/supplies.hpp"

#include "base/error.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/books/reverse.hpp"
#include "workshop/buying/delivery.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/selling/journal_apart.hpp"
#include "workshop/selling/journal_care.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/leaving.hpp"
#include "workshop/stock/offcut_box.hpp"
#include "workshop/stock/stockroom.hpp"
#include "workshop/stock/stocktake.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <sstream>

namespace model {

namespace ws = barrow::workshop;
using barrow::base::Date;

namespace {

const Date first_day = barrow::base::read_date("2027-01-04", "first day");

std::string money_text(Count minor) {
    return fmt::format("{}.{:02}", minor / 100, minor % 100);
}

/// Lengths exactly: 1/8000 mm is 0.000125 mm.
std::string length_text(Count units) {
    return fmt::format("{}.{:06}mm", units / mm, units % mm * 125);
}

std::string size_text(Count material, const Remnant& size) {
    if (material == wire) return fmt::format("{}", size.width);
    if (material == ribbon) return length_text(size.width);
    return length_text(size.width) + " x " + length_text(size.height);
}

std::string units_text(Count material, Count units) {
    return material == glue ? fmt::format("{}.{:03} ml", units / 1'000, units % 1'000)
                            : std::to_string(units);
}

/// One of what there is, or of what there ever was when the dice say so.
template <typename Things>
std::optional<typename Things::value_type> pick(const Things& there, const Things& ever, int dice,
                                                int odds) {
    const Things& from = odds % 10 == 0 || there.empty() ? ever : there;
    if (from.empty()) return std::nullopt;
    return from[static_cast<std::size_t>(dice) % from.size()];
}

} // namespace

World::World() : database_(barrow::store::Database::create(":memory:")) {
    auto now = context();
    for (const auto& [name, value] : std::map<std::string, std::string>{
             {"currency", "EUR"}, {"hourly-rate", "17.50"}, {"overheads", "12%"}})
        ws::change_setting(now, name, value);
    std::vector<ws::Row> rows;
    for (const auto& fields : supply_rows()) rows.push_back({"", "", fields});
    ws::keep_materials(now, rows);
    ws::keep_suppliers(now, {{"", "", {{"code", "PELL"}, {"name", "Pellwether Papermakers"}}}});
    std::vector<ws::DesignText> texts;
    for (const Recipe& recipe : recipes()) texts.push_back({recipe.text, recipe.code + ".toml"});
    ws::bring_designs(now, texts);
    book_.materials = supplies();
}

ws::Context World::context() {
    ws::Context now{database_,
                    barrow::base::plus_days(first_day, today_),
                    {},
                    barrow::store::Mode::commit,
                    "a reason"};
    now.recorded_at = day_text(today_) + "T12:00:00Z";
    return now;
}

std::string World::day_text(Count day) const {
    return barrow::base::to_text(barrow::base::plus_days(first_day, day));
}

/// Both do it or both refuse; anything else, or an error that is no refusal, ends the history.
void World::both(const Step& step, const Shop& shop, const Told& told) {
    std::optional<std::string> refused, expected;
    Book next = book_;
    auto now = context();
    try {
        shop(now);
    } catch (const barrow::base::Error& error) {
        if (error.kind() != barrow::base::Kind::refused
            && error.kind() != barrow::base::Kind::bad_input)
            throw Disagreement(std::string("the shop failed: ") + error.what());
        refused = error.what();
    }
    try {
        told(next);
    } catch (const Refused& refusal) {
        expected = refusal.what();
    }
    auto& [done, not_done] = tally_[step.what];
    ++(refused ? not_done : done);
    if (refused && !expected) throw Disagreement("the shop refused: " + *refused);
    if (!refused && expected) throw Disagreement("the shop should have refused: " + *expected);
    if (!refused) book_ = std::move(next);
    name_new_things();
}

void World::take(const Step& step) {
    switch (step.what) {
    case Do::wait: today_ += step.numbers[0] % 45; break;
    case Do::receive: receive(step); break;
    case Do::make:
    case Do::plan: plan(step); break;
    case Do::cut: cut(step); break;
    case Do::finish:
    case Do::abandon: finish(step); break;
    case Do::reverse: reverse(step); break;
    case Do::write_off:
    case Do::give_back: leave(step); break;
    case Do::write_off_offcut:
    case Do::split:
    case Do::find: offcut_box(step); break;
    case Do::sell:
    case Do::give:
    case Do::damage: journals(step); break;
    case Do::take_apart: take_apart(step); break;
    case Do::decide_order:
    case Do::decide_share: decide(step); break;
    case Do::count_start:
    case Do::count_enter:
    case Do::count_post:
    case Do::count_drop: count(step); break;
    case Do::order:
    case Do::order_comes:
    case Do::order_ends: orders(step); break;
    case Do::fair:
    case Do::fair_take:
    case Do::fair_sell: fairs(step); break;
    }
    compare();
}

void World::receive(const Step& step) {
    const auto [a, b, c, d] = step.numbers;
    const Count day = std::max<Count>(0, today_ - (a % 4 == 0 ? b % 60 : 0));
    std::vector<ReceiptLine> lines;
    std::vector<ws::Row> rows;
    for (int i = 0; i <= c % 3; ++i) {
        ReceiptLine line;
        line.material = 1 + (a / 4 + i) % 6;
        const Count few = 1 + (b + 3 * i) % (line.material == tag ? 30 : 8);
        line.units = line.material == glue ? few * 5'250 : few;
        line.cost = (d + i) % 7 == 0 ? 0 : 1 + (d * 37 + i * 101) % 2'500;
        std::map<std::string, std::string> fields = {
            {"date", day_text(day)},
            {"material", supplies()[static_cast<std::size_t>(line.material - 1)].code}};
        if (line.material == paper && b % 2 == 0) { // by the pack
            line.units = few * 4;
            fields["packs"] = std::to_string(few);
            fields["price"] = money_text(line.cost);
            line.cost *= few;
        } else {
            fields["units"] = units_text(line.material, line.units);
            fields["cost"] = money_text(line.cost);
        }
        if (line.material == paper && (b + i) % 3 == 0) { // larger sheets than usual
            line.unit = 400 * mm * (300 * mm);
            fields["width"] = "400mm";
            fields["height"] = "300mm";
        }
        lines.push_back(line);
        rows.push_back({"", "--", fields});
    }
    const Count freight = d % 3 == 0 ? 0 : d % 700, tax = c % 2 == 0 ? 0 : c % 90;
    rows.front().fields["freight"] = money_text(freight);
    rows.back().fields["tax"] = money_text(tax);
    const bool by_value = d % 2 == 0;
    both(
        step,
        [&](ws::Context& now) {
            ws::receive(now, rows,
                        by_value ? barrow::costing::ShareBy::value
                                 : barrow::costing::ShareBy::quantity);
        },
        [&](Book& book) { book.receive(day, lines, freight + tax, by_value); });
}

void World::leave(const Step& step) {
    const auto [a, b, c, d] = step.numbers;
    if (step.what == Do::give_back) {
        std::vector<Lot> there;
        for (const Material& one : supplies())
            for (const Lot& lot : book_.shelf(one.id)) there.push_back(lot);
        const auto lot = pick(there, book_.lots, a, d);
        if (!lot) return;
        const Count has = book_.pile(lot->id, lot->id).quantity / lot->unit;
        const Count units = b % 5 == 0 ? std::max<Count>(1, has) : 1 + c % 4;
        const Count refund = c % 3 == 0 ? b % 900 : -1;
        both(
            step,
            [&](ws::Context& now) {
                ws::return_to_supplier(now, lot->id, units_text(lot->material, units),
                                       refund < 0 ? "" : money_text(refund));
            },
            [&](Book& book) { book.return_lot(today_, lot->id, units, refund); });
        return;
    }
    const Material& material = supplies()[static_cast<std::size_t>(a % 6)];
    const Count has = book_.units_on_shelf(material.id);
    const Count units =
        b % 6 == 0 ? std::max<Count>(1, has) : 1 + c % (material.id == glue ? 900 : 4);
    both(
        step,
        [&](ws::Context& now) {
            ws::write_off_material(now, material.code, units_text(material.id, units));
        },
        [&](Book& book) { book.write_off_units(today_, material.id, units); });
}

void World::offcut_box(const Step& step) {
    const auto [a, b, c, d] = step.numbers;
    if (step.what == Do::find) {
        const Count own = 1 + a % 4;
        Remnant size{50 * mm, 40 * mm * (1 + b % 5)};
        if (own == ribbon) size = {100 * mm * (1 + b % 5), 1};
        if (own == wire) size = {1 + b % 6, 1};
        both(
            step,
            [&](ws::Context& now) {
                ws::keep_found(now, supplies()[static_cast<std::size_t>(own - 1)].code,
                               size_text(own, size), "");
            },
            [&](Book& book) { book.find(today_, own, size); });
        return;
    }
    const auto offcut = pick(book_.offcuts_there(), book_.offcuts, a, d);
    if (!offcut) return;
    if (step.what == Do::write_off_offcut) {
        both(
            step, [&](ws::Context& now) { ws::write_off_offcut(now, offcut->label); },
            [&](Book& book) { book.write_off_offcut(today_, offcut->id); });
        return;
    }
    // Sizes that can be cut from it for certain: halves, or less where the blade takes its part.
    const bool one_way = offcut->material == ribbon || offcut->material == wire;
    const Count width = one_way ? book_.all_of(offcut->id).quantity : offcut->width;
    if (width < (offcut->material == wire ? 2 : 30 * mm)) return;
    const Count part = offcut->material == board ? width / 3 : width / 2;
    std::vector<Remnant> sizes = {{part, offcut->height}};
    if (one_way) sizes.front().height = 1;
    if (b % 3 != 0) sizes.push_back(sizes.front());
    if (offcut->material != board && b % 3 == 2) sizes.back().width = width - part;
    if (!one_way && c % 2 == 0) sizes.front().height = offcut->height / 2;
    std::vector<std::string> texts;
    for (const Remnant& size : sizes) texts.push_back(size_text(offcut->material, size));
    // Whether the layout engine sees how is its own matter (tests/layout), and its word is taken.
    bool seen = true;
    both(
        step,
        [&](ws::Context& now) {
            try {
                ws::split_offcut(now, offcut->label, texts);
            } catch (const barrow::base::Error& error) {
                seen = std::string(error.what()).find("cannot be cut") == std::string::npos;
                throw;
            }
        },
        [&](Book& book) {
            if (!seen) throw Refused("the layout engine does not see how to cut these sizes");
            book.split(today_, offcut->id, sizes);
        });
}

void World::journals(const Step& step) {
    const auto [a, b, c, d] = step.numbers;
    const auto there = book_.journals_there();
    const auto first = pick(there, book_.journals, a, d);
    if (!first) return;
    std::vector<Count> ids = {first->id};
    std::vector<std::string> serials = {first->serial};
    if (b % 2 == 0 && !there.empty() && there.back().id != first->id) {
        ids.push_back(there.back().id);
        serials.push_back(there.back().serial);
    }
    const Count day =
        step.what == Do::sell && c % 3 == 0 ? std::max<Count>(0, today_ - c % 40) : today_;
    both(
        step,
        [&](ws::Context& now) {
            if (step.what == Do::sell) {
                ws::sell_journals(now, serials, {"5.00", barrow::base::plus_days(first_day, day)});
            } else if (step.what == Do::give) {
                ws::give_journals(now, serials);
            } else {
                ws::damage_journals(now, serials);
            }
        },
        [&](Book& book) {
            book.journals_leave(day, name_of(step.what), ids,
                                step.what == Do::sell ? sold : written_off);
        });
}

void World::take_apart(const Step& step) {
    const auto [a, b, c, d] = step.numbers;
    const auto journal = pick(book_.journals_there(), book_.journals, a, d);
    if (!journal) return;
    std::vector<WantedBack> wanted;
    std::vector<ws::WantedBack> texts;
    for (int i = 0; i <= c % 3; ++i) {
        WantedBack back;
        back.material = 1 + (b + i) % 6;
        const std::string& code = supplies()[static_cast<std::size_t>(back.material - 1)].code;
        // Of wire a bare number is loops, so that nothing asks for whole strips.
        const bool whole = (b + i) % 7 == 0 && back.material != wire;
        if (back.material == tag || back.material == glue || whole) {
            back.units = back.material == glue ? 100 + c % 500 : 1;
            texts.push_back({code, units_text(back.material, back.units)});
        } else {
            back.piece = {80 * mm, 60 * mm * (1 + c % 2)};
            if (back.material == ribbon) back.piece = {300 * mm, 1};
            if (back.material == wire) back.piece = {1 + c % 7, 1};
            texts.push_back({code, size_text(back.material, back.piece)
                                       + (back.material == wire && c % 2 == 0 ? " loops" : "")});
        }
        wanted.push_back(back);
    }
    both(
        step, [&](ws::Context& now) { ws::take_apart(now, journal->serial, texts); },
        [&](Book& book) { book.take_apart(today_, journal->id, wanted); });
}

void World::decide(const Step& step) {
    const int a = step.numbers[0];
    if (step.what == Do::decide_share) {
        const Count percent = std::array<Count, 4>{100, 50, 0, 85}[static_cast<std::size_t>(a % 4)];
        both(
            step,
            [&](ws::Context& now) {
                ws::change_setting(now, "offcut-share", fmt::format("{}%", percent));
            },
            [&](Book& book) { book.offcut_percent = percent; });
        return;
    }
    const std::array<const char*, 3> names = {"first-in-first-out", "moving-average",
                                              "pick-the-lot"};
    const auto order = static_cast<std::size_t>(a % 3);
    both(
        step, [&](ws::Context& now) { ws::change_setting(now, "cost-order", names.at(order)); },
        [&](Book& book) { book.decide(today_, static_cast<Order>(order)); });
}

void World::reverse(const Step& step) {
    const auto entries = static_cast<int>(book_.entries.size());
    if (entries == 0) return;
    const auto [a, b, c, d] = step.numbers;
    const Count entry = b % 5 == 0 ? 1 + a % entries : entries - a % std::min(entries, 8);
    both(
        step, [&](ws::Context& now) { ws::reverse(now, entry); },
        [&](Book& book) { book.reverse(today_, entry); });
}

void World::count(const Step& step) {
    const auto [a, b, c, d] = step.numbers;
    if (step.what == Do::count_start) {
        both(
            step, [](ws::Context& now) { ws::start_stocktake(now, ""); },
            [](Book& book) { book.start_count(); });
    } else if (step.what == Do::count_post) {
        both(
            step, [](ws::Context& now) { ws::post_stocktake(now); },
            [&](Book& book) { book.post_count(today_); });
    } else if (step.what == Do::count_drop) {
        both(
            step, [](ws::Context& now) { ws::drop_stocktake(now); },
            [](Book& book) { book.drop_count(); });
    } else {
        const auto offcut =
            a % 3 == 0 ? pick(book_.offcuts_there(), book_.offcuts, b, d % 3 * 5) : std::nullopt;
        const Count material = offcut ? offcut->material : 1 + a % 6;
        const Count has = offcut ? 0 : book_.units_on_shelf(material);
        const Count off = (c % 5 - 2) * (material == glue ? 130 : 1);
        const Count counted = offcut ? c % 2 : std::max<Count>(0, has + off);
        const std::string code =
            offcut ? offcut->label : supplies()[static_cast<std::size_t>(material - 1)].code;
        const std::string text = offcut ? std::to_string(counted) : units_text(material, counted);
        both(
            step,
            [&](ws::Context& now) {
                ws::enter_counts(now, {{"", "--", {{"code", code}, {"counted", text}}}});
            },
            [&](Book& book) { book.enter_count(material, offcut ? offcut->id : 0, counted); });
    }
}

} // namespace model
