#include "workshop/stock/catalogue.hpp"

#include "base/error.hpp"
#include "base/hazard.hpp"
#include "base/text.hpp"
#include "store/stock/lots.hpp"
#include "workshop/shared/settings.hpp"
#include "workshop/stock/material_facts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace barrow::workshop {
namespace {

using base::Form;
using base::Length;
using store::Material;
using store::Supplier;

/// Sides of a sheet may be 50 m at most, so that its area fits 64 bits.
constexpr std::int64_t longest_side = 50'000 * Length::units_per_mm;

/// "-" empties a text; empty keeps it.
void keep_text(Fields& fields, const std::string& name, std::string& value) {
    const std::string given = fields.text(name);
    if (given.empty()) return;
    value = given == "-" ? std::string() : given;
}

/// What is wrong with the code of a material (supplier) that is not there.
base::Problem no_material(store::Database& database, const std::string& code, std::string where) {
    std::string hint = base::did_you_mean(code, store::material_codes(database));
    if (hint.empty()) hint = "see all with: barrow material list";
    return {std::move(where), fmt::format("there is no material {}", code), hint};
}

base::Problem no_supplier(store::Database& database, const std::string& code, std::string where) {
    std::vector<std::string> codes;
    for (const Supplier& supplier : store::all_suppliers(database)) codes.push_back(supplier.code);
    std::string hint = base::did_you_mean(code, codes);
    if (hint.empty()) hint = "see all with: barrow supplier list, or add it first";
    return {std::move(where), fmt::format("there is no supplier {}", code), hint};
}

/// The supplier of that code, that the field `supplier` has; else a problem of the row.
std::optional<Supplier> supplier_of_field(Fields& fields, store::Database& database,
                                          const std::string& code) {
    auto supplier = store::find_supplier(database, code);
    if (!supplier) fields.complain(no_supplier(database, code, fields.where("supplier")));
    return supplier;
}

class MaterialReader {
public:
    MaterialReader(store::Database& database, const Settings& settings,
                   std::vector<base::Problem>& problems)
        : database_(database), settings_(settings), problems_(problems) {}

    /// The material as the row leaves it; `before` is what it was, if it was.
    Material read(const Row& row, const std::optional<Material>& before) {
        Fields fields(row, problems_);
        Material material = before.value_or(Material{});
        material.code = before ? before->code : fields.code("code", true);
        if (const std::string name = fields.text("name", !before); !name.empty())
            material.name = name;
        bare_ = fields.bare_unit(settings_.bare_unit);
        read_form(fields, before, material);
        read_size(fields, before.has_value(), material);
        read_pack(fields, material);
        read_remnants(fields, material);
        read_direction(fields, material);
        read_usual_supplier(fields, material);
        read_hazard(fields, material);
        keep_text(fields, "collection", material.collection);
        keep_text(fields, "note", material.note);
        keep_text(fields, "place", material.place);
        read_facts(fields, bare_, material);
        return material;
    }

private:
    void read_form(Fields& fields, const std::optional<Material>& before, Material& material) {
        const std::string form =
            fields.choice("form", {"sheet", "length", "wire", "count", "bulk"}, !before);
        if (!form.empty()) material.form = base::read_form(form).value();
        if (before && material.form != before->form && store::has_lots(database_, before->id))
            throw base::refused(fmt::format("{} has been received as {}", before->code,
                                            base::name_of(before->form)),
                                "its form cannot change any more: make a new material");
        const std::string unit = fields.choice("bulk_unit", {"ml", "g"});
        if (material.form != Form::bulk) {
            material.bulk_unit.clear();
            if (!unit.empty()) fields.complain("bulk_unit", "only goes with the form bulk");
        } else {
            if (!unit.empty()) material.bulk_unit = unit;
            if (material.bulk_unit.empty())
                fields.complain("bulk_unit", "is empty", "bulk is kept in ml or g: say which");
        }
    }

