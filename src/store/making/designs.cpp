#include "store/making/designs.hpp"

#include "base/error.hpp"
#include "store/file/rows.hpp"

namespace barrow::store {
namespace {

constexpr const char* design_columns =
    "SELECT design.id, code, name, design_text.id, number, text, file, brought_on "
    "FROM design JOIN design_text ON design_id = design.id ";

constexpr const char* in_use =
    "number = (SELECT max(number) FROM design_text t WHERE t.design_id = design.id) ";

StoredDesign design_from(Query& row) {
    StoredDesign design;
    design.id = row.number();
    design.code = row.text();
    design.name = row.text();
    design.text_id = row.number();
    design.number = row.number();
    design.text = row.text();
    design.file = row.text();
    design.brought_on = row.date("design_text brought_on");
    return design;
}

std::int64_t make_or_rename(Database& database, const StoredDesign& design) {
    Query statement(database,
                    "INSERT INTO design (code, name) VALUES (?, ?) "
                    "ON CONFLICT (code) DO UPDATE SET name = excluded.name "
                    "RETURNING id",
                    design.code, design.name);
    if (!statement.next()) throw base::broken("a design was kept without an id");
    const std::int64_t id = statement.number();
    statement.next(); // to the end, so that the insert is complete
    return id;
}

} // namespace

StoredDesign keep_design(Database& database, const StoredDesign& design) {
    const auto before = find_design(database, design.code);
    if (before && before->text == design.text) return *before;
    const std::int64_t id = make_or_rename(database, design);
    execute(database,
            "INSERT INTO design_text (design_id, number, text, file, "
            "brought_on) VALUES (?, ?, ?, ?, ?)",
            id, before ? before->number + 1 : 1, design.text, design.file, design.brought_on);
    return find_design(database, design.code).value();
}

std::optional<StoredDesign> find_design(Database& database, const std::string& code) {
    Query query(database, std::string(design_columns) + "WHERE code = ? AND " + in_use, code);
    if (!query.next()) return std::nullopt;
    return design_from(query);
}

std::vector<StoredDesign> all_designs(Database& database) {
    std::vector<StoredDesign> designs;
    Query query(database, std::string(design_columns) + "WHERE " + in_use + "ORDER BY code");
    while (query.next()) designs.push_back(design_from(query));
    return designs;
}

} // namespace barrow::store
