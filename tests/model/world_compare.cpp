// Where the shop and the naive book must agree.

#include "model/supplies.hpp"
#include "model/world.hpp"

#include "store/making/batches.hpp"
#include "store/selling/journals.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/books/history.hpp"
#include "workshop/books/reports.hpp"
#include "workshop/stock/stockroom.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

namespace model {

namespace ws = barrow::workshop;
namespace st = barrow::store;

namespace {

void same(const std::string& what, Count shop, Count told) {
    if (shop != told)
        throw Disagreement(fmt::format("{}: the shop has {}, the model {}", what, shop, told));
}

const barrow::base::Date day_one = barrow::base::read_date("2027-01-04", "first day");

} // namespace

/// What is new in the naive book has the number the shop gave it, and is what the shop says it is.
void World::name_new_things() {
    for (; named_offcuts_ < book_.offcuts.size(); ++named_offcuts_) {
        Offcut& told = book_.offcuts[named_offcuts_];
        const auto kept = st::offcut_by_id(database_, told.id);
        if (!kept) throw Disagreement(fmt::format("offcut {} is not in the shop", told.id));
        same("lot of an offcut", kept->lot_id, told.lot);
        same("width of an offcut", kept->size.width, told.width);
        same("height of an offcut", kept->size.height, told.height);
        told.label = kept->code;
    }
    for (; named_journals_ < book_.journals.size(); ++named_journals_) {
        const Journal& told = book_.journals[named_journals_];
        const auto kept = st::find_journal(database_, told.serial);
        if (!kept) throw Disagreement("journal " + told.serial + " is not in the shop");
        same("number of a journal", kept->id, told.id);
    }
}

void World::compare() {
    compare_balances();
    compare_values();
    compare_stock();
    compare_market();
    for (const st::Batch& batch : st::all_batches(database_)) {
        const std::string shop(st::name_of(batch.status));
        if (shop != book_.status(batch.number))
            throw Disagreement(fmt::format("batch {}: the shop says {}, the model {}", batch.number,
                                           shop, book_.status(batch.number)));
        const bool holds = !book_.piles_of(batch.id).empty();
        if (holds && shop != "cut")
            throw Disagreement(
                fmt::format("batch {} is {} and yet holds something", batch.number, shop));
    }
}

void World::compare_balances() {
    std::map<std::pair<Count, Count>, Amount> left = book_.piles;
    SQLite::Statement query(database_.sql(),
                            "SELECT holder_id, lot_id, quantity, value FROM balance");
    while (query.executeStep()) {
        const Count holder = query.getColumn(0).getInt64();
        const Count lot = query.getColumn(1).getInt64();
        const Amount told = book_.pile(holder, lot);
        const std::string what = fmt::format("holder {}, lot {}", holder, lot);
        same(what + ", quantity", query.getColumn(2).getInt64(), told.quantity);
        same(what + ", value", query.getColumn(3).getInt64(), told.value);
        left.erase({holder, lot});
    }
    if (!left.empty())
        throw Disagreement(
            fmt::format("holder {}, lot {}: the shop has nothing, the model {} worth {}",
                        left.begin()->first.first, left.begin()->first.second,
                        left.begin()->second.quantity, left.begin()->second.value));
}

void World::compare_values() {
    Count on_shelf = 0, in_offcuts = 0, in_work = 0, in_journals = 0, received = 0;
    for (const Lot& lot : book_.lots) {
        const Amount there = book_.all_of(lot.id);
        on_shelf += there.value;
        const bool waits =
            book_.order() == Order::moving_average && book_.units_on_shelf(lot.material) > 0;
        if (there.quantity == 0 && there.value != 0 && !waits)
            throw Disagreement(fmt::format("nothing of lot {} is left, and yet it is worth {}",
                                           lot.id, there.value));
        received -= book_.pile(outside, lot.id).value;
    }
    for (const Offcut& one : book_.offcuts) in_offcuts += book_.all_of(one.id).value;
    for (const Batch& one : book_.batches) in_work += book_.all_of(one.id).value;
    for (const Journal& one : book_.journals) in_journals += book_.pile(one.id, 0).value;
    const ws::ShopValue shop = ws::shop_value(database_);
    same("value received", shop.received.minor(), received);
    same("value on shelves", shop.on_shelf.minor(), on_shelf);
    same("value in offcuts", shop.in_offcuts.minor(), in_offcuts);
    same("value in work", shop.in_work.minor(), in_work);
    same("value in journals", shop.in_journals.minor(), in_journals);
    same("value sold", shop.sold.minor(), book_.all_of(sold).value);
    same("value written off", shop.written_off.minor(), book_.all_of(written_off).value);
    same("value unaccounted for", shop.difference.minor(), 0);
}

/// The stock list counts each offcut once, whatever lots its value is of.
void World::compare_stock() {
    for (const ws::StockLine& line : ws::stock(database_).lines) {
        Amount box;
        Count offcuts = 0;
        for (const Offcut& one : book_.offcuts_there()) {
            if (one.material != line.material.id) continue;
            ++offcuts;
            box.quantity += book_.all_of(one.id).quantity;
            box.value += book_.all_of(one.id).value;
        }
        same("offcuts of " + line.material.code, line.offcuts, offcuts);
        same("what is in offcuts of " + line.material.code, line.offcut_quantity, box.quantity);
        same("value in offcuts of " + line.material.code, line.offcut_value.minor(), box.value);
        same("units of " + line.material.code, line.units, book_.units_on_shelf(line.material.id));
    }
}

void World::look_back(int number) {
    const auto faults = ws::check(database_);
    if (!faults.empty()) throw Disagreement("check: " + faults.front());
    nothing_changed();
    compare_past(today_ == 0 ? 0 : number % (today_ + 1));
    compare_past(today_);
    compare_histories();
    const auto from = barrow::base::plus_days(day_one, number % 97);
    const auto year = ws::year(database_, from, barrow::base::plus_days(from, number % 400));
    same("difference in the year's accounts", year.difference.minor(), 0);
}

/// Movements and postings are as they were when last looked at, and cannot be changed.
void World::nothing_changed() {
    const auto sum = [&](Count most) {
        SQLite::Statement query(
            database_.sql(),
            "SELECT count(*) || ' ' || total(m.id * 3 + posting_id * 5 + from_holder * 7 + "
            "to_holder "
            "* 11 + ifnull(lot_id, 0) * 13 + m.value * 17 + quantity % 1000003) || ' ' || "
            "total(julianday(made_on)) FROM movement m JOIN posting p ON p.id = posting_id "
            "WHERE m.id <= ?");
        query.bind(1, static_cast<std::int64_t>(most));
        query.executeStep();
        return query.getColumn(0).getString();
    };
    if (sum(seen_movement_) != seen_sum_ && seen_movement_ != 0)
        throw Disagreement("something written before has changed");
    seen_movement_ =
        database_.sql().execAndGet("SELECT ifnull(max(id), 0) FROM movement").getInt64();
    seen_sum_ = sum(seen_movement_);
    if (seen_movement_ == 0) return;
    for (const char* attempt : {"UPDATE movement SET value = value + 1", "DELETE FROM movement",
                                "UPDATE posting SET note = 'x'", "DELETE FROM posting"}) {
        bool stopped = false;
        try {
            database_.sql().exec(attempt);
        } catch (const SQLite::Exception&) {
            stopped = true;
        }
        if (!stopped) throw Disagreement(std::string("the ledger let this through: ") + attempt);
    }
}

/// Stock at the end of a past day is everything moved on days up to it.
void World::compare_past(Count day) {
    std::map<std::pair<Count, Count>, Amount> then;
    for (const Entry& entry : book_.entries) {
        if (entry.day > day) continue;
        for (const Move& step : entry.moves)
            for (const auto& [holder, sign] : {std::pair{step.to, 1}, std::pair{step.from, -1}}) {
                Amount& amount = then[{holder, step.lot}];
                amount.quantity += sign * step.what.quantity;
                amount.value += sign * step.what.value;
            }
    }
    std::map<Count, Amount> shelves, boxes; // by material
    Count in_work = 0, in_journals = 0;
    for (const Lot& lot : book_.lots) {
        const auto first = then.lower_bound({lot.id, 0}), last = then.lower_bound({lot.id + 1, 0});
        for (auto pile = first; pile != last; ++pile) {
            shelves[lot.material].quantity += pile->second.quantity;
            shelves[lot.material].value += pile->second.value;
        }
        for (const Offcut& one : book_.offcuts) {
            boxes[lot.material].quantity += then[{one.id, lot.id}].quantity;
            boxes[lot.material].value += then[{one.id, lot.id}].value;
        }
        for (const Batch& one : book_.batches) in_work += then[{one.id, lot.id}].value;
    }
    for (const Journal& one : book_.journals) in_journals += then[{one.id, 0}].value;
    const auto today = barrow::base::plus_days(day_one, today_);
    const ws::StockOn shop = ws::stock_on(database_, barrow::base::plus_days(day_one, day), today);
    for (const ws::StockLine& line : shop.stock.lines) {
        const std::string what = fmt::format("{} on {}", line.material.code, day_text(day));
        same(what + ", shelf", line.quantity, shelves[line.material.id].quantity);
        same(what + ", shelf value", line.shelf_value.minor(), shelves[line.material.id].value);
        same(what + ", offcuts", line.offcut_quantity, boxes[line.material.id].quantity);
        same(what + ", offcut value", line.offcut_value.minor(), boxes[line.material.id].value);
        shelves.erase(line.material.id);
    }
    for (const auto& [id, amount] : shelves) same("a material not listed", 0, amount.quantity);
    same("in work on a past day", shop.in_work.minor(), in_work);
    same("in journals on a past day", shop.in_journals.minor(), in_journals);
}

/// A history ends at what is there now.
void World::compare_histories() {
    for (const Material& material : supplies()) {
        Amount there;
        for (const Lot& lot : book_.lots) {
            if (lot.material != material.id) continue;
            const Amount shelf = book_.all_of(lot.id);
            there.quantity += shelf.quantity;
            there.value += shelf.value;
            for (const Offcut& one : book_.offcuts) {
                there.quantity += book_.pile(one.id, lot.id).quantity;
                there.value += book_.pile(one.id, lot.id).value;
            }
        }
        const ws::History history = ws::history(database_, ws::Subject::material, material.code);
        const ws::HeldThen last =
            history.lines.empty() ? ws::HeldThen{} : history.lines.back().after;
        same("end of the history of " + material.code, last.quantity, there.quantity);
        same("value at the end of the history of " + material.code, last.value.minor(),
             there.value);
    }
}

} // namespace model