    void read_size(Fields& fields, bool known, Material& material) const {
        switch (material.form) {
        case Form::sheet: {
            const Length width = fields.length("width", bare_, !known);
            const Length height = fields.length("height", bare_, !known);
            if (!width.is_zero()) material.fresh.width = width.units();
            if (!height.is_zero()) material.fresh.height = height.units();
            if (std::max(material.fresh.width, material.fresh.height) > longest_side)
                fields.complain("width", "a side of a sheet is at most 50 m");
            break;
        }
        case Form::length: {
            const Length length = fields.length("length", bare_, !known);
            if (!length.is_zero()) material.fresh.width = length.units();
            break;
        }
        case Form::wire:
            if (const auto loops = fields.count("loops", 1, most_units, !known))
                material.fresh.width = *loops;
            break;
        case Form::count:
        case Form::bulk: break;
        }
        refuse_sizes_of_other_forms(fields, material.form);
    }

    static void refuse_sizes_of_other_forms(Fields& fields, Form form) {
        const auto only_for = [&](const std::string& name, Form wanted) {
            if (form != wanted && fields.has(name))
                fields.complain(name,
                                fmt::format("only goes with the form {}", base::name_of(wanted)));
        };
        only_for("length", Form::length);
        only_for("loops", Form::wire);
    }

    void read_pack(Fields& fields, Material& material) {
        const bool bulk = material.form == Form::bulk;
        const bool mass = material.bulk_unit == "g";
        const auto amount = [&](const std::string& name, std::int64_t least) {
            return bulk ? fields.amount(name, mass) : fields.count(name, least, most_units);
        };
        if (const auto pack = amount("pack", 1)) {
            material.pack_units = *pack;
            if (*pack == 0) fields.complain("pack", "is zero");
        }
        if (const auto price = fields.money("pack_price", settings_.currency))
            material.pack_price = *price;
        if (const auto level = amount("reorder_at", 0)) material.reorder_level = *level;
    }

    void read_remnants(Fields& fields, Material& material) {
        const auto side = [&](const std::string& name, std::int64_t& value) {
            if (fields.has(name)) value = fields.length(name, bare_).units();
        };
        if (material.form == Form::sheet) {
            read_least_sheet(fields, material);
            side("trim_left", material.trim_left);
            side("trim_right", material.trim_right);
            side("trim_top", material.trim_top);
            side("trim_bottom", material.trim_bottom);
            if (material.trim_left + material.trim_right >= material.fresh.width
                || material.trim_top + material.trim_bottom >= material.fresh.height)
                fields.complain("trim_left", "what is trimmed off leaves nothing of the sheet");
        } else if (material.form == Form::length) {
            if (fields.has("keep_from"))
                material.least_useful = {0, fields.length("keep_from", bare_).units()};
        } else if (material.form == Form::wire) {
            if (const auto loops = fields.count("keep_from", 0, most_units))
                material.least_useful = {0, *loops};
        }
        if (base::is_cut(material.form) && material.form != Form::wire) side("kerf", material.kerf);
    }

    /// "80mm x 150mm", or one measure for a square.
    void read_least_sheet(Fields& fields, Material& material) {
        const std::string text = fields.text("keep_from");
        if (text.empty()) return;
        const std::size_t cross = text.find_first_of("x*");
        const std::string where = fields.where("keep_from");
        try {
            const Length one = read_measure(text.substr(0, cross), where, bare_);
            const Length other = cross == std::string::npos
                                     ? one
                                     : read_measure(text.substr(cross + 1), where, bare_);
            material.least_useful = {std::min(one, other).units(), std::max(one, other).units()};
        } catch (const base::Error& error) {
            base::Problem problem = error.problems().front();
            problem.hint += "; it is the smallest remnant worth keeping, like 80mm x 150mm";
            fields.complain(std::move(problem));
        }
    }

    static void read_direction(Fields& fields, Material& material) {
        const std::string pattern = fields.choice("pattern", {"none", "one-way", "two-way"});
        if (!pattern.empty()) material.pattern = store::read_pattern(pattern).value();
        const std::string grain = fields.choice("grain", {"width", "height", "-"});
        if (!grain.empty()) material.grain = grain == "-" ? "" : grain;
    }

    void read_usual_supplier(Fields& fields, Material& material) const {
        const std::string code = fields.text("supplier");
        if (code == "-") material.supplier_id.reset();
        if (code.empty() || code == "-") return;
        if (const auto supplier = supplier_of_field(fields, database_, code))
            material.supplier_id = supplier->id;
    }

