#include "store/buying/orders.hpp"
#include "store/checks/checks.hpp"
#include "store/ledger/lot_checks.hpp"
#include "store/selling/fairs.hpp"

#include "store/dump.hpp"
#include "store/scratch_folder.hpp"
#include "store/small_book.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <catch2/catch.hpp>

#include <algorithm>

using namespace barrow::store;
using namespace barrow::test;

namespace {

using Faults = std::vector<std::string>;

/// A book with one journal made, one quarter closed and one posting reversed: a row of everything
/// the checks look at. The numbers in it are fixed by the order of writing.
struct WholeBook : SmallBook {
    std::int64_t journal = 0, finished = 0, reversal = 0;

    WholeBook() {
        SQLite::Database& sql = database.sql();
        const std::string batch = std::to_string(work);
        sql.exec("INSERT INTO design VALUES (1, 'leaflet', 'Leaflet')");
        sql.exec("INSERT INTO design_text VALUES (1, 1, 1, '', 'a.toml', '2027-03-01')");
        sql.exec("INSERT INTO batch VALUES (" + batch + ", 1, 'finished')");
        sql.exec("INSERT INTO batch_run VALUES (" + batch
                 + ", 0, 1, 1, 0, 50, 30, 20, 'leaf', 'Leaf', 1000)");
        sql.exec("INSERT INTO batch_event VALUES (1, " + batch + ", " + std::to_string(used)
                 + ", 'cut')");
        sql.exec("INSERT INTO cut_sheet VALUES (1, " + std::to_string(used) + ", " + batch
                 + ", NULL, " + std::to_string(paper_lot) + ", 100, 80, 100, 4000, 4000, 50, 0)");
        finished = post(database, "finish", "2027-03-08");
        journal = add_holder(database, "journal");
        move(database, finished, "finish", paper_lot, work, made, sheet_area / 2, 50);
        move(database, finished, "finish", 0, made, journal, 1, 50);
        const std::string entry = std::to_string(finished);
        sql.exec("INSERT INTO batch_event VALUES (2, " + batch + ", " + entry + ", 'finished')");
        sql.exec("INSERT INTO finished_run VALUES (" + entry + ", " + batch
                 + ", 0, 1, 0, 50, 30, 20)");
        sql.exec("INSERT INTO journal VALUES (" + std::to_string(journal) + ", " + entry
                 + ", '1-01', " + batch + ", 0, 50, 30, 20, 'good', '', NULL, '')");
        const std::string material = std::to_string(paper);
        sql.exec("INSERT INTO batch_paper VALUES (" + batch + ", 0, 1, 'cover', 1, " + material
                 + ")");
        sql.exec("INSERT INTO journal_paper VALUES (" + std::to_string(journal) + ", 'cover', "
                 + material + ")");
        Posting back;
        back.kind = "reverse";
        back.made_on = barrow::base::read_date("2027-04-02", ""); // closes the first quarter
        back.reverses = spoiled;
        reversal = add_posting(database, back);
        move(database, reversal, "reverse", beads_lot, written_off, beads_lot, 4, 36);
        order_more();
        hold_fair();
    }

