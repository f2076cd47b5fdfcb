#include "store/file/database.hpp"
#include "store/file/embedded_sql.hpp"
#include "store/file/migrate.hpp"

#include "store/dump.hpp"
#include "store/scratch_folder.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cctype>
#include <map>

using namespace barrow::store;
using namespace barrow::test;

namespace {

using Texts = std::vector<std::string>;

/// SQL without comments and needless blanks, so that only what it says is compared.
std::string bare(const std::string& sql) {
    std::string text;
    bool blank = false;
    for (std::size_t i = 0; i < sql.size(); ++i) {
        if (sql.compare(i, 2, "--") == 0) {
            i = std::min(sql.find('\n', i), sql.size());
            blank = true;
        } else if (std::isspace(static_cast<unsigned char>(sql[i])) != 0) {
            blank = true;
        } else {
            const auto is_word = [](char c) {
                return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
            };
            if (blank && !text.empty() && is_word(text.back()) && is_word(sql[i])) text += ' ';
            blank = false;
            text += sql[i];
        }
    }
    return text;
}

/// The conditions of every CHECK of a table, in order: no pragma tells of them.
Texts checks(const std::string& table_sql) {
    Texts found;
    const std::string text = bare(table_sql);
    for (std::size_t at = text.find("CHECK("); at != std::string::npos;
         at = text.find("CHECK(", at + 1)) {
        std::size_t end = at + 5;
        int depth = 0;
        do {
            if (text[end] == '(') ++depth;
            if (text[end] == ')') --depth;
            ++end;
        } while (depth > 0);
        found.push_back(text.substr(at, end - at));
    }
    std::sort(found.begin(), found.end());
    return found;
}

void put(Texts& structure, const std::string& title, SQLite::Database& sql,
         const std::string& query) {
    for (const std::string& line : column(sql, query)) structure.push_back(title + ": " + line);
}

/// Everything that makes a database what it is, one fact a line.
Texts structure_of(SQLite::Database& sql) {
    Texts facts;
    for (const std::string& table : table_names(sql)) {
        put(facts, table, sql,
            "SELECT 'strict ' || strict || ', without rowid ' || wr FROM pragma_table_list('"
                + table + "') WHERE schema = 'main'");
        put(facts, table, sql,
            "SELECT name || '|' || type || '|' || \"notnull\" || '|' || ifnull(dflt_value, '-') || "
            "'|' || pk "
            "|| '|' || hidden FROM pragma_table_xinfo('"
                + table + "') ORDER BY cid");
        put(facts, table + " key", sql,
            "SELECT \"table\" || '|' || \"from\" || '|' || ifnull(\"to\", '-') || '|' || seq || "
            "'|' || on_update "
            "|| '|' || on_delete FROM pragma_foreign_key_list('"
                + table + "') ORDER BY 1");
        Texts indexes =
            column(sql, "SELECT name FROM pragma_index_list('" + table + "') ORDER BY name");
        for (const std::string& index : indexes) {
            // Names SQLite makes up count what came before: only what they cover is compared.
            const std::string name = index.rfind("sqlite_", 0) == 0 ? "of a constraint" : index;
            std::string covers;
            for (const std::string& part :
                 column(sql,
                        "SELECT ifnull(name, '-') || ' ' || \"desc\" || ' ' || coll || ' ' || key "
                        "FROM pragma_index_xinfo('"
                            + index + "') ORDER BY seqno"))
                covers += "(" + part + ")";
            covers += column(sql, "SELECT \"unique\" || origin || partial FROM pragma_index_list('"
                                      + table + "') WHERE name = '" + index + "'")
                          .at(0);
            facts.push_back(table + " index " + name + ": " + covers);
        }
    }
    for (const std::string& name :
         column(sql, "SELECT name FROM sqlite_schema WHERE type = 'table' "
                     "AND name NOT LIKE 'sqlite_%'"))
        for (const std::string& check :
             checks(column(sql, "SELECT sql FROM sqlite_schema WHERE name = '" + name + "'").at(0)))
            facts.push_back(name + " " + check);
    SQLite::Statement others(
        sql, "SELECT type || ' ' || name, sql FROM sqlite_schema "
             "WHERE type IN ('trigger', 'view') OR (type = 'index' AND sql LIKE '% WHERE %')");
    while (others.executeStep())
        facts.push_back(others.getColumn(0).getString() + ": "
                        + bare(others.getColumn(1).getString()));
    std::sort(facts.begin(), facts.end());
    return facts;
}

std::string rows_of_all(SQLite::Database& sql) {
    const std::string text = dump(sql);
    // Without the structure, which is compared above.
    return text.substr(text.find("application_id"));
}

SQLite::Database empty_database() {
    return SQLite::Database(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
}

} // namespace

TEST_CASE("migrating from nothing gives the tables of schema, fact by fact", "[schema]") {
    SQLite::Database fresh = empty_database();
    make_fresh(fresh);
    SQLite::Database migrated = empty_database();
    migrate(migrated, newest_version());
    const Texts one = structure_of(fresh);
    const Texts other = structure_of(migrated);
    CHECK(one.size() > 200);
    Texts missing;
    std::set_difference(one.begin(), one.end(), other.begin(), other.end(),
                        std::back_inserter(missing));
    Texts surplus;
    std::set_difference(other.begin(), other.end(), one.begin(), one.end(),
                        std::back_inserter(surplus));
    CHECK(missing == Texts{}); // what the migrations lack
    CHECK(surplus == Texts{}); // what schema lacks
    CHECK(rows_of_all(fresh) == rows_of_all(migrated));
}

TEST_CASE("a change of structure would be noticed, whatever it is", "[schema]") {
    SQLite::Database fresh = empty_database();
    make_fresh(fresh);
    const Texts before = structure_of(fresh);
    const auto changed_by = [&](const std::string& statement) {
        SQLite::Database other = empty_database();
        make_fresh(other);
        other.exec(statement);
        return structure_of(other) != before;
    };
    CHECK(changed_by("CREATE TABLE extra (a INTEGER) STRICT"));
    CHECK(changed_by("ALTER TABLE supplier ADD COLUMN extra TEXT"));
    CHECK(changed_by("DROP TRIGGER movement_stays"));
    CHECK(changed_by("DROP INDEX movement_by_lot"));
    CHECK(changed_by("CREATE INDEX extra ON movement (kind)"));
    CHECK(changed_by("CREATE VIEW extra AS SELECT 1"));
    CHECK(checks("CREATE TABLE a (b INTEGER CHECK (b > 0)) STRICT")
          != checks("CREATE TABLE a (b INTEGER CHECK (b >= 0)) STRICT"));
    CHECK(checks("CREATE TABLE a (b INTEGER /* */ CHECK (b > 0), -- why\n CHECK (b<(9))) STRICT")
          == Texts{"CHECK(b<(9))", "CHECK(b>0)"});
}

TEST_CASE("every table is strict about its types", "[schema]") {
    SQLite::Database fresh = empty_database();
    make_fresh(fresh);
    for (const std::string& table : table_names(fresh)) {
        INFO(table);
        CHECK(column(fresh, "SELECT strict FROM pragma_table_list('" + table + "')").at(0) == "1");
    }
    // Nothing that is counted or paid is a floating-point number.
    CHECK(column(fresh,
                 "SELECT m.name || '.' || c.name FROM sqlite_schema m, pragma_table_info(m.name) c "
                 "WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite_%' "
                 "AND c.type NOT IN ('INTEGER', 'TEXT')")
              .empty());
}

TEST_CASE("migrations are numbered one after the other", "[schema]") {
    int number = 0;
    for (const EmbeddedScript& script : migration_scripts()) CHECK(script.number == ++number);
    CHECK(number == newest_version());
    CHECK_FALSE(schema_scripts().empty());
}

TEST_CASE("a shop file says in its header what it is and of which version", "[schema]") {
    // SQLite file format, section 1.3: user version at byte 60, application id at byte 68.
    const ScratchFolder folder;
    { Database::create(folder / "shop.db"); }
    const std::string bytes = bytes_of(folder / "shop.db");
    REQUIRE(bytes.size() > 100);
    CHECK(bytes.substr(0, 15) == "SQLite format 3");
    CHECK(bytes.substr(68, 4) == "brrw");
    CHECK(static_cast<unsigned char>(bytes[63]) == newest_version());
}