    static void read_hazard(Fields& fields, Material& material) {
        std::string text = fields.text("hazard");
        if (text.empty()) return;
        if (text == "-") {
            material.hazard.clear();
            return;
        }
        std::replace(text.begin(), text.end(), ',', ' ');
        std::string word;
        for (const char c : text + " ") {
            if (c != ' ') {
                word += c;
                continue;
            }
            if (!word.empty() && !base::read_hazard(word))
                fields.complain("hazard", fmt::format("\"{}\" is not known", word),
                                fmt::format("expected {}", fmt::join(base::hazard_names(), ", ")));
            word.clear();
        }
        material.hazard = text;
    }

    store::Database& database_;
    const Settings& settings_;
    std::vector<base::Problem>& problems_;
    std::optional<base::Unit> bare_; ///< of lengths that the row writes without a unit
};

Supplier read_supplier_row(const Row& row, const std::optional<Supplier>& before,
                           std::vector<base::Problem>& problems) {
    Fields fields(row, problems);
    Supplier supplier = before.value_or(Supplier{});
    supplier.code = before ? before->code : fields.code("code", true);
    if (const std::string name = fields.text("name", !before); !name.empty()) supplier.name = name;
    if (const auto days = fields.count("lead_days", 0, 3650)) supplier.lead_days = *days;
    keep_text(fields, "note", supplier.note);
    return supplier;
}

bool same(const Supplier& a, const Supplier& b) {
    return a.name == b.name && a.lead_days == b.lead_days && a.note == b.note;
}

bool same(const Material& a, const Material& b) {
    const auto all = [](const Material& m) {
        return std::tie(m.name, m.form, m.bulk_unit, m.collection, m.supplier_id, m.fresh,
                        m.pack_units, m.pack_price, m.least_useful, m.trim_left, m.trim_right,
                        m.trim_top, m.trim_bottom, m.kerf, m.pattern, m.grain, m.reorder_level,
                        m.hazard, m.note, m.place, m.caliper, m.grammage, m.bulk, m.faces, m.repeat,
                        m.pitch, m.diameter, m.thing_width, m.thing_height, m.flap, m.spread);
    };
    return all(a) == all(b);
}

/// The code of a row, and a complaint when an earlier row has it too.
std::string code_of(const Row& row, std::map<std::string, std::string>& seen,
                    std::vector<base::Problem>& problems) {
    Fields fields(row, problems);
    std::string code = fields.text("code");
    const auto [earlier, fresh] = seen.emplace(base::lowered(code), row.where);
    if (!fresh && !code.empty())
        fields.complain("code", fmt::format("{} stands there twice", code),
                        fmt::format("the first is {}", earlier->second));
    return code;
}

base::Error there_already(const std::string& code, const char* group) {
    return base::refused(fmt::format("{} is there already", code),
                         fmt::format("change it with: barrow {} change {}", group, code));
}

/// What adding and changing have in common for suppliers and materials.
template <typename Thing, typename Find, typename Read, typename Add, typename Update>
Kept keep_all(const std::vector<Row>& rows, std::vector<base::Problem>& problems, Find find,
              Read read, Add add, Update update) {
    Kept kept;
    std::map<std::string, std::string> seen;
    std::vector<std::pair<std::optional<Thing>, Thing>> changes;
    for (const Row& row : rows) {
        const std::string code = code_of(row, seen, problems);
        const std::optional<Thing> before = code.empty() ? std::nullopt : find(code);
        changes.emplace_back(before, read(row, before));
    }
    throw_if_any(problems);
    for (const auto& [before, after] : changes) {
        if (!before) {
            add(after);
            ++kept.added;
        } else if (same(*before, after)) {
            ++kept.unchanged;
        } else {
            update(after);
            ++kept.changed;
        }
    }
    return kept;
}

} // namespace

const std::vector<std::string>& supplier_fields() {
    static const std::vector<std::string> fields = {"code", "name", "lead_days", "note"};
    return fields;
}

