#include "store/stock/offcuts.hpp"

#include "base/short_code.hpp"
#include "store/file/rows.hpp"
#include "store/ledger/ledger.hpp"

#include <utility>

namespace barrow::store {
namespace {

constexpr const char* offcut_columns = "SELECT offcut.id, offcut.posting_id, offcut.code, "
                                       "offcut.material_id, offcut.lot_id, width, height, "
                                       "kept_on, offcut.place, offcut.note";

Offcut offcut_from(Query& row) {
    Offcut offcut;
    offcut.id = row.number();
    offcut.posting_id = row.number();
    offcut.code = row.text();
    offcut.material_id = row.number();
    offcut.lot_id = row.number();
    offcut.size = {row.number(), row.number()};
    offcut.kept_on = row.date("offcut kept_on");
    offcut.place = row.text();
    offcut.note = row.text();
    return offcut;
}

std::vector<OffcutOnHand> on_hand_from(Query& query) {
    std::vector<OffcutOnHand> offcuts;
    while (query.next()) {
        OffcutOnHand there{offcut_from(query), query.number(), query.money()};
        // Only lengths and wire shrink while they keep their code; a sheet offcut is there whole.
        if (there.offcut.size.height == 1) there.offcut.size.width = there.quantity;
        offcuts.push_back(std::move(there));
    }
    return offcuts;
}

// Under the moving average an offcut may hold value of several lots: it is one offcut all the same.
constexpr const char* with_balance = ", sum(balance.quantity), sum(balance.value) FROM offcut "
                                     "JOIN balance ON holder_id = offcut.id ";

std::optional<Offcut> one_offcut(Query& query) {
    if (!query.next()) return std::nullopt;
    return offcut_from(query);
}

} // namespace

Offcut add_offcut(Database& database, Offcut offcut) {
    offcut.id = add_holder(database, "offcut");
    const std::int64_t number =
        number_of(database, "SELECT ifnull(max(number) + 1, 0) FROM offcut");
    offcut.code = base::short_code(number);
    execute(database,
            "INSERT INTO offcut (id, posting_id, code, material_id, lot_id, "
            "width, height, kept_on, place, note, number) "
            "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            offcut.id, offcut.posting_id, offcut.code, offcut.material_id, offcut.lot_id,
            offcut.size.width, offcut.size.height, offcut.kept_on, offcut.place, offcut.note,
            number);
    return offcut;
}

void update_offcut(Database& database, const Offcut& offcut) {
    execute(database, "UPDATE offcut SET place = ?, note = ? WHERE id = ?", offcut.place,
            offcut.note, offcut.id);
}

std::vector<OffcutOnHand> offcuts_on_hand(Database& database, std::int64_t material_id) {
    Query query(database,
                std::string(offcut_columns) + with_balance
                    + "WHERE offcut.material_id = ? "
                      "GROUP BY offcut.id ORDER BY kept_on, offcut.id",
                material_id);
    return on_hand_from(query);
}

std::vector<OffcutOnHand> all_offcuts_on_hand(Database& database) {
    Query query(database, std::string(offcut_columns) + with_balance
                              + "JOIN material ON material.id = offcut.material_id "
                                "GROUP BY offcut.id ORDER BY material.code, kept_on, offcut.id");
    return on_hand_from(query);
}

std::optional<Offcut> find_offcut(Database& database, const std::string& code) {
    Query query(database, std::string(offcut_columns) + " FROM offcut WHERE code = ?", code);
    return one_offcut(query);
}

std::optional<Offcut> offcut_by_id(Database& database, std::int64_t id) {
    Query query(database, std::string(offcut_columns) + " FROM offcut WHERE id = ?", id);
    return one_offcut(query);
}

} // namespace barrow::store
