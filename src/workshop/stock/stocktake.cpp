#include "workshop/stock/stocktake.hpp"

#include "base/error.hpp"
#include "base/short_code.hpp"
#include "base/text.hpp"
#include "store/ledger/ledger.hpp"
#include "store/ledger/totals.hpp"
#include "store/making/batch_plans.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/lots.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/shared/days.hpp"
#include "workshop/shared/fields.hpp"
#include "workshop/shared/quantity_text.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/levelling.hpp"
#include "workshop/stock/shelf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace barrow::workshop {
namespace {

using base::Money;
using store::Stocktake;
using store::StocktakeLine;
using store::StocktakeStatus;

constexpr std::int64_t most_counted = 1'000'000'000;

Stocktake require_open(store::Database& database) {
    if (auto open = store::open_stocktake(database)) return *open;
    throw base::refused("no stocktake is open", "begin one with: barrow stocktake start");
}

std::int64_t units_of(const std::vector<costing::ShelfLot>& lots) {
    std::int64_t units = 0;
    for (const costing::ShelfLot& lot : lots)
        units += static_cast<std::int64_t>(lot.quantity / lot.size.measure());
    return units;
}

/// Whether the offcut is there: 1 or 0.
std::int64_t offcut_in_book(store::Database& database, std::int64_t offcut) {
    return store::balances_of(database, offcut).empty() ? 0 : 1;
}

/// Reads one row of a count: which thing, how many.
class CountReader {
public:
    CountReader(Context& context, std::vector<base::Problem>& problems)
        : context_(context), problems_(problems) {}

    StocktakeLine read(const Row& row) {
        Fields fields(row, problems_);
        StocktakeLine line;
        line.entered_at = context_.recorded_at;
        const std::string code = fields.text("code", true);
        if (code.empty()) return line;
        if (const auto material = store::find_material(context_.database, code)) {
            read_material(fields, *material, line);
        } else if (const auto offcut = labelled(code)) {
            read_offcut(fields, *offcut, line);
        } else {
            const std::string hint =
                base::did_you_mean(code, store::material_codes(context_.database));
            fields.complain(
                "code", fmt::format("{} is neither a material nor an offcut's label", code), hint);
        }
        return line;
    }

private:
    std::optional<store::Offcut> labelled(const std::string& code) const {
        const auto number = base::read_short_code(code);
        if (!number) return std::nullopt;
        return store::find_offcut(context_.database, base::short_code(*number));
    }

    void read_material(Fields& fields, const store::Material& material, StocktakeLine& line) const {
        line.material_id = material.id;
        const auto counted = material.form == base::Form::bulk
                                 ? fields.amount("counted", material.bulk_unit == "g", true)
                                 : fields.count("counted", 0, most_counted, true);
        line.counted = counted.value_or(0);
        line.in_book = units_of(lots_of(context_.database, material.id));
    }

    void read_offcut(Fields& fields, const store::Offcut& offcut, StocktakeLine& line) const {
        line.material_id = offcut.material_id;
        line.offcut_id = offcut.id;
        line.counted = fields.count("counted", 0, 1, true).value_or(0);
        line.in_book = offcut_in_book(context_.database, offcut.id);
    }

    Context& context_;
    std::vector<base::Problem>& problems_;
};

/// Posts the differences of one stocktake.
class Correcting {
public:
    Correcting(Context& context, std::int64_t posting)
        : context_(context), database_(context.database), posting_(posting),
          writer_(context.database, posting), order_(read_settings(context.database).cost_order) {}

    /// Value written off (missing) for the line; nothing for a surplus.
    Money correct(const StocktakeLine& line) {
        const std::int64_t difference = line.counted - line.in_book;
        if (line.offcut_id != 0)
            return difference < 0 ? lose_offcut(line.offcut_id) : find_offcut(line.offcut_id);
        return difference < 0 ? lose_units(line.material_id, -difference)
                              : find_units(line.material_id, difference);
    }

private:
    Money lose_units(std::int64_t material_id, std::int64_t units) {
        auto lots = lots_of(database_, material_id);
        // What planned batches wait for is thought to be there as long as anything else is missing.
        const auto takes = take_units(lots, units, order_, store::reserved(database_));
        if (!takes)
            throw base::refused(
                fmt::format("{} was counted {} short, but so many are no longer in the book",
                            store::material_by_id(database_, material_id).value().code, units),
                "count it again: barrow stocktake enter");
        Money value;
        for (const costing::LotTake& take : *takes) {
            for (const costing::LotTake& part : parts_of(database_, take))
                writer_.move({0, 0, "correct", part.lot, take.lot, store::written_off,
                              part.quantity, part.value});
            value += take.value;
        }
        return value;
    }

