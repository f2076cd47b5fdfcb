#include "store/file/rows.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::store {

Query::Query(Database& database, std::string text)
    : database_(database), text_(std::move(text)), statement_(database.lend(text_)) {}

Query::~Query() {
    database_.give_back(std::move(text_), std::move(statement_));
}

bool Query::next() {
    column_ = 0;
    return statement_->executeStep();
}

std::int64_t Query::number() {
    return statement_->getColumn(column_++).getInt64();
}

std::string Query::text() {
    return statement_->getColumn(column_++).getString();
}

bool Query::yes() {
    return number() != 0;
}

base::Money Query::money() {
    return base::Money::of_minor(number());
}

base::Date Query::date(std::string_view what) {
    return base::read_date(text(), what);
}

std::optional<std::int64_t> Query::maybe_number() {
    const SQLite::Column value = statement_->getColumn(column_++);
    if (value.isNull()) return std::nullopt;
    return value.getInt64();
}

std::optional<base::Money> Query::maybe_money() {
    const auto minor = maybe_number();
    if (!minor) return std::nullopt;
    return base::Money::of_minor(*minor);
}

void Query::bind(std::int64_t value) {
    statement_->bind(++bound_, value);
}

void Query::bind(std::string_view value) {
    statement_->bind(++bound_, std::string(value));
}

void Query::bind_nothing() {
    statement_->bind(++bound_);
}

std::int64_t last_inserted(Database& database) {
    return database.sql().getLastInsertRowid();
}

} // namespace barrow::store
