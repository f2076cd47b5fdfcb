#include "store/books/reports.hpp"

#include "store/ledger/quarters.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

namespace barrow::store {
namespace {

/// Lots and kinds of holders looked up by their ids, through two statements that are kept.
class Lookup {
public:
    explicit Lookup(Database& database)
        : lot_(database.sql(),
               "SELECT material_id, unit_width * unit_height FROM lot WHERE id = ?"),
          kind_(database.sql(), "SELECT kind FROM holder WHERE id = ?") {}

    struct LotFacts {
        std::int64_t material = 0;
        std::int64_t unit = 1; ///< measure of one whole unit
    };

    LotFacts lot(std::int64_t id) {
        LotFacts facts;
        lot_.reset();
        lot_.bind(1, id);
        if (lot_.executeStep())
            facts = {lot_.getColumn(0).getInt64(), lot_.getColumn(1).getInt64()};
        return facts;
    }

    std::string kind(std::int64_t holder) {
        kind_.reset();
        kind_.bind(1, holder);
        return kind_.executeStep() ? kind_.getColumn(0).getString() : std::string();
    }

private:
    SQLite::Statement lot_;
    SQLite::Statement kind_;
};

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
    Lookup lookup(database);
    std::map<std::int64_t, MaterialThen> materials;
    for (const Balance& balance : balances_on(database, day)) {
        const std::string kind = lookup.kind(balance.holder);
        if (kind == "batch") {
            stock.in_work += balance.value;
        } else if (kind == "journal") {
            stock.in_journals += balance.value;
            stock.journals += balance.quantity;
        } else {
            const auto lot = lookup.lot(balance.lot);
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
    SQLite::Statement query(database.sql(),
                            "SELECT lot.material_id, min(received_on) FROM balance "
                            "CROSS JOIN holder ON holder.id = holder_id "
                            "CROSS JOIN lot ON lot.id = balance.lot_id "
                            "WHERE holder.kind IN ('shelf', 'offcut') AND balance.quantity > 0 "
                            "GROUP BY lot.material_id");
    while (query.executeStep())
        oldest[query.getColumn(0).getInt64()] =
            base::read_date(query.getColumn(1).getString(), "lot received_on");
    return oldest;
}

std::vector<OffcutOnHand> offcuts_by_age(Database& database) {
    std::vector<OffcutOnHand> offcuts;
    SQLite::Statement query(
        database.sql(),
        "SELECT offcut.id, offcut.posting_id, code, material_id, offcut.lot_id, width, height, "
        "kept_on, place, note, sum(balance.quantity), sum(balance.value) "
        "FROM balance CROSS JOIN offcut ON offcut.id = balance.holder_id "
        "GROUP BY offcut.id ORDER BY kept_on, offcut.id");
    while (query.executeStep()) {
        OffcutOnHand there;
        Offcut& offcut = there.offcut;
        offcut.id = query.getColumn(0).getInt64();
        offcut.posting_id = query.getColumn(1).getInt64();
        offcut.code = query.getColumn(2).getString();
        offcut.material_id = query.getColumn(3).getInt64();
        offcut.lot_id = query.getColumn(4).getInt64();
        offcut.size = {query.getColumn(5).getInt64(), query.getColumn(6).getInt64()};
        offcut.kept_on = base::read_date(query.getColumn(7).getString(), "offcut kept_on");
        offcut.place = query.getColumn(8).getString();
        offcut.note = query.getColumn(9).getString();
        there.quantity = query.getColumn(10).getInt64();
        there.value = base::Money::of_minor(query.getColumn(11).getInt64());
        // Lengths and wire shrink while they keep their label; a sheet offcut is there whole.
        if (offcut.size.height == 1) offcut.size.width = there.quantity;
        offcuts.push_back(std::move(there));
    }
    return offcuts;
}

std::vector<LoggedPosting> whole_log(Database& database) {
    std::vector<LoggedPosting> log;
    SQLite::Statement query(database.sql(),
                            "SELECT id, kind, made_on, recorded_at, who, note, reverses, "
                            "(SELECT count(*) FROM movement WHERE posting_id = posting.id), "
                            "ifnull((SELECT r.id FROM posting r WHERE r.reverses = posting.id), 0) "
                            "FROM posting ORDER BY id");
    while (query.executeStep()) {
        LoggedPosting logged;
        Posting& posting = logged.posting;
        posting.id = query.getColumn(0).getInt64();
        posting.kind = query.getColumn(1).getString();
        posting.made_on = base::read_date(query.getColumn(2).getString(), "posting made_on");
        posting.recorded_at = query.getColumn(3).getString();
        posting.who = query.getColumn(4).getString();
        posting.note = query.getColumn(5).getString();
        if (!query.getColumn(6).isNull()) posting.reverses = query.getColumn(6).getInt64();
        logged.movements = query.getColumn(7).getInt64();
        logged.reversed_by = query.getColumn(8).getInt64();
        log.push_back(std::move(logged));
    }
    return log;
}

std::vector<Lot> standing_receipts(Database& database) {
    std::vector<Lot> receipts;
    SQLite::Statement query(database.sql(), "SELECT DISTINCT lot.posting_id FROM lot "
                                            "JOIN posting ON posting.id = lot.posting_id "
                                            "WHERE posting.kind = 'receive' ORDER BY 1");
    while (query.executeStep()) {
        const std::int64_t posting = query.getColumn(0).getInt64();
        if (!stands(database, posting)) continue;
        for (Lot& lot : lots_of_posting(database, posting)) receipts.push_back(std::move(lot));
    }
    return receipts;
}

} // namespace barrow::store