    Money lose_offcut(std::int64_t offcut) {
        Money value;
        if (offcut_in_book(database_, offcut) == 0)
            throw base::refused(
                fmt::format("offcut {} was not found, but has left the book by another way since",
                            store::offcut_by_id(database_, offcut).value().code),
                "count it again: barrow stocktake enter");
        for (const store::Balance& held : store::balances_of(database_, offcut)) {
            writer_.move(
                {0, 0, "correct", held.lot, offcut, store::written_off, held.quantity, held.value});
            value += held.value;
        }
        return value;
    }

    Money find_units(std::int64_t material_id, std::int64_t units) {
        for (const store::Balance& lost : store::corrected_away(database_, material_id)) {
            if (units == 0) return {};
            const store::Lot lot = store::lot_by_id(database_, lost.lot).value();
            const auto whole = static_cast<std::int64_t>(lost.quantity / lot.unit.measure());
            const std::int64_t back = std::min(units, whole);
            if (back == 0) continue;
            const auto quantity = static_cast<std::int64_t>(lot.unit.measure() * back);
            writer_.move({0, 0, "correct", lost.lot, store::written_off, lost.lot, quantity,
                          base::share(lost.value, quantity, lost.quantity)});
            units -= back;
        }
        if (units > 0) find_new(material_id, units);
        return {};
    }

    /// Units nobody has an account of: a lot that cost nothing.
    void find_new(std::int64_t material_id, std::int64_t units) {
        const store::Material material = store::material_by_id(database_, material_id).value();
        store::Lot lot;
        lot.posting_id = posting_;
        lot.material_id = material_id;
        lot.unit = material.fresh;
        lot.quantity = static_cast<std::int64_t>(lot.unit.measure() * units);
        lot.received_on = context_.today;
        lot.note = "found at a stocktake";
        lot.id = store::add_lot(database_, lot);
        writer_.move({0, 0, "receive", lot.id, store::outside, lot.id, lot.quantity, {}});
    }

    /// An offcut thought used up is there after all: what it was comes back, worth nothing.
    Money find_offcut(std::int64_t id) {
        const store::Offcut offcut = store::offcut_by_id(database_, id).value();
        if (offcut_in_book(database_, id) != 0)
            throw base::refused(
                fmt::format("offcut {} was found, and is in the book again since", offcut.code),
                "count it again: barrow stocktake enter");
        const auto quantity = static_cast<std::int64_t>(offcut.size.measure());
        const auto source =
            store::where_lost(database_, offcut.material_id, quantity, offcut.lot_id);
        if (!source)
            throw base::refused(
                fmt::format("offcut {} was found, but the book never lost so much of "
                            "its lot",
                            offcut.code),
                "look at its history");
        writer_.move({0, 0, "correct", source->lot, source->holder, id, quantity, {}});
        return {};
    }

    Context& context_;
    store::Database& database_;
    std::int64_t posting_;
    store::MovementWriter writer_;
    CostOrder order_;
};

/// What a correction of the line would write off now.
Money value_missing(store::Database& database, const StocktakeLine& line, CostOrder order) {
    if (line.counted >= line.in_book) return {};
    Money value;
    if (line.offcut_id != 0) {
        for (const store::Balance& held : store::balances_of(database, line.offcut_id))
            value += held.value;
        return value;
    }
    auto lots = lots_of(database, line.material_id);
    const auto takes =
        take_units(lots, line.in_book - line.counted, order, store::reserved(database));
    return takes ? costing::value_of(*takes) : Money();
}

/// Codes and labels of what is kept at the stocktake's place and was not counted.
std::vector<std::string> left_to_count(store::Database& database, const Stocktake& stocktake,
                                       const std::vector<StocktakeLine>& lines) {
    const auto counted = [&](std::int64_t material, std::int64_t offcut) {
        return std::any_of(lines.begin(), lines.end(), [&](const StocktakeLine& line) {
            return line.material_id == material && line.offcut_id == offcut;
        });
    };
    const auto here = [&](const std::string& place) {
        return stocktake.place.empty() || base::lowered(place) == base::lowered(stocktake.place);
    };
    const auto units = store::units_on_hand(database);
    std::vector<std::string> left;
    for (const store::Material& material : store::all_materials(database))
        if (units.count(material.id) > 0 && here(material.place) && !counted(material.id, 0))
            left.push_back(material.code);
    for (const store::OffcutOnHand& there : store::all_offcuts_on_hand(database))
        if (here(there.offcut.place) && !counted(there.offcut.material_id, there.offcut.id))
            left.push_back(there.offcut.code);
    return left;
}

} // namespace

