#include "workshop/write_watch.hpp"

#include "store/dump.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <utility>

namespace barrow::test {

WriteWatch::WriteWatch(store::Database& database) : database_(database) {
    SQLite::Database& sql = database.sql();
    // Innocuous: the hardened connection lets no other function be called from a trigger.
    sqlite3_create_function_v2(sql.getHandle(), "seen", 1, SQLITE_UTF8 | SQLITE_INNOCUOUS, this,
                               &WriteWatch::seen, nullptr, nullptr, nullptr);
    for (const std::string& table : table_names(sql))
        for (const char* what : {"INSERT", "UPDATE", "DELETE"}) {
            const std::string name = fmt::format("watch_{}_{}", table, what);
            sql.exec(fmt::format("CREATE TEMP TRIGGER {0} BEFORE {1} ON main.{2} "
                                 "BEGIN SELECT seen('{1} {2}'); END",
                                 name, what, table));
            triggers_.push_back(name);
        }
}

WriteWatch::~WriteWatch() {
    for (const std::string& trigger : triggers_) database_.sql().exec("DROP TRIGGER " + trigger);
}

void WriteWatch::meet(long nth, std::function<bool()> action) {
    writes_.clear();
    nth_ = nth;
    action_ = std::move(action);
}

void WriteWatch::seen(sqlite3_context* context, int, sqlite3_value** values) {
    auto& watch = *static_cast<WriteWatch*>(sqlite3_user_data(context));
    watch.writes_.emplace_back(
        reinterpret_cast<const char*>(sqlite3_value_text(values[0]))); // NOLINT: SQLite's bytes
    const bool met = static_cast<long>(watch.writes_.size()) == watch.nth_;
    if (met && !watch.action_()) sqlite3_result_error(context, "denied by the test", -1);
}

} // namespace barrow::test
