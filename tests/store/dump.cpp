#include "store/dump.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::test {

std::vector<std::string> column(SQLite::Database& sql, const std::string& query) {
    std::vector<std::string> values;
    SQLite::Statement statement(sql, query);
    while (statement.executeStep()) values.push_back(statement.getColumn(0).getString());
    return values;
}

std::vector<std::string> table_names(SQLite::Database& sql) {
    return column(sql, "SELECT name FROM sqlite_schema WHERE type = 'table' "
                       "AND name NOT LIKE 'sqlite_%' ORDER BY name");
}

std::string dump(SQLite::Database& sql) {
    std::string text;
    for (const std::string& line :
         column(sql, "SELECT type || ' ' || name || ' ' || ifnull(sql, '') FROM sqlite_schema "
                     "ORDER BY type, name"))
        text += line + "\n";
    for (const char* pragma : {"application_id", "user_version"})
        text += pragma + (" " + column(sql, std::string("PRAGMA ") + pragma).at(0)) + "\n";
    for (const std::string& table : table_names(sql)) {
        std::string row;
        std::string order;
        for (const std::string& name :
             column(sql, "SELECT name FROM pragma_table_info('" + table + "')")) {
            row += (row.empty() ? "" : " || ',' || ") + ("quote(\"" + name + "\")");
            order += (order.empty() ? "\"" : ", \"") + name + "\"";
        }
        std::string query = "SELECT " + row;
        query += " FROM \"" + table + "\" ORDER BY " + order;
        for (const std::string& line : column(sql, query)) text += table + ": " + line + "\n";
    }
    return text;
}

std::string dump(const std::filesystem::path& path) {
    SQLite::Database sql(path.string(), SQLite::OPEN_READONLY);
    return dump(sql);
}

} // namespace barrow::test