const std::vector<std::string>& count_fields() {
    static const std::vector<std::string> fields = {"code", "counted"};
    return fields;
}

Stocktake start_stocktake(Context& context, const std::string& place) {
    return writing(context, [&] {
        if (const auto open = store::open_stocktake(context.database))
            throw base::refused(fmt::format("stocktake {} is still open", open->number),
                                "post it or drop it first");
        Stocktake stocktake;
        stocktake.started_on = context.today;
        stocktake.place = plain_text(place, "--place");
        stocktake.note = context.note;
        return store::add_stocktake(context.database, stocktake);
    });
}

std::int64_t enter_counts(Context& context, const std::vector<Row>& rows) {
    return writing(context, [&] {
        const Stocktake stocktake = require_open(context.database);
        std::vector<base::Problem> problems;
        CountReader reader(context, problems);
        std::vector<StocktakeLine> lines;
        lines.reserve(rows.size());
        for (const Row& row : rows) lines.push_back(reader.read(row));
        throw_if_any(problems);
        for (const StocktakeLine& line : lines)
            store::put_stocktake_line(context.database, stocktake.number, line);
        return static_cast<std::int64_t>(lines.size());
    });
}

CountSheet count_sheet(store::Database& database, std::int64_t number) {
    return reading(database, [&] {
        CountSheet sheet;
        sheet.settings = read_settings(database);
        if (number == 0) {
            sheet.stocktake = require_open(database);
        } else if (const auto found = store::find_stocktake(database, number)) {
            sheet.stocktake = *found;
        } else {
            throw base::bad_input("stocktake", fmt::format("there is no stocktake {}", number));
        }
        const auto lines = store::lines_of_stocktake(database, sheet.stocktake.number);
        for (const StocktakeLine& line : lines) {
            const store::Material material =
                store::material_by_id(database, line.material_id).value();
            CountLine shown{
                material.code,       material.name, material.form, material.bulk_unit == "g",
                line.offcut_id != 0, line.counted,  line.in_book,  {}};
            if (shown.offcut)
                shown.code = store::offcut_by_id(database, line.offcut_id).value().code;
            if (sheet.stocktake.status == StocktakeStatus::open)
                shown.value = value_missing(database, line, sheet.settings.cost_order);
            sheet.lines.push_back(shown);
        }
        if (sheet.stocktake.status == StocktakeStatus::open)
            sheet.not_counted = left_to_count(database, sheet.stocktake, lines);
        return sheet;
    });
}

CountPosted post_stocktake(Context& context) {
    return writing(context, [&] {
        store::Database& database = context.database;
        const Stocktake stocktake = require_open(database);
        CountPosted posted;
        posted.posting = post(context, "stocktake", context.today);
        Correcting correcting(context, posted.posting);
        for (const StocktakeLine& line : store::lines_of_stocktake(database, stocktake.number)) {
            if (line.counted == line.in_book) continue;
            posted.missing += correcting.correct(line);
            ++posted.corrected;
        }
        store::close_stocktake(database, stocktake.number, StocktakeStatus::posted, posted.posting);
        require_its_day(database, posted.posting);
        return posted;
    });
}

Stocktake drop_stocktake(Context& context) {
    return writing(context, [&] {
        Stocktake stocktake = require_open(context.database);
        store::close_stocktake(context.database, stocktake.number, StocktakeStatus::dropped,
                               std::nullopt);
        return stocktake;
    });
}

} // namespace barrow::workshop