    /// Fair 1 with one journal on its list and a fee.
    void hold_fair() {
        Fair fair;
        fair.name = "Spring fair";
        fair.held_on = barrow::base::read_date("2027-04-10", "");
        fair.noted.id = post(database, "fair", "2027-04-09");
        const std::int64_t number = add_fair(database, fair);
        const std::int64_t later = post(database, "fair take", "2027-04-09");
        add_fair_take(database, later, number, journal, barrow::base::Money::of_minor(1'450));
        add_fair_cost(database, later, number, {"pitch fee", barrow::base::Money::of_minor(600)});
    }

    /// Sixty more beads ordered, forty of which came (lot 11); the rest will not.
    void order_more() {
        Supplier supplier;
        supplier.code = supplier.name = "PELL";
        SupplyOrder order;
        order.supplier_id = add_supplier(database, supplier);
        order.expected_on = barrow::base::read_date("2027-04-08", "");
        order.placed.id = post(database, "order", "2027-04-03");
        order.lines.push_back({beads, 60, std::nullopt, 0, {}});
        const std::int64_t number = add_order(database, order);
        Lot lot;
        lot.posting_id = post(database, "receive", "2027-04-06");
        lot.material_id = beads;
        lot.supplier_id = order.supplier_id;
        lot.quantity = 40;
        lot.cost = barrow::base::Money::of_minor(360);
        lot.received_on = barrow::base::read_date("2027-04-06", "");
        const std::int64_t came = add_lot(database, lot);
        move(database, lot.posting_id, "receive", came, outside, came, 40, 360);
        add_order_receipt(database, came, number, beads);
        add_order_end(database, post(database, "order end", "2027-04-09"), number);
    }

    /// Breaks rows with every guard of the tables lifted.
    void break_with(const std::string& statement) {
        SQLite::Database& sql = database.sql();
        for (const std::string& trigger :
             column(sql, "SELECT name FROM sqlite_schema WHERE type = 'trigger'"))
            sql.exec("DROP TRIGGER " + trigger);
        sql.exec("PRAGMA foreign_keys = OFF");
        sql.exec("PRAGMA ignore_check_constraints = ON");
        sql.exec(statement);
        // At least one row was hit: a fault that was never made proves nothing.
        REQUIRE(sql.getChanges() > 0);
        sql.exec("PRAGMA ignore_check_constraints = OFF");
    }
};

bool tells(const Faults& faults, const std::string& words) {
    return std::any_of(faults.begin(), faults.end(), [&](const std::string& fault) {
        return fault.find(words) != std::string::npos;
    });
}

std::string joined(const Faults& faults) {
    std::string text;
    for (const std::string& fault : faults) text += fault + "\n";
    return text;
}

} // namespace

TEST_CASE("a sound book has no faults", "[checks]") {
    WholeBook book;
    CHECK(joined(all_faults(book.database)).empty());
    CHECK(joined(faults_since(book.database, 0)).empty());
    CHECK(column(book.database.sql(), "SELECT count(*) FROM quarter").at(0) == "1");
}

TEST_CASE("each fault is found and told in words", "[checks]") {
    struct Broken {
        std::string statement;
        std::string words;
    };
    // Numbers of the book: lots 5 (paper), 6 (ribbon), 7 (beads), batch 8, offcut 9, journal 10,
    // and lot 11 (beads) of order 1.
    const std::vector<Broken> all = {
        // Conservation of cost and quantity, lot by lot.
        {"UPDATE lot SET cost = cost + 1 WHERE id = 5", "lot 5 says it received"},
        {"UPDATE lot SET quantity = quantity + 1 WHERE id = 7", "lot 7 says it received"},
        {"UPDATE movement SET value = value - 1 WHERE kind = 'use'", "not so by its balance"},
        {"UPDATE movement SET quantity = quantity - 1 WHERE kind = 'write_off'",
         "not so by its balance"},
        {"DELETE FROM movement WHERE kind = 'keep'", "not so by its balance"},
        {"UPDATE balance SET value = value + 1 WHERE holder_id = 6", "lot 6 does not add up"},
        {"UPDATE balance SET quantity = quantity + 1 WHERE holder_id = 7", "lot 7 does not add up"},
        {"DELETE FROM balance WHERE holder_id = 9", "lot 5 does not add up"},
        // Sizes.
        {"UPDATE offcut SET width = width - 1", "does not fit its size"},
        {"UPDATE offcut SET lot_id = 6", "does not fit its size or its lot"},
        {"UPDATE lot SET unit_width = 99 WHERE id = 5", "whole number of units"},
        {"UPDATE cut_sheet SET waste = 1", "does not add up in area"},
        {"UPDATE cut_sheet SET kept_value = 101", "does not add up in area or value"},
        // The whole shop.
        {"UPDATE kind_value SET value = value + 1 WHERE kind = 'shelf'",
         "the shop does not add up"},
        {"UPDATE kind_value SET value = value + 1 WHERE kind = 'offcut'",
         "the running total of offcut"},
        {"UPDATE kind_value SET value = 1 WHERE kind = 'made'", "what they were made of"},
        {"UPDATE balance SET value = -1 WHERE holder_id = 9", "holder 9 owes"},
        {"UPDATE received_value SET value = value + 1", "the running total of what was received"},
        {"UPDATE balance SET quantity = 0 WHERE holder_id = 6", "nothing of lot 6 is on the shelf"},
        // Journals and batches.
        {"INSERT INTO balance VALUES (8, 5, 10, 1, 0)",
         "batch 1 is finished and yet holds 10, worth 1"},
        {"UPDATE balance SET quantity = 2 WHERE holder_id = 10", "journal 10 is there 2 times"},
        {"UPDATE balance SET quantity = 2 WHERE holder_id = 10", "finished journals do not add up"},
        {"UPDATE journal SET materials = 49", "its journals 49"},
        {"UPDATE journal SET labour = 31", "or their labour differs"},
        {"UPDATE finished_run SET journals = 2", "run 0 of batch 8"},
        {"UPDATE batch SET status = 'cut'", "batch 1 says it is cut"},
        {"DELETE FROM batch_event", "batch 1 says it is finished"},
        {"UPDATE batch_paper SET last = 2", "gives papers to 2 journals, and has 1"},
        {"UPDATE journal_paper SET slot = 'spine'", "journal 1-01 has a paper in spine"},
        // Reversals.
        {"UPDATE movement SET value = 35 WHERE kind = 'reverse'", "does not move back"},
        {"DELETE FROM movement WHERE kind = 'reverse'", "does not move back"},
        // What was at the end of past quarters.
        {"UPDATE quarter_balance SET value = value + 1 WHERE holder_id = 6",
         "what holder 6 had on 2027-03-31"},
        {"DELETE FROM quarter_balance WHERE holder_id = 9", "what holder 9 had on 2027-03-31"},
        {"INSERT INTO quarter_balance VALUES ('2027-03-31', 8, 5, 1, 1)",
         "what holder 8 had on 2027-03-31"},
        {"UPDATE quarter_value SET value = value + 1 WHERE kind = 'shelf'",
         "the total of shelf on 2027-03-31"},
        // Orders.
        {"UPDATE lot SET supplier_id = NULL WHERE id = 11", "lot 11 came for order 1, and is of"},
        {"UPDATE order_receipt SET material_id = 1", "lot 11 came for order 1, and is of"},
        {"DELETE FROM order_line", "order 1 asks for nothing"},
        {"INSERT INTO posting (kind, made_on, recorded_at, reverses) "
         "SELECT 'reverse', '2027-04-10', '', posting_id FROM supply_order",
         "belongs to order 1, which was taken back"},
        // Fairs.
        {"INSERT INTO posting (kind, made_on, recorded_at, reverses) "
         "SELECT 'reverse', '2027-04-10', '', posting_id FROM fair",
         "belongs to fair 1, which was taken back"},
        {"INSERT INTO fair_sale SELECT posting_id, id FROM fair", "sold nothing at fair 1"},
        // Rows that refer to nothing.
        {"DELETE FROM holder WHERE id = 9", "refers to a row of holder that is not there"},
    };
    for (const Broken& broken : all) {
        WholeBook book;
        INFO(broken.statement);
        book.break_with(broken.statement);
        const Faults faults = all_faults(book.database);
        INFO(joined(faults));
        CHECK(tells(faults, broken.words));
    }
}

TEST_CASE("what a transaction touched is verified, lot by lot, before it is kept", "[checks]") {
    for (const char* statement : {"UPDATE balance SET value = value + 1 WHERE holder_id = 7",
                                  "UPDATE lot SET cost = cost + 1 WHERE id = 7",
                                  "UPDATE kind_value SET value = value + 1 WHERE kind = 'shelf'",
                                  "UPDATE kind_value SET value = 1 WHERE kind = 'made'"}) {
        INFO(statement);
        WholeBook book;
        book.break_with(statement);
        const std::int64_t last =
            book.database.sql().execAndGet("SELECT max(id) FROM movement").getInt64();
        // The last but one moved beads of lot 7.
        CHECK_FALSE(faults_since(book.database, last - 2).empty());
    }
}

TEST_CASE("a file damaged inside is told", "[checks]") {
    const ScratchFolder folder;
    std::size_t page = 0;
    {
        SmallBook book(folder / "shop.db");
        page = static_cast<std::size_t>(
            std::stoul(column(book.database.sql(),
                              "SELECT rootpage FROM sqlite_schema WHERE name = 'movement_by_lot'")
                           .at(0)));
    }
    // An index that names another row than the table has; SQLite fills pages from their end.
    std::string bytes = bytes_of(folder / "shop.db");
    bytes.at(page * 4096 - 1) = static_cast<char>(bytes.at(page * 4096 - 1) ^ 0x41);
    write_bytes(folder / "shop.db", bytes);
    Database shop = Database::open(folder / "shop.db");
    const Faults faults = all_faults(shop);
    CHECK(tells(faults, "the file is damaged"));
}
