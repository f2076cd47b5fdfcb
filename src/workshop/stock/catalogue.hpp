#pragma once

#include "store/stock/catalogue.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/fields.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::workshop {

/// What an import did.
struct Kept {
    std::int64_t added = 0;
    std::int64_t changed = 0;
    std::int64_t unchanged = 0;
};

/// What a row's code must be: anything, one the shop does not have yet, or one it has.
enum class Expect { any, fresh, known };

/// Fields a supplier row may have: code, name, lead_days, note.
const std::vector<std::string>& supplier_fields();
/// Fields a material row may have; see README.md, "Materials".
const std::vector<std::string>& material_fields();

/// Adds the suppliers (materials) whose codes are new and changes the others. A field that is
/// empty keeps what it is, or its usual value when the row is new; "-" empties a text. All rows or
/// none. Throws base::Error (Kind::bad_input) with every problem of every row, and for a code that
/// is not there although it must be; Kind::refused for one that is there although it must not, and
/// for changing the form of a material that has been received already.
Kept keep_suppliers(Context& context, const std::vector<Row>& rows, Expect expect = Expect::any);
Kept keep_materials(Context& context, const std::vector<Row>& rows, Expect expect = Expect::any);
/// The same for use cases that already stand in a transaction.
Kept keep_materials_in_transaction(Context& context, const std::vector<Row>& rows, Expect expect);

/// The material (supplier) of that code. Throws base::Error (Kind::bad_input, `where` as given)
/// naming the nearest codes when there is none.
store::Material material_called(store::Database& database, const std::string& code,
                                const std::string& where);
store::Supplier supplier_called(store::Database& database, const std::string& code,
                                const std::string& where);

/// The material that a row names in its field `material`, which it must, and the supplier in its
/// field `supplier`, which may be empty. Nothing when there is none; a code that nothing has is a
/// problem of the row, told as above.
std::optional<store::Material> read_material(Fields& fields, store::Database& database);
std::optional<store::Supplier> read_supplier(Fields& fields, store::Database& database);

/// A material with its supplier's code and name, for lists.
struct MaterialLine {
    store::Material material;
    std::string supplier;
    std::string supplier_name;
};

std::vector<store::Supplier> list_suppliers(store::Database& database);
std::vector<MaterialLine> list_materials(store::Database& database);

} // namespace barrow::workshop
