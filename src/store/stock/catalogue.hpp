#pragma once

#include "base/form.hpp"
#include "base/money.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace barrow::store {

struct Supplier {
    std::int64_t id = 0;
    std::string code;
    std::string name;
    std::int64_t lead_days = 0;
    std::string note;
};

enum class Pattern { none, one_way, two_way };

/// A row of the material table; see schema/1_shop.sql for what each column means.
struct Material {
    std::int64_t id = 0;
    std::string code;
    std::string name;
    base::Form form = base::Form::count;
    std::string bulk_unit; ///< "ml" or "g" for bulk, else empty
    std::string collection;
    std::optional<std::int64_t> supplier_id;
    base::StockSize fresh;
    std::int64_t pack_units = 1;
    std::optional<base::Money> pack_price;
    base::StockSize least_useful{0, 0}; ///< shorter and longer side
    std::int64_t trim_left = 0, trim_right = 0, trim_top = 0, trim_bottom = 0;
    std::int64_t kerf = 0;
    Pattern pattern = Pattern::none;
    std::string grain; ///< "", "width" or "height"
    std::int64_t reorder_level = 0;
    std::string hazard;
    std::string note;
    std::string place;
    // What designs reckon with; nothing when it is not known.
    std::optional<std::int64_t> caliper, grammage, bulk, faces, repeat, pitch, diameter;
    std::optional<std::int64_t> thing_width, thing_height, flap, spread;
};

/// "none", "one-way", "two-way".
std::string_view name_of(Pattern pattern);
std::optional<Pattern> read_pattern(std::string_view text);

/// Finders by code ignore case and give nothing for a code there is not; what to say of it is the
/// caller's business. Lists are in the order of their codes.
std::optional<Supplier> find_supplier(Database& database, const std::string& code);
std::optional<Supplier> supplier_by_id(Database& database, std::int64_t id);
std::vector<Supplier> all_suppliers(Database& database);
std::int64_t add_supplier(Database& database, const Supplier& supplier);
void update_supplier(Database& database, const Supplier& supplier);

std::optional<Material> find_material(Database& database, const std::string& code);
std::optional<Material> material_by_id(Database& database, std::int64_t id);
std::vector<Material> all_materials(Database& database);
/// The same, one after the other, for a list that keeps them in lines of its own.
void each_material(Database& database, const std::function<void(Material&&)>& action);
std::size_t count_materials(Database& database);
std::vector<std::string> material_codes(Database& database);
std::int64_t add_material(Database& database, const Material& material);

/// Everything but the id may change, the form only while the material has no lots (the caller
/// checks that).
void update_material(Database& database, const Material& material);

} // namespace barrow::store
