#include "store/making/designs.hpp"

#include "base/error.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::store {
namespace {

constexpr const char* design_columns =
    "SELECT design.id, code, name, design_text.id, number, text, file, brought_on "
    "FROM design JOIN design_text ON design_id = design.id ";

constexpr const char* in_use =
    "number = (SELECT max(number) FROM design_text t WHERE t.design_id = design.id) ";

StoredDesign design_from(SQLite::Statement& row) {
    StoredDesign design;
    design.id = row.getColumn(0).getInt64();
    design.code = row.getColumn(1).getString();
    design.name = row.getColumn(2).getString();
    design.text_id = row.getColumn(3).getInt64();
    design.number = row.getColumn(4).getInt64();
    design.text = row.getColumn(5).getString();
    design.file = row.getColumn(6).getString();
    design.brought_on = base::read_date(row.getColumn(7).getString(), "design_text brought_on");
    return design;
}

std::int64_t make_or_rename(Database& database, const StoredDesign& design) {
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO design (code, name) VALUES (?, ?) "
                                "ON CONFLICT (code) DO UPDATE SET name = excluded.name "
                                "RETURNING id");
    statement.bind(1, design.code);
    statement.bind(2, design.name);
    if (!statement.executeStep()) throw base::broken("a design was kept without an id");
    const std::int64_t id = statement.getColumn(0).getInt64();
    statement.executeStep(); // to the end, so that the insert is complete
    return id;
}

} // namespace

StoredDesign keep_design(Database& database, const StoredDesign& design) {
    const auto before = find_design(database, design.code);
    if (before && before->text == design.text) return *before;
    const std::int64_t id = make_or_rename(database, design);
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO design_text (design_id, number, text, file, "
                                "brought_on) VALUES (?, ?, ?, ?, ?)");
    statement.bind(1, id);
    statement.bind(2, before ? before->number + 1 : 1);
    statement.bind(3, design.text);
    statement.bind(4, design.file);
    statement.bind(5, base::to_text(design.brought_on));
    statement.exec();
    return find_design(database, design.code).value();
}

std::optional<StoredDesign> find_design(Database& database, const std::string& code) {
    SQLite::Statement query(database.sql(),
                            std::string(design_columns) + "WHERE code = ? AND " + in_use);
    query.bind(1, code);
    if (!query.executeStep()) return std::nullopt;
    return design_from(query);
}

std::vector<StoredDesign> all_designs(Database& database) {
    std::vector<StoredDesign> designs;
    SQLite::Statement query(database.sql(),
                            std::string(design_columns) + "WHERE " + in_use + "ORDER BY code");
    while (query.executeStep()) designs.push_back(design_from(query));
    return designs;
}

} // namespace barrow::store
