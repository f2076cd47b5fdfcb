#include "store/books/reports.hpp"

#include "store/file/rows.hpp"
#include "store/ledger/quarters.hpp"

namespace barrow::store {
namespace {

struct LotFacts {
    std::int64_t material = 0;
    std::int64_t unit = 1; ///< measure of one whole unit
};

LotFacts facts_of_lot(Database& database, std::int64_t id) {
    Query query(database, "SELECT material_id, unit_width * unit_height FROM lot WHERE id = ?", id);
    if (!query.next()) return {};
    return {query.number(), query.number()};
}

void add_shelf(MaterialThen& material, const Balance& balance, std::int64_t unit) {
    material.on_hand.quantity += balance.quantity;
    material.on_hand.shelf_value += balance.value;
    material.units += balance.quantity / unit;
}

void add_offcut(MaterialThen& material, const Balance& balance) {
    // Of several lots that an offcut carries value of, one is its own and has its quantity.
    if (balance.quantity > 0) ++material.on_hand.offcuts;
    material.on_hand.offcut_quantity += balance.quantity;
    material.on_hand.offcut_value += balance.value;
}

} // namespace

StockThen stock_on(Database& database, const base::Date& day) {
    StockThen stock;
    std::map<std::int64_t, MaterialThen> materials;
    for (const Balance& balance : balances_on(database, day)) {
        const std::string kind = kind_of_holder(database, balance.holder);
        if (kind == "batch") {
            stock.in_work += balance.value;
        } else if (kind == "journal") {
            stock.in_journals += balance.value;
            stock.journals += balance.quantity;
        } else {
            const auto lot = facts_of_lot(database, balance.lot);
            MaterialThen& material = materials[lot.material];
            material.on_hand.material_id = lot.material;
            if (kind == "shelf") {
                add_shelf(material, balance, lot.unit);
            } else {
                add_offcut(material, balance);
            }
        }
    }
    for (const auto& [id, material] : materials) stock.materials.push_back(material);
    return stock;
}

std::map<std::int64_t, base::Date> oldest_on_hand(Database& database) {
    std::map<std::int64_t, base::Date> oldest;
    Query query(database, "SELECT lot.material_id, min(received_on) FROM balance "
                          "CROSS JOIN holder ON holder.id = holder_id "
                          "CROSS JOIN lot ON lot.id = balance.lot_id "
                          "WHERE holder.kind IN ('shelf', 'offcut') AND balance.quantity > 0 "
                          "GROUP BY lot.material_id");
    while (query.next()) oldest.insert({query.number(), query.date("lot received_on")});
    return oldest;
}

std::vector<OffcutOnHand> offcuts_by_age(Database& database) {
    std::vector<OffcutOnHand> offcuts;
    Query query(
        database,
        "SELECT offcut.id, offcut.posting_id, code, material_id, offcut.lot_id, width, height, "
        "kept_on, place, note, sum(balance.quantity), sum(balance.value) "
        "FROM balance CROSS JOIN offcut ON offcut.id = balance.holder_id "
        "GROUP BY offcut.id ORDER BY kept_on, offcut.id");
    while (query.next()) {
        OffcutOnHand there;
        Offcut& offcut = there.offcut;
        offcut.id = query.number();
        offcut.posting_id = query.number();
        offcut.code = query.text();
        offcut.material_id = query.number();
        offcut.lot_id = query.number();
        offcut.size = {query.number(), query.number()};
        offcut.kept_on = query.date("offcut kept_on");
        offcut.place = query.text();
        offcut.note = query.text();
        there.quantity = query.number();
        there.value = query.money();
        // Lengths and wire shrink while they keep their label; a sheet offcut is there whole.
        if (offcut.size.height == 1) offcut.size.width = there.quantity;
        offcuts.push_back(std::move(there));
    }
    return offcuts;
}

std::vector<LoggedPosting> whole_log(Database& database) {
    std::vector<LoggedPosting> log;
    Query query(database, "SELECT id, kind, made_on, recorded_at, who, note, reverses, "
                          "(SELECT count(*) FROM movement WHERE posting_id = posting.id), "
                          "ifnull((SELECT r.id FROM posting r WHERE r.reverses = posting.id), 0) "
                          "FROM posting ORDER BY id");
    while (query.next()) {
        LoggedPosting logged;
        Posting& posting = logged.posting;
        posting.id = query.number();
        posting.kind = query.text();
        posting.made_on = query.date("posting made_on");
        posting.recorded_at = query.text();
        posting.who = query.text();
        posting.note = query.text();
        posting.reverses = query.maybe_number();
        logged.movements = query.number();
        logged.reversed_by = query.number();
        log.push_back(std::move(logged));
    }
    return log;
}

std::vector<Lot> standing_receipts(Database& database) {
    std::vector<Lot> receipts;
    Query query(database, "SELECT DISTINCT lot.posting_id FROM lot "
                          "JOIN posting ON posting.id = lot.posting_id "
                          "WHERE posting.kind = 'receive' ORDER BY 1");
    while (query.next()) {
        const std::int64_t posting = query.number();
        if (!stands(database, posting)) continue;
        for (Lot& lot : lots_of_posting(database, posting)) receipts.push_back(std::move(lot));
    }
    return receipts;
}

} // namespace barrow::store
