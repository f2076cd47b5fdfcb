#include "store/file/settings.hpp"

#include "store/file/rows.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::store {

std::map<std::string, std::string> all_settings(Database& database) {
    std::map<std::string, std::string> settings;
    Query query(database, "SELECT name, value FROM setting");
    while (query.next()) settings.insert({query.text(), query.text()});
    return settings;
}

void put_setting(Database& database, const std::string& name, const std::string& value) {
    execute(database,
            "INSERT INTO setting (name, value) VALUES (?, ?) "
            "ON CONFLICT (name) DO UPDATE SET value = excluded.value",
            name, value);
}

} // namespace barrow::store
