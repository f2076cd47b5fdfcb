#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>
#include <string>
#include <vector>

namespace barrow::test {

/// Names of all tables that hold data, in order.
std::vector<std::string> table_names(SQLite::Database& sql);

/// Everything a database holds, as text: the structure, and every row of every table in the order
/// of its columns. Equal texts mean equal content, whatever the pages look like.
std::string dump(SQLite::Database& sql);

/// The same of a file, seen through a connection of its own.
std::string dump(const std::filesystem::path& path);

/// The first column of a query, one text a row.
std::vector<std::string> column(SQLite::Database& sql, const std::string& query);

} // namespace barrow::test
