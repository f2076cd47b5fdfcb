// Orders and fairs: what the maker may do about them, and that the shop and the naive book agree.

#include "model/supplies.hpp"
#include "model/world.hpp"

#include "store/buying/orders.hpp"
#include "store/selling/fairs.hpp"
#include "workshop/buying/delivery.hpp"
#include "workshop/buying/orders.hpp"
#include "workshop/selling/fairs.hpp"
#include "workshop/stock/stockroom.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace model {

namespace ws = barrow::workshop;
namespace st = barrow::store;

namespace {

std::string minor_text(Count minor) {
    return fmt::format("{}.{:02}", minor / 100, minor % 100);
}

const std::string& code_of(Count material) {
    return supplies()[static_cast<std::size_t>(material - 1)].code;
}

std::map<std::string, std::string> units_of(Count material, Count units) {
    return {{"material", code_of(material)},
            {"units", material == glue ? fmt::format("{}.{:03} ml", units / 1'000, units % 1'000)
                                       : std::to_string(units)}};
}

void agree(const std::string& what, Count shop, Count told) {
    if (shop != told)
        throw Disagreement(fmt::format("{}: the shop has {}, the model {}", what, shop, told));
}

const barrow::base::Date day_nought = barrow::base::read_date("2027-01-04", "first day");

} // namespace

