#include "store/file/settings.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::store {

std::map<std::string, std::string> all_settings(Database& database) {
    std::map<std::string, std::string> settings;
    SQLite::Statement query(database.sql(), "SELECT name, value FROM setting");
    while (query.executeStep())
        settings[query.getColumn(0).getString()] = query.getColumn(1).getString();
    return settings;
}

void put_setting(Database& database, const std::string& name, const std::string& value) {
    SQLite::Statement statement(database.sql(),
                                "INSERT INTO setting (name, value) VALUES (?, ?) "
                                "ON CONFLICT (name) DO UPDATE SET value = excluded.value");
    statement.bind(1, name);
    statement.bind(2, value);
    statement.exec();
}

} // namespace barrow::store
