#include "store/stock/catalogue.hpp"

#include "base/error.hpp"
#include "store/file/rows.hpp"

#include <array>
#include <tuple>
#include <utility>

namespace barrow::store {
namespace {

constexpr const char* supplier_columns = "id, code, name, lead_days, note";

constexpr const char* material_columns =
    "id, code, name, form, bulk_unit, collection, supplier_id, fresh_width, fresh_height, "
    "pack_units, pack_price, least_shorter, least_longer, trim_left, trim_right, trim_top, "
    "trim_bottom, kerf, pattern, grain, reorder_level, hazard, note, place, caliper, "
    "grammage, bulk, faces, repeat, pitch, diameter, thing_width, thing_height, flap, spread";

std::string select(const char* columns, const char* table, const char* rest) {
    return std::string("SELECT ") + columns + " FROM " + table + " " + rest;
}

Supplier supplier_from(Query& row) {
    Supplier supplier;
    supplier.id = row.number();
    supplier.code = row.text();
    supplier.name = row.text();
    supplier.lead_days = row.number();
    supplier.note = row.text();
    return supplier;
}

/// The facts, in the order of material_columns.
template <typename AnyMaterial>
auto facts_of(AnyMaterial& m) {
    return std::array{&m.caliper,  &m.grammage,    &m.bulk,         &m.faces, &m.repeat, &m.pitch,
                      &m.diameter, &m.thing_width, &m.thing_height, &m.flap,  &m.spread};
}

Material material_from(Query& row) {
    Material material;
    material.id = row.number();
    material.code = row.text();
    material.name = row.text();
    material.form = base::read_form(row.text()).value();
    material.bulk_unit = row.text();
    material.collection = row.text();
    material.supplier_id = row.maybe_number();
    material.fresh.width = row.number();
    material.fresh.height = row.number();
    material.pack_units = row.number();
    material.pack_price = row.maybe_money();
    material.least_useful.width = row.number();
    material.least_useful.height = row.number();
    material.trim_left = row.number();
    material.trim_right = row.number();
    material.trim_top = row.number();
    material.trim_bottom = row.number();
    material.kerf = row.number();
    material.pattern = read_pattern(row.text()).value();
    material.grain = row.text();
    material.reorder_level = row.number();
    material.hazard = row.text();
    material.note = row.text();
    material.place = row.text();
    for (std::optional<std::int64_t>* fact : facts_of(material)) *fact = row.maybe_number();
    return material;
}

/// Runs `text` with everything but the id, in the order of material_columns, and then `more`.
template <typename... More>
void execute_with(Database& database, const char* text, const Material& m, const More&... more) {
    const auto with_facts = [&](const auto&... facts) {
        execute(database, text, m.code, m.name, base::name_of(m.form), m.bulk_unit, m.collection,
                m.supplier_id, m.fresh.width, m.fresh.height, m.pack_units, m.pack_price,
                m.least_useful.width, m.least_useful.height, m.trim_left, m.trim_right, m.trim_top,
                m.trim_bottom, m.kerf, name_of(m.pattern), m.grain, m.reorder_level, m.hazard,
                m.note, m.place, *facts..., more...);
    };
    std::apply(with_facts, facts_of(m));
}

struct NamedPattern {
    Pattern pattern;
    std::string_view name;
};

constexpr std::array<NamedPattern, 3> patterns = {
    {{Pattern::none, "none"}, {Pattern::one_way, "one-way"}, {Pattern::two_way, "two-way"}}};

/// First row of a query by one text or number, or nothing.
template <typename Value, typename From>
auto find_one(Database& database, const std::string& query_text, const Value& value, From from)
    -> std::optional<decltype(from(std::declval<Query&>()))> {
    Query query(database, query_text, value);
    if (!query.next()) return std::nullopt;
    return from(query);
}

template <typename From>
auto all_of(Database& database, const std::string& query_text, From from) {
    std::vector<decltype(from(std::declval<Query&>()))> rows;
    Query query(database, query_text);
    while (query.next()) rows.push_back(from(query));
    return rows;
}

} // namespace

std::string_view name_of(Pattern pattern) {
    for (const NamedPattern& named : patterns)
        if (named.pattern == pattern) return named.name;
    throw base::broken("a pattern without a name");
}

std::optional<Pattern> read_pattern(std::string_view text) {
    for (const NamedPattern& named : patterns)
        if (named.name == text) return named.pattern;
    return std::nullopt;
}

std::optional<Supplier> find_supplier(Database& database, const std::string& code) {
    return find_one(database, select(supplier_columns, "supplier", "WHERE code = ?"), code,
                    supplier_from);
}

std::optional<Supplier> supplier_by_id(Database& database, std::int64_t id) {
    return find_one(database, select(supplier_columns, "supplier", "WHERE id = ?"), id,
                    supplier_from);
}

std::vector<Supplier> all_suppliers(Database& database) {
    return all_of(database, select(supplier_columns, "supplier", "ORDER BY code"), supplier_from);
}

std::int64_t add_supplier(Database& database, const Supplier& supplier) {
    return insert(database,
                  "INSERT INTO supplier (code, name, lead_days, note) VALUES (?, ?, ?, ?)",
                  supplier.code, supplier.name, supplier.lead_days, supplier.note);
}

void update_supplier(Database& database, const Supplier& supplier) {
    execute(database,
            "UPDATE supplier SET code = ?, name = ?, lead_days = ?, note = ? "
            "WHERE id = ?",
            supplier.code, supplier.name, supplier.lead_days, supplier.note, supplier.id);
}

std::optional<Material> find_material(Database& database, const std::string& code) {
    return find_one(database, select(material_columns, "material", "WHERE code = ?"), code,
                    material_from);
}

std::optional<Material> material_by_id(Database& database, std::int64_t id) {
    return find_one(database, select(material_columns, "material", "WHERE id = ?"), id,
                    material_from);
}

std::vector<Material> all_materials(Database& database) {
    std::vector<Material> materials;
    materials.reserve(count_materials(database));
    each_material(database, [&](Material&& material) { materials.push_back(std::move(material)); });
    return materials;
}

void each_material(Database& database, const std::function<void(Material&&)>& action) {
    Query query(database, select(material_columns, "material", "ORDER BY code"));
    while (query.next()) action(material_from(query));
}

std::size_t count_materials(Database& database) {
    return static_cast<std::size_t>(number_of(database, "SELECT count(*) FROM material"));
}

std::vector<std::string> material_codes(Database& database) {
    return all_of(database, "SELECT code FROM material ORDER BY code",
                  [](Query& row) { return row.text(); });
}

std::int64_t add_material(Database& database, const Material& material) {
    execute_with(
        database,
        "INSERT INTO material (code, name, form, bulk_unit, collection, supplier_id, fresh_width, "
        "fresh_height, pack_units, pack_price, least_shorter, least_longer, trim_left, trim_right, "
        "trim_top, trim_bottom, kerf, pattern, grain, reorder_level, hazard, note, place, caliper, "
        "grammage, bulk, faces, repeat, pitch, diameter, thing_width, thing_height, flap, spread) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
        "?, ?, ?, ?, ?, ?, ?)",
        material);
    return last_inserted(database);
}

void update_material(Database& database, const Material& material) {
    execute_with(
        database,
        "UPDATE material SET code = ?, name = ?, form = ?, bulk_unit = ?, collection = ?, "
        "supplier_id = ?, fresh_width = ?, fresh_height = ?, pack_units = ?, pack_price = ?, "
        "least_shorter = ?, least_longer = ?, trim_left = ?, trim_right = ?, trim_top = ?, "
        "trim_bottom = ?, kerf = ?, pattern = ?, grain = ?, reorder_level = ?, hazard = ?, "
        "note = ?, place = ?, caliper = ?, grammage = ?, bulk = ?, faces = ?, repeat = ?, "
        "pitch = ?, diameter = ?, thing_width = ?, thing_height = ?, flap = ?, spread = ? "
        "WHERE id = ?",
        material, material.id);
}

} // namespace barrow::store
