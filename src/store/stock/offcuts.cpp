#include "store/stock/offcuts.hpp"

#include "base/short_code.hpp"
#include "store/file/kept.hpp"
#include "store/ledger/ledger.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <utility>

namespace barrow::store {
namespace {

constexpr const char* offcut_columns = "SELECT offcut.id, offcut.posting_id, offcut.code, "
                                       "offcut.material_id, offcut.lot_id, width, height, "
                                       "kept_on, offcut.place, offcut.note";

Offcut offcut_from(SQLite::Statement& row) {
    Offcut offcut;
    offcut.id = row.getColumn(0).getInt64();
    offcut.posting_id = row.getColumn(1).getInt64();
    offcut.code = row.getColumn(2).getString();
    offcut.material_id = row.getColumn(3).getInt64();
    offcut.lot_id = row.getColumn(4).getInt64();
    offcut.size = {row.getColumn(5).getInt64(), row.getColumn(6).getInt64()};
    offcut.kept_on = base::read_date(row.getColumn(7).getString(), "offcut kept_on");
    offcut.place = row.getColumn(8).getString();
    offcut.note = row.getColumn(9).getString();
    return offcut;
}

std::vector<OffcutOnHand> on_hand_from(SQLite::Statement& query) {
    std::vector<OffcutOnHand> offcuts;
    while (query.executeStep()) {
        OffcutOnHand there{offcut_from(query), query.getColumn(10).getInt64(),
                           base::Money::of_minor(query.getColumn(11).getInt64())};
        // Only lengths and wire shrink while they keep their code; a sheet offcut is there whole.
        if (there.offcut.size.height == 1) there.offcut.size.width = there.quantity;
        offcuts.push_back(std::move(there));
    }
    return offcuts;
}

// Under the moving average an offcut may hold value of several lots: it is one offcut all the same.
constexpr const char* with_balance = ", sum(balance.quantity), sum(balance.value) FROM offcut "
                                     "JOIN balance ON holder_id = offcut.id ";

std::optional<Offcut> one_offcut(SQLite::Statement& query) {
    if (!query.executeStep()) return std::nullopt;
    return offcut_from(query);
}

} // namespace

Offcut add_offcut(Database& database, Offcut offcut) {
    offcut.id = add_holder(database, "offcut");
    const Kept next(database, "SELECT ifnull(max(number) + 1, 0) FROM offcut");
    next->executeStep();
    const std::int64_t number = next->getColumn(0).getInt64();
    next->reset();
    offcut.code = base::short_code(number);
    const Kept insert(database, "INSERT INTO offcut (id, posting_id, code, material_id, lot_id, "
                                "width, height, kept_on, place, note, number) "
                                "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    insert->bind(1, offcut.id);
    insert->bind(2, offcut.posting_id);
    insert->bind(3, offcut.code);
    insert->bind(4, offcut.material_id);
    insert->bind(5, offcut.lot_id);
    insert->bind(6, offcut.size.width);
    insert->bind(7, offcut.size.height);
    insert->bind(8, base::to_text(offcut.kept_on));
    insert->bind(9, offcut.place);
    insert->bind(10, offcut.note);
    insert->bind(11, number);
    insert->exec();
    return offcut;
}

void update_offcut(Database& database, const Offcut& offcut) {
    SQLite::Statement statement(database.sql(),
                                "UPDATE offcut SET place = ?, note = ? WHERE id = ?");
    statement.bind(1, offcut.place);
    statement.bind(2, offcut.note);
    statement.bind(3, offcut.id);
    statement.exec();
}

std::vector<OffcutOnHand> offcuts_on_hand(Database& database, std::int64_t material_id) {
    SQLite::Statement query(database.sql(), std::string(offcut_columns) + with_balance
                                                + "WHERE offcut.material_id = ? "
                                                  "GROUP BY offcut.id ORDER BY kept_on, offcut.id");
    query.bind(1, material_id);
    return on_hand_from(query);
}

std::vector<OffcutOnHand> all_offcuts_on_hand(Database& database) {
    SQLite::Statement query(database.sql(),
                            std::string(offcut_columns) + with_balance
                                + "JOIN material ON material.id = offcut.material_id "
                                  "GROUP BY offcut.id ORDER BY material.code, kept_on, offcut.id");
    return on_hand_from(query);
}

std::optional<Offcut> find_offcut(Database& database, const std::string& code) {
    SQLite::Statement query(database.sql(),
                            std::string(offcut_columns) + " FROM offcut WHERE code = ?");
    query.bind(1, code);
    return one_offcut(query);
}

std::optional<Offcut> offcut_by_id(Database& database, std::int64_t id) {
    SQLite::Statement query(database.sql(),
                            std::string(offcut_columns) + " FROM offcut WHERE id = ?");
    query.bind(1, id);
    return one_offcut(query);
}

} // namespace barrow::store
