#pragma once

#include "base/date.hpp"
#include "base/money.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace barrow::store {

/// One SQL statement with its values, and the rows it gives. The values stand for the statement's
/// question marks, in their order. The columns of a row are read from left to right, each once; in
/// braces, which keep that order, not as arguments or on both sides of an assignment.
///
///     Query sales(database, "SELECT posting_id, price FROM sale WHERE journal_id = ?", journal);
///     while (sales.next()) list.push_back({sales.number(), sales.money()});
///
/// The connection keeps the prepared statement for the next Query of the same text; while one is
/// in use, another of that text has a statement of its own. Throws what SQLiteCpp throws, which
/// `guarded` turns into base::Error.
class Query {
public:
    template <typename... Values>
    Query(Database& database, std::string text, const Values&... values)
        : Query(database, std::move(text)) {
        (bind(values), ...);
    }
    Query(Database& database, std::string text);
    ~Query();
    Query(const Query&) = delete;
    Query& operator=(const Query&) = delete;

    /// Goes on to the next row, the first one at first; false when there is none.
    bool next();

    std::int64_t number();
    std::string text();
    bool yes(); ///< a number other than 0
    base::Money money();
    /// Throws base::Error that names `what` where the column is no date.
    base::Date date(std::string_view what);
    std::optional<std::int64_t> maybe_number();
    std::optional<base::Money> maybe_money();

private:
    void bind(std::int64_t value);
    void bind(int value) { bind(std::int64_t{value}); }
    void bind(std::size_t value) { bind(static_cast<std::int64_t>(value)); }
    void bind(bool value) { bind(std::int64_t{value ? 1 : 0}); }
    void bind(std::string_view value);
    void bind(const std::string& value) { bind(std::string_view(value)); }
    void bind(const char* value) { bind(std::string_view(value)); }
    void bind(const base::Money& value) { bind(value.minor()); }
    void bind(const base::Date& value) { bind(base::to_text(value)); }
    template <typename Value>
    void bind(const std::optional<Value>& value) {
        value ? bind(*value) : bind_nothing();
    }
    void bind_nothing();

    Database& database_;
    std::string text_;
    std::unique_ptr<SQLite::Statement> statement_;
    int bound_ = 0;
    int column_ = 0;
};

/// Runs a statement that gives no rows.
template <typename... Values>
void execute(Database& database, std::string text, const Values&... values) {
    Query(database, std::move(text), values...).next();
}

/// The number of the row that was added last.
std::int64_t last_inserted(Database& database);

/// Adds a row and gives its number (the rowid).
template <typename... Values>
std::int64_t insert(Database& database, std::string text, const Values&... values) {
    execute(database, std::move(text), values...);
    return last_inserted(database);
}

/// The number in the first column of the first row. There must be one.
template <typename... Values>
std::int64_t number_of(Database& database, std::string text, const Values&... values) {
    Query query(database, std::move(text), values...);
    query.next();
    return query.number();
}

} // namespace barrow::store
