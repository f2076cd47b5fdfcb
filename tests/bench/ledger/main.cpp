#include "maker.hpp"
#include "plain.hpp"

#include "base/error.hpp"
#include "store/checks/checks.hpp"
#include "workshop/books/history.hpp"
#include "workshop/buying/delivery.hpp"
#include "workshop/making/batch.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/stock/stockroom.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace {

namespace bench = barrow::bench;
namespace ws = barrow::workshop;
using barrow::store::Database;

constexpr int runs = 9;

double seconds_of(const std::function<void()>& action) {
    const auto start = std::chrono::steady_clock::now();
    action();
    const std::chrono::duration<double> time = std::chrono::steady_clock::now() - start;
    return time.count();
}

/// The best of some runs: neighbours on the machine only ever add to it.
double best(const std::vector<double>& times) {
    return *std::min_element(times.begin(), times.end());
}

double middle(std::vector<double> times) {
    std::nth_element(times.begin(), times.begin() + runs / 2, times.end());
    return times[runs / 2];
}

/// Best times of two ways to the same rows, run by turns, so that both meet the same neighbours.
struct Times {
    std::vector<double> ours, plain;

    Times(const std::function<void()>& action, const std::function<void()>& plain_action) {
        for (int i = 0; i < runs; ++i) {
            ours.push_back(seconds_of(action));
            plain.push_back(seconds_of(plain_action));
        }
    }
};

void report(const std::string& what, double ours, double plain, std::int64_t rows, double bar) {
    fmt::print("{:<34} {:>9.2f} ms {:>9.2f} ms {:>6.2f} {:>8} rows {:>6.0f} ms{}\n", what,
               ours * 1e3, plain * 1e3, ours / plain, rows, bar * 1e3,
               ours <= bar && ours <= 2 * plain ? "" : "  MISSED");
}

/// What a stock list is made of: the materials and what is there of each lot.
void time_stock(Database& database) {
    std::int64_t rows = 0;
    const Times times([&] { ws::stock(database); },
                      [&] {
                          rows = bench::read_rows(database, "SELECT * FROM material ORDER BY code")
                                 + bench::read_rows(
                                     database,
                                     "SELECT lot.material_id, lot.unit_width, lot.unit_height, "
                                     "holder_id, b.quantity, b.value FROM balance b "
                                     "JOIN lot ON lot.id = lot_id WHERE holder_id > 4");
                      });
    report("stock", best(times.ours), best(times.plain), rows, 0.15);
}

void time_value(Database& database) {
    std::int64_t rows = 0;
    const Times times([&] { ws::shop_value(database); },
                      [&] {
                          rows = bench::read_rows(database, "SELECT name, value FROM setting")
                                 + bench::read_rows(database,
                                                    "SELECT posting_id, method FROM cost_order")
                                 + bench::read_rows(database, "SELECT kind, value FROM kind_value")
                                 + bench::read_rows(database, "SELECT value FROM received_value");
                      });
    report("value", best(times.ours), best(times.plain), rows, 0.15);
}

/// Every column that a history of a material shows: what moved, when, by whom and why, between
/// which holders by their names, and the size of a unit; found in the same way as the program does.
constexpr const char* told =
    "SELECT m.id, m.posting_id, m.kind, m.lot_id, from_holder, to_holder, m.quantity, m.value, "
    "p.kind, made_on, recorded_at, who, p.note, reverses, f.kind, t.kind, unit_width, unit_height, "
    "s.name, received_on, fb.number, tb.number, fo.code, tox.code "
    "FROM movement m CROSS JOIN lot ON lot.id = m.lot_id "
    "CROSS JOIN posting p ON p.id = m.posting_id "
    "CROSS JOIN holder f ON f.id = from_holder CROSS JOIN holder t ON t.id = to_holder "
    "LEFT JOIN supplier s ON s.id = lot.supplier_id "
    "LEFT JOIN batch fb ON fb.id = from_holder LEFT JOIN batch tb ON tb.id = to_holder "
    "LEFT JOIN offcut fo ON fo.id = from_holder LEFT JOIN offcut tox ON tox.id = to_holder "
    "WHERE m.id IN (SELECT movement.id FROM lot CROSS JOIN movement ON lot_id = lot.id "
    "WHERE material_id = ?) ORDER BY m.id";

void time_history(Database& database, std::int64_t material, const std::string& which) {
    std::int64_t rows = 0;
    const std::string code = bench::code_of(material);
    const Times times(
        [&] { ws::history(database, ws::Subject::material, code); },
        [&] {
            rows = bench::read_rows(database, "SELECT name, value FROM setting")
                   + bench::read_rows(database, "SELECT posting_id, method FROM cost_order")
                   + bench::read_rows(database, "SELECT * FROM material WHERE id = ?", material + 1)
                   + bench::read_rows(database, told, material + 1);
        });
    report("history of " + which, best(times.ours), best(times.plain), rows, 0.05);
}

ws::Context context_of(Database& database) {
    return {database, barrow::base::read_date("2027-01-04", "today"), "2027-01-04T12:00:00Z",
            barrow::store::Mode::commit, ""};
}