const std::vector<std::string>& material_fields() {
    static const std::vector<std::string> fields = {
        "code",      "name",      "form",       "collection", "supplier",    "width",
        "height",    "length",    "loops",      "bulk_unit",  "pack",        "pack_price",
        "keep_from", "trim_left", "trim_right", "trim_top",   "trim_bottom", "kerf",
        "pattern",   "grain",     "reorder_at", "hazard",     "note",        "place",
        "caliper",   "grammage",  "bulk",       "faces",      "repeat",      "pitch",
        "diameter",  "flap",      "spread",     "unit"};
    return fields;
}

Kept keep_suppliers(Context& context, const std::vector<Row>& rows, Expect expect) {
    return writing(context, [&] {
        store::Database& database = context.database;
        std::vector<base::Problem> problems;
        return keep_all<Supplier>(
            rows, problems,
            [&](const std::string& code) {
                if (expect == Expect::known)
                    return std::optional(supplier_called(database, code, "code"));
                auto supplier = store::find_supplier(database, code);
                if (expect == Expect::fresh && supplier) throw there_already(code, "supplier");
                return supplier;
            },
            [&](const Row& row, const std::optional<Supplier>& before) {
                return read_supplier_row(row, before, problems);
            },
            [&](const Supplier& supplier) { store::add_supplier(database, supplier); },
            [&](const Supplier& supplier) { store::update_supplier(database, supplier); });
    });
}

Kept keep_materials_in_transaction(Context& context, const std::vector<Row>& rows, Expect expect) {
    store::Database& database = context.database;
    const Settings settings = read_settings(database);
    std::vector<base::Problem> problems;
    MaterialReader reader(database, settings, problems);
    return keep_all<Material>(
        rows, problems,
        [&](const std::string& code) {
            if (expect == Expect::known)
                return std::optional(material_called(database, code, "code"));
            auto material = store::find_material(database, code);
            if (expect == Expect::fresh && material) throw there_already(code, "material");
            return material;
        },
        [&](const Row& row, const std::optional<Material>& before) {
            return reader.read(row, before);
        },
        [&](const Material& material) { store::add_material(database, material); },
        [&](const Material& material) { store::update_material(database, material); });
}

Kept keep_materials(Context& context, const std::vector<Row>& rows, Expect expect) {
    return writing(context, [&] { return keep_materials_in_transaction(context, rows, expect); });
}

store::Material material_called(store::Database& database, const std::string& code,
                                const std::string& where) {
    if (auto material = store::find_material(database, code)) return *material;
    throw base::Error(base::Kind::bad_input, {no_material(database, code, where)});
}

store::Supplier supplier_called(store::Database& database, const std::string& code,
                                const std::string& where) {
    if (auto supplier = store::find_supplier(database, code)) return *supplier;
    throw base::Error(base::Kind::bad_input, {no_supplier(database, code, where)});
}

std::optional<store::Material> read_material(Fields& fields, store::Database& database) {
    const std::string code = fields.text("material", true);
    if (code.empty()) return std::nullopt;
    auto material = store::find_material(database, code);
    if (!material) fields.complain(no_material(database, code, fields.where("material")));
    return material;
}

std::optional<store::Supplier> read_supplier(Fields& fields, store::Database& database) {
    const std::string code = fields.text("supplier");
    if (code.empty()) return std::nullopt;
    return supplier_of_field(fields, database, code);
}

std::vector<store::Supplier> list_suppliers(store::Database& database) {
    return reading(database, [&] { return store::all_suppliers(database); });
}

std::vector<MaterialLine> list_materials(store::Database& database) {
    return reading(database, [&] {
        std::map<std::int64_t, Supplier> suppliers;
        for (const Supplier& supplier : store::all_suppliers(database))
            suppliers[supplier.id] = supplier;
        std::vector<MaterialLine> lines;
        for (const Material& material : store::all_materials(database)) {
            MaterialLine line{material, {}, {}};
            if (material.supplier_id) {
                line.supplier = suppliers[*material.supplier_id].code;
                line.supplier_name = suppliers[*material.supplier_id].name;
            }
            lines.push_back(line);
        }
        return lines;
    });
}

} // namespace barrow::workshop