void World::orders(const Step& step) {
    const auto [a, b, c, d] = step.numbers;
    if (step.what == Do::order) {
        std::vector<Asked> lines;
        ws::WantedOrder wanted{"PELL", {}, {}, {}};
        for (int i = 0; i <= b % 3; ++i) {
            Asked line;
            line.material = 1 + (a + i * (c % 4)) % 6; // now and then one twice
            line.units = (1 + (c + 5 * i) % 9) * (line.material == glue ? 3'125 : 1);
            line.cost = (d * 31 + i * 77) % 1'900;
            auto fields = units_of(line.material, line.units);
            fields["cost"] = minor_text(line.cost);
            lines.push_back(line);
            wanted.rows.push_back({"", "--", fields});
        }
        both(
            step, [&](ws::Context& now) { ws::place_order(now, wanted); },
            [&](Book& book) { book.order_supplies(today_, lines); });
        return;
    }
    if (book_.supplies.empty()) return;
    const auto ever = static_cast<int>(book_.supplies.size());
    const Supply supply = book_.supplies[static_cast<std::size_t>(
        d % 4 == 0 ? a % ever : ever - 1 - a % std::min(ever, 3))];
    if (step.what == Do::order_ends) {
        both(
            step, [&](ws::Context& now) { ws::end_order(now, supply.number); },
            [&](Book& book) { book.order_ends(today_, supply.number); });
        return;
    }
    std::vector<Coming> what;
    std::vector<ws::Row> rows;
    // A third of the parcels bring the rest; others so much of one line, or of two rows of it.
    for (int i = 0; b % 3 != 0 && i <= c % 2; ++i) {
        Coming one;
        one.material =
            d % 11 == 0 ? 1 + c % 6
                        : supply.lines[static_cast<std::size_t>(c) % supply.lines.size()].material;
        one.units = (1 + (b + i) % 4) * (one.material == glue ? 1'250 : 1);
        if (a % 5 == 0) one.cost = b % 900;
        what.push_back(one);
        rows.push_back({"", "--", units_of(one.material, one.units)});
        if (one.cost >= 0) rows.back().fields["cost"] = minor_text(one.cost);
    }
    if (rows.empty()) rows.push_back({"", "--", {}});
    for (ws::Row& row : rows) row.fields["order"] = std::to_string(supply.number);
    const Count freight = a % 2 == 0 ? 0 : b % 400;
    rows.front().fields["freight"] = minor_text(freight);
    both(
        step, [&](ws::Context& now) { ws::receive(now, rows, barrow::costing::ShareBy::value); },
        [&](Book& book) { book.order_comes(today_, supply.number, what, freight); });
}

void World::fairs(const Step& step) {
    const auto [a, b, c, d] = step.numbers;
    if (step.what == Do::fair) {
        const Count held_on = std::max<Count>(0, today_ + a % 16 - 4);
        both(
            step,
            [&](ws::Context& now) {
                ws::new_fair(now, {"Fair", barrow::base::plus_days(day_nought, held_on),
                                   minor_text(b % 4'000)});
            },
            [&](Book& book) { book.note_fair(today_, held_on); });
        return;
    }
    if (book_.fairs.empty() || book_.journals.empty()) return;
    const auto held = static_cast<Count>(book_.fairs.size());
    const Count number = d % 5 == 0 ? 1 + a % held : held - a % std::min<Count>(held, 2);
    const auto there = book_.journals_there();
    const auto& from = d % 7 == 0 || there.empty() ? book_.journals : there;
    std::vector<Count> ids;
    std::vector<std::string> serials;
    for (std::size_t i = 0; i <= static_cast<std::size_t>(c % 2) && i < from.size(); ++i) {
        const Journal& one = from[(static_cast<std::size_t>(b) + i) % from.size()];
        ids.push_back(one.id);
        serials.push_back(one.serial);
    }
    if (step.what == Do::fair_take) {
        both(
            step,
            [&](ws::Context& now) {
                ws::take_to_fair(now, number, {serials, {}});
            },
            [&](Book& book) { book.take_to_fair(today_, number, ids); });
        return;
    }
    both(
        step, [&](ws::Context& now) { ws::sell_at_fair(now, number, serials, "7.50"); },
        [&](Book& book) { book.sell_at_fair(today_, number, ids); });
}

void World::compare_market() {
    std::map<Count, Count> waiting; // material: units on order
    for (const Supply& told : book_.supplies) {
        const auto shop = st::find_order(database_, told.number);
        if (!shop) throw Disagreement(fmt::format("order {} is not in the shop", told.number));
        std::string status = book_.to_come(told) == 0   ? "received"
                             : book_.ended(told.number) ? "ended"
                                                        : "open";
        if (!book_.begun(told.number, 0)) status = "undone";
        if (st::name_of(shop->status) != status)
            throw Disagreement(fmt::format("order {}: the shop says {}, the model {}", told.number,
                                           st::name_of(shop->status), status));
        auto back = st::sent_back(database_, told.number);
        for (const st::OrderLine& line : shop->lines) {
            agree(fmt::format("what went back of order {}", told.number), back[line.material_id],
                  book_.sent_back(told.number, line.material_id));
            const Count came = book_.came(told.number, line.material_id);
            agree(fmt::format("what came for order {}", told.number), line.received, came);
            if (status == "open")
                waiting[line.material_id] += std::max<Count>(0, line.units - came);
        }
    }
    for (const ws::StockLine& line : ws::stock(database_).lines)
        agree("on order of " + line.material.code, line.on_order, waiting[line.material.id]);
    for (const Fair& told : book_.fairs) {
        const auto shop = st::find_fair(database_, told.number);
        if (!shop) throw Disagreement(fmt::format("fair {} is not in the shop", told.number));
        const std::string name = fmt::format("fair {}", told.number);
        agree(name + ", undone", shop->undone ? 1 : 0, book_.begun(0, told.number) ? 0 : 1);
        std::vector<Count> listed, gone;
        for (const st::FairJournal& one : shop->journals) {
            listed.push_back(one.journal.id);
            if (one.sold_for) gone.push_back(one.journal.id);
        }
        std::sort(listed.begin(), listed.end());
        std::sort(gone.begin(), gone.end());
        auto told_sold = book_.sold_at(told.number);
        std::sort(told_sold.begin(), told_sold.end());
        if (listed != book_.listed(told.number) || gone != told_sold)
            throw Disagreement(name + ": the shop and the model have other journals there");
    }
}

} // namespace model