/// What a batch of the shop takes of: two papers and five counted things, as those of the
/// generator.
constexpr std::array<std::int64_t, 2> papers = {4'000, 4'001};
constexpr std::array<std::int64_t, 5> things = {3, 5, 7, 9, 11};

ws::DesignText design() {
    std::string materials, parts;
    for (const std::int64_t paper : papers) {
        materials += fmt::format("paper{0} = \"{1}\"\n", paper, bench::code_of(paper));
        parts += fmt::format("[[part]]\nname = \"leaf {0}\"\nmaterial = \"paper{0}\"\n"
                             "width = \"140 mm\"\nheight = \"90 mm\"\n",
                             paper);
    }
    for (const std::int64_t thing : things) {
        materials += fmt::format("thing{0} = \"{1}\"\n", thing, bench::code_of(thing));
        parts += fmt::format("[[part]]\nname = \"things {0}\"\nmaterial = \"thing{0}\"\n"
                             "number = \"2\"\n",
                             thing);
    }
    return {"[design]\ncode = \"folder\"\nname = \"Folder\"\n[materials]\n" + materials + parts
                + "[[operation]]\nname = \"fold\"\nminutes = 7\n",
            "folder.toml"};
}

/// Both sides of posting something: ours, and the rows it added written to a copy of the shop.
struct Posting {
    std::vector<double> ours, plain;
    std::int64_t rows = 0;

    void time(Database& database, Database& copy, const std::function<void()>& action) {
        bench::AddedRows added(database);
        ours.push_back(seconds_of(action));
        added.collect(database);
        rows = added.count();
        plain.push_back(seconds_of([&] { added.write_to(copy); }));
    }
    /// No two batches write quite the same rows: the middle of the times, not the best.
    void tell(const std::string& what) const {
        report(what, middle(ours), middle(plain), rows, 0.05);
    }
};

/// Posting a batch: cutting and finishing what was planned, each one transaction, against the same
/// rows inserted into a copy of the shop. Planning them first is shown beside it.
void time_batch(Database& database, const std::filesystem::path& path) {
    auto now = context_of(database);
    ws::bring_designs(now, {design()});
    std::vector<ws::Row> rows;
    for (const std::int64_t own :
         {papers[0], papers[1], things[0], things[1], things[2], things[3], things[4]})
        rows.push_back(
            {"", "--", {{"material", bench::code_of(own)}, {"units", "90"}, {"cost", "20"}}});
    ws::receive(now, rows, barrow::costing::ShareBy::value);
    ws::HowToCost how;
    how.effort = barrow::layout::Effort::quick;
    std::vector<double> planning;
    std::vector<std::int64_t> numbers;
    for (int i = 0; i < runs; ++i)
        planning.push_back(seconds_of([&] {
            numbers.push_back(ws::plan_batch(now, {{"folder", 4, {}}}, how).batch.number);
        }));
    const std::filesystem::path copy_path = path.string() + ".plain";
    std::filesystem::remove(copy_path);
    database.sql().exec("PRAGMA wal_checkpoint(TRUNCATE)");
    std::filesystem::copy_file(path, copy_path);
    Posting cut, finish;
    {
        Database copy = Database::open(copy_path);
        for (const std::int64_t number : numbers) {
            cut.time(database, copy, [&] { ws::cut_batch(now, number, {}); });
            finish.time(database, copy, [&] { ws::finish_batch(now, number, {}); });
        }
    }
    std::filesystem::remove(copy_path);
    cut.tell("posting a batch: cut");
    finish.tell("posting a batch: finished");
    fmt::print("{:<34} {:>9.2f} ms, layout included\n", "planning it", best(planning) * 1e3);
}

int time_all(std::int64_t movements, const std::filesystem::path& path, bool check) {
    if (!std::filesystem::exists(path)) {
        Database fresh = Database::create(path);
        bench::Size size;
        size.movements = movements;
        const bench::MadeShop made = bench::fill(fresh, size);
        fmt::print(
            "made {} movements, {} entries, {} lots, {} batches, {} offcuts in the box: {:.0f} s\n",
            made.movements, made.postings, made.lots, made.batches, made.offcuts_there,
            made.seconds);
    }
    Database database = Database::open(path);
    if (check)
        for (const std::string& fault : barrow::store::all_faults(database))
            fmt::print("{}\n", fault);
    fmt::print("{:<34} {:>12} {:>12} {:>6} {:>13} {:>9}\n", "", "ours", "plain SQL", "ratio", "",
               "bar");
    time_stock(database);
    time_value(database);
    time_history(database, 2'500, "a material seldom used");
    time_history(database, 7, "one used every day");
    time_batch(database, path);
    return 0;
}

} // namespace

// bench_ledger [MOVEMENTS] [FILE] [check]: makes a shop of that size at FILE (or times the one that
// is there) and prints the times beside those of plain SQL, and the bars they are held to.
int main(int argc, char** argv) {
    const std::int64_t movements = argc > 1 ? std::atoll(argv[1]) : 1'000'000;
    const std::filesystem::path path =
        argc > 2 ? argv[2] : fmt::format("/tmp/barrow-bench-{}.db", movements);
    try {
        return time_all(movements, path, argc > 3);
    } catch (const std::exception& error) {
        fmt::print(stderr, "{}\n", error.what());
        return 1;
    }
}
