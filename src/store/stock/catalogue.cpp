#include "store/stock/catalogue.hpp"

#include "base/error.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <array>
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

Supplier supplier_from(SQLite::Statement& row) {
    Supplier supplier;
    supplier.id = row.getColumn(0).getInt64();
    supplier.code = row.getColumn(1).getString();
    supplier.name = row.getColumn(2).getString();
    supplier.lead_days = row.getColumn(3).getInt64();
    supplier.note = row.getColumn(4).getString();
    return supplier;
}

/// The facts, in the order of material_columns.
template <typename AnyMaterial>
auto facts_of(AnyMaterial& m) {
    return std::array{&m.caliper,  &m.grammage,    &m.bulk,         &m.faces, &m.repeat, &m.pitch,
                      &m.diameter, &m.thing_width, &m.thing_height, &m.flap,  &m.spread};
}

Material material_from(SQLite::Statement& row) {
    int column = 0;
    const auto text = [&] { return row.getColumn(column++).getString(); };
    const auto number = [&] { return row.getColumn(column++).getInt64(); };
    const auto maybe = [&]() -> std::optional<std::int64_t> {
        const SQLite::Column value = row.getColumn(column++);
        if (value.isNull()) return std::nullopt;
        return value.getInt64();
    };
    Material material;
    material.id = number();
    material.code = text();
    material.name = text();
    material.form = base::read_form(text()).value();
    material.bulk_unit = text();
    material.collection = text();
    material.supplier_id = maybe();
    material.fresh.width = number();
    material.fresh.height = number();
    material.pack_units = number();
    if (const auto price = maybe()) material.pack_price = base::Money::of_minor(*price);
    material.least_useful.width = number();
    material.least_useful.height = number();
    material.trim_left = number();
    material.trim_right = number();
    material.trim_top = number();
    material.trim_bottom = number();
    material.kerf = number();
    material.pattern = read_pattern(text()).value();
    material.grain = text();
    material.reorder_level = number();
    material.hazard = text();
    material.note = text();
    material.place = text();
    for (std::optional<std::int64_t>* fact : facts_of(material)) *fact = maybe();
    return material;
}

/// Binds everything but the id, in the order of material_columns, from parameter 1 on.
int bind_material(SQLite::Statement& statement, const Material& material) {
    int at = 0;
    const auto text = [&](const std::string& value) { statement.bind(++at, value); };
    const auto number = [&](std::int64_t value) { statement.bind(++at, value); };
    const auto maybe = [&](std::optional<std::int64_t> value) {
        value ? statement.bind(++at, *value) : statement.bind(++at);
    };
    text(material.code);
    text(material.name);
    text(std::string(base::name_of(material.form)));
    text(material.bulk_unit);
    text(material.collection);
    maybe(material.supplier_id);
    number(material.fresh.width);
    number(material.fresh.height);
    number(material.pack_units);
    maybe(material.pack_price ? std::optional(material.pack_price->minor()) : std::nullopt);
    number(material.least_useful.width);
    number(material.least_useful.height);
    number(material.trim_left);
    number(material.trim_right);
    number(material.trim_top);
    number(material.trim_bottom);
    number(material.kerf);
    text(std::string(name_of(material.pattern)));
    text(material.grain);
    number(material.reorder_level);
    text(material.hazard);
    text(material.note);
    text(material.place);
    for (const std::optional<std::int64_t>* fact : facts_of(material)) maybe(*fact);
    return at;
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
    -> std::optional<decltype(from(std::declval<SQLite::Statement&>()))> {
    SQLite::Statement query(database.sql(), query_text);
    query.bind(1, value);
    if (!query.executeStep()) return std::nullopt;
    return from(query);
}

template <typename From>
auto all_of(Database& database, const std::string& query_text, From from) {
    std::vector<decltype(from(std::declval<SQLite::Statement&>()))> rows;
    SQLite::Statement query(database.sql(), query_text);
    while (query.executeStep()) rows.push_back(from(query));
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
    SQLite::Statement statement(
        database.sql(), "INSERT INTO supplier (code, name, lead_days, note) VALUES (?, ?, ?, ?)");
    statement.bind(1, supplier.code);
    statement.bind(2, supplier.name);
    statement.bind(3, supplier.lead_days);
    statement.bind(4, supplier.note);
    statement.exec();
    return database.sql().getLastInsertRowid();
}

void update_supplier(Database& database, const Supplier& supplier) {
    SQLite::Statement statement(database.sql(),
                                "UPDATE supplier SET code = ?, name = ?, lead_days = ?, note = ? "
                                "WHERE id = ?");
    statement.bind(1, supplier.code);
    statement.bind(2, supplier.name);
    statement.bind(3, supplier.lead_days);
    statement.bind(4, supplier.note);
    statement.bind(5, supplier.id);
    statement.exec();
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
    SQLite::Statement query(database.sql(), select(material_columns, "material", "ORDER BY code"));
    while (query.executeStep()) action(material_from(query));
}

std::size_t count_materials(Database& database) {
    const auto count = database.sql().execAndGet("SELECT count(*) FROM material").getInt64();
    return static_cast<std::size_t>(count);
}

std::vector<std::string> material_codes(Database& database) {
    return all_of(database, "SELECT code FROM material ORDER BY code",
                  [](SQLite::Statement& row) { return row.getColumn(0).getString(); });
}

std::int64_t add_material(Database& database, const Material& material) {
    SQLite::Statement statement(
        database.sql(),
        "INSERT INTO material (code, name, form, bulk_unit, collection, supplier_id, fresh_width, "
        "fresh_height, pack_units, pack_price, least_shorter, least_longer, trim_left, trim_right, "
        "trim_top, trim_bottom, kerf, pattern, grain, reorder_level, hazard, note, place, caliper, "
        "grammage, bulk, faces, repeat, pitch, diameter, thing_width, thing_height, flap, spread) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
        "?, "
        "?, ?, ?, ?, ?, ?)");
    bind_material(statement, material);
    statement.exec();
    return database.sql().getLastInsertRowid();
}

void update_material(Database& database, const Material& material) {
    SQLite::Statement statement(
        database.sql(),
        "UPDATE material SET code = ?, name = ?, form = ?, bulk_unit = ?, collection = ?, "
        "supplier_id = ?, fresh_width = ?, fresh_height = ?, pack_units = ?, pack_price = ?, "
        "least_shorter = ?, least_longer = ?, trim_left = ?, trim_right = ?, trim_top = ?, "
        "trim_bottom = ?, kerf = ?, pattern = ?, grain = ?, reorder_level = ?, hazard = ?, "
        "note = ?, place = ?, caliper = ?, grammage = ?, bulk = ?, faces = ?, repeat = ?, "
        "pitch = ?, diameter = ?, thing_width = ?, thing_height = ?, flap = ?, spread = ? "
        "WHERE id = ?");
    const int last = bind_material(statement, material);
    statement.bind(last + 1, material.id);
    statement.exec();
}

} // namespace barrow::store
