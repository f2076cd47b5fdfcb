#include "workshop/books/exports.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "store/books/reports.hpp"
#include "workshop/shared/asking.hpp"
#include "workshop/shared/quantity_text.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/material_facts.hpp"
#include "workshop/stock/receive.hpp"
#include "workshop/stock/stockroom.hpp"

#include <fmt/format.h>

#include <array>
#include <map>

namespace barrow::workshop {
namespace {

using base::Form;
using base::Length;
using store::Material;

/// A row by names of columns; those it does not name are empty.
using Named = std::map<std::string, std::string>;

void add_row(ExportedTable& table, const Named& cells) {
    std::vector<std::string> row;
    for (const std::string& column : table.columns) {
        const auto cell = cells.find(column);
        row.push_back(cell == cells.end() ? std::string() : cell->second);
    }
    table.rows.push_back(std::move(row));
}

/// An amount of bulk as it is read back: "250 ml"; litres and kilograms beyond what may be said
/// in the small unit.
std::string bulk_text(std::int64_t thousandths, bool mass) {
    constexpr std::int64_t most_small = 1'000'000;
    if (thousandths <= most_small * base::bulk_per_unit)
        return thousandths_text(thousandths) + (mass ? " g" : " ml");
    return base::to_text(base::Rational::of(thousandths, base::Wide{1'000} * base::bulk_per_unit))
           + (mass ? " kg" : " l");
}

std::string units_cell(const Material& material, std::int64_t units) {
    return material.form == Form::bulk ? bulk_text(units, material.bulk_unit == "g")
                                       : std::to_string(units);
}

/// Writes shop texts: money in its currency, lengths in its unit, both exactly.
/// Columns of an import that an export has too: lengths are written with their unit, so that none
/// has to be named for the row.
std::vector<std::string> columns_of(std::vector<std::string> fields) {
    std::erase(fields, "unit");
    return fields;
}

class Exporting {
public:
    Exporting(store::Database& database, std::string what)
        : database_(database), settings_(read_settings(database)) {
        table_.what = std::move(what);
    }

    ExportedTable suppliers() {
        table_.columns = supplier_fields();
        for (const store::Supplier& supplier : store::all_suppliers(database_))
            add_row(table_, {{"code", supplier.code},
                             {"name", supplier.name},
                             {"lead_days", std::to_string(supplier.lead_days)},
                             {"note", supplier.note}});
        return std::move(table_);
    }

    ExportedTable materials() {
        table_.columns = columns_of(material_fields());
        const auto codes = supplier_codes();
        for (const Material& m : store::all_materials(database_)) {
            Named row = {{"code", m.code},
                         {"name", m.name},
                         {"form", std::string(base::name_of(m.form))},
                         {"bulk_unit", m.bulk_unit},
                         {"collection", m.collection},
                         {"pack", units_cell(m, m.pack_units)},
                         {"reorder_at", units_cell(m, m.reorder_level)},
                         {"pattern", std::string(store::name_of(m.pattern))},
                         {"grain", m.grain},
                         {"hazard", m.hazard},
                         {"note", m.note},
                         {"place", m.place}};
            if (m.supplier_id) row["supplier"] = codes.at(*m.supplier_id);
            if (m.pack_price) row["pack_price"] = money(*m.pack_price);
            add_size(row, m.form, m.fresh);
            add_cutting(row, m);
            row.merge(fact_texts(m, settings_.unit));
            add_row(table_, row);
        }
        return std::move(table_);
    }

    ExportedTable receipts() {
        table_.columns = columns_of(receipt_fields());
        const auto codes = supplier_codes();
        std::map<std::int64_t, Material> materials;
        for (const Material& material : store::all_materials(database_))
            materials[material.id] = material;
        std::int64_t posting = 0;
        int delivery = 0;
        for (const store::Lot& lot : store::standing_receipts(database_)) {
            if (lot.posting_id != posting) ++delivery;
            posting = lot.posting_id;
            const Material& material = materials.at(lot.material_id);
            const auto units = static_cast<std::int64_t>(lot.quantity / lot.unit.measure());
            Named row = {{"date", base::to_text(lot.received_on)}, {"material", material.code},
                         {"units", units_cell(material, units)},   {"cost", money(lot.cost)},
                         {"delivery", std::to_string(delivery)},   {"note", lot.note}};
            if (lot.supplier_id) row["supplier"] = codes.at(*lot.supplier_id);
            add_size(row, material.form, lot.unit);
            add_row(table_, row);
        }
        return std::move(table_);
    }

    ExportedTable offcuts() {
        table_.columns = {"code",  "material", "form",    "width", "height", "length",
                          "loops", "value",    "kept_on", "place", "note"};
        std::map<std::int64_t, Material> materials;
        for (const Material& material : store::all_materials(database_))
            materials[material.id] = material;
        for (const store::OffcutOnHand& there : store::offcuts_by_age(database_)) {
            const Material& material = materials.at(there.offcut.material_id);
            Named row = {{"code", there.offcut.code},
                         {"material", material.code},
                         {"form", std::string(base::name_of(material.form))},
                         {"value", money(there.value)},
                         {"kept_on", base::to_text(there.offcut.kept_on)},
                         {"place", there.offcut.place},
                         {"note", there.offcut.note}};
            add_size(row, material.form, there.offcut.size);
            add_row(table_, row);
        }
        return std::move(table_);
    }

    ExportedTable journals() {
        table_.columns = {"serial",    "design", "name",  "batch",     "condition",
                          "place",     "price",  "asked", "materials", "labour",
                          "overheads", "cost",   "note"};
        const Settings settings = read_settings(database_);
        AskingPrices asking(database_, settings);
        for (const store::JournalOnHand& line : store::journals_on_hand(database_)) {
            const store::Journal& j = line.journal;
            const auto asked = asking.of(j);
            add_row(table_, {{"serial", j.serial},
                             {"design", line.design_code},
                             {"name", line.design_name},
                             {"batch", std::to_string(line.batch_number)},
                             {"condition", j.second ? "second" : "good"},
                             {"place", j.place},
                             {"price", j.price ? money(*j.price) : std::string()},
                             {"asked", asked ? money(*asked) : std::string()},
                             {"materials", money(j.materials)},
                             {"labour", money(j.labour)},
                             {"overheads", money(j.overheads)},
                             {"cost", money(j.cost())},
                             {"note", j.note}});
        }
        return std::move(table_);
    }

    ExportedTable stock(const Stock& stock) {
        table_.columns = {"code",    "name",        "form",         "on_hand", "unit",
                          "offcuts", "shelf_value", "offcut_value", "value",   "place"};
        for (const StockLine& line : stock.lines) {
            const Material& m = line.material;
            add_row(table_, {{"code", m.code},
                             {"name", m.name},
                             {"form", std::string(base::name_of(m.form))},
                             {"on_hand", m.form == Form::bulk ? thousandths_text(line.units)
                                                              : std::to_string(line.units)},
                             {"unit", unit_word(m.form, m.bulk_unit == "g")},
                             {"offcuts", std::to_string(line.offcuts)},
                             {"shelf_value", money(line.shelf_value)},
                             {"offcut_value", money(line.offcut_value)},
                             {"value", money(line.shelf_value + line.offcut_value)},
                             {"place", m.place}});
        }
        return std::move(table_);
    }

    ExportedTable log() {
        table_.columns = {"entry", "day",      "recorded_at", "what",     "who",
                          "note",  "reverses", "reversed_by", "movements"};
        for (const store::LoggedPosting& logged : store::whole_log(database_)) {
            const store::Posting& p = logged.posting;
            add_row(table_,
                    {{"entry", std::to_string(p.id)},
                     {"day", base::to_text(p.made_on)},
                     {"recorded_at", p.recorded_at},
                     {"what", p.kind},
                     {"who", p.who},
                     {"note", p.note},
                     {"reverses", p.reverses ? std::to_string(*p.reverses) : std::string()},
                     {"reversed_by",
                      logged.reversed_by == 0 ? std::string() : std::to_string(logged.reversed_by)},
                     {"movements", std::to_string(logged.movements)}});
        }
        return std::move(table_);
    }

private:
    std::string money(base::Money amount) const {
        return base::to_text(amount, settings_.currency);
    }

    std::string length(std::int64_t units) const {
        return base::to_text(Length::of_units(units), settings_.unit);
    }

    void add_size(Named& row, Form form, const base::StockSize& size) const {
        if (form == Form::sheet) {
            row["width"] = length(size.width);
            row["height"] = length(size.height);
        }
        if (form == Form::length) row["length"] = length(size.width);
        if (form == Form::wire) row["loops"] = std::to_string(size.width);
    }

    /// What only goes with forms that are cut; nothing that is at its usual value of zero.
    void add_cutting(Named& row, const Material& m) const {
        const auto put = [&](const char* name, std::int64_t units) {
            if (units != 0) row[name] = length(units);
        };
        if (m.form == Form::sheet) {
            put("trim_left", m.trim_left);
            put("trim_right", m.trim_right);
            put("trim_top", m.trim_top);
            put("trim_bottom", m.trim_bottom);
        }
        if (m.form == Form::sheet || m.form == Form::length) put("kerf", m.kerf);
        if (!base::is_cut(m.form) || m.least_useful.height == 0) return;
        row["keep_from"] = m.form == Form::sheet ? length(m.least_useful.width) + " x "
                                                       + length(m.least_useful.height)
                           : m.form == Form::length ? length(m.least_useful.height)
                                                    : std::to_string(m.least_useful.height);
    }

    std::map<std::int64_t, std::string> supplier_codes() {
        std::map<std::int64_t, std::string> codes;
        for (const store::Supplier& supplier : store::all_suppliers(database_))
            codes[supplier.id] = supplier.code;
        return codes;
    }

    store::Database& database_;
    Settings settings_;
    ExportedTable table_;
};

} // namespace

const std::vector<std::string>& export_names() {
    static const std::vector<std::string> names = {"suppliers", "materials", "receipts", "offcuts",
                                                   "journals",  "stock",     "log"};
    return names;
}

ExportedTable export_table(store::Database& database, const std::string& what) {
    // Stock reads in a transaction of its own.
    if (what == "stock") {
        const Stock there = stock(database);
        return reading(database, [&] { return Exporting(database, what).stock(there); });
    }
    return reading(database, [&] {
        Exporting exporting(database, what);
        if (what == "suppliers") return exporting.suppliers();
        if (what == "materials") return exporting.materials();
        if (what == "receipts") return exporting.receipts();
        if (what == "offcuts") return exporting.offcuts();
        if (what == "journals") return exporting.journals();
        if (what == "log") return exporting.log();
        std::string hint = base::did_you_mean(what, export_names());
        throw base::Error(base::Kind::usage, fmt::format("there is no table \"{}\"", what),
                          hint.empty() ? fmt::format("{}", fmt::join(export_names(), ", ")) : hint);
    });
}

} // namespace barrow::workshop
