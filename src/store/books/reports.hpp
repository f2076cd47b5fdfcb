#pragma once

#include "base/date.hpp"
#include "base/money.hpp"
#include "store/ledger/ledger.hpp"
#include "store/stock/lots.hpp"
#include "store/stock/offcuts.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace barrow::store {

/// What went from holders of one kind to holders of another in one month. What was taken back
/// counts against the way it first went, in the month of the taking back: quantity and value may
/// then be below zero.
struct Flow {
    std::string month;            ///< "2027-03"
    std::int64_t material_id = 0; ///< 0: whole journals
    std::string from, to;         ///< kinds of holders: "shelf", "batch", ...
    std::int64_t quantity = 0;
    base::Money value;
};

/// Flows of the days `from` to `to`. Reads the movements of these days and no others (by the
/// indices on day and posting): cost grows with the period, not with the ledger.
std::vector<Flow> flows(Database& database, const base::Date& from, const base::Date& to);

/// What sales brought in.
struct Takings {
    std::int64_t journals = 0;
    base::Money taken;
};

/// Sales of the days `from` to `to`, less those taken back in these days. Cost as of flows.
Takings takings(Database& database, const base::Date& from, const base::Date& to);

/// Materials of which something was taken for a batch in these days by an entry that stands. Cost
/// as of flows.
std::set<std::int64_t> materials_used(Database& database, const base::Date& from,
                                      const base::Date& to);

/// The day of the last entry that stands and took something of the material for a batch; nothing
/// when none did. Looks at each lot of the material from its latest movement back: cost grows with
/// the lots of the material and what happened to them since they were last used.
std::optional<base::Date> last_use(Database& database, std::int64_t material);

/// The day on which the oldest of what is there of each material came in. Reads live balances.
std::map<std::int64_t, base::Date> oldest_on_hand(Database& database);

/// A material as it stood on some day.
struct MaterialThen {
    OnHand on_hand;
    std::int64_t units = 0; ///< whole units on shelves (bulk: thousandths)
};

/// What there was at the end of a day.
struct StockThen {
    std::vector<MaterialThen> materials; ///< those with something there
    base::Money in_work;
    base::Money in_journals;
    std::int64_t journals = 0;
};

/// Stock at the end of `day`; cost as of balances_on: what was there, and the movements of at most
/// one quarter.
StockThen stock_on(Database& database, const base::Date& day);

/// Every offcut that is there, longest kept first, each with all it carries (a moving average may
/// give it value of several lots). Reads live balances only.
std::vector<OffcutOnHand> offcuts_by_age(Database& database);

/// An entry with how much it moved and what reversed it (0: nothing).
struct LoggedPosting {
    Posting posting;
    std::int64_t movements = 0;
    std::int64_t reversed_by = 0;
};

/// Every entry, oldest first.
std::vector<LoggedPosting> whole_log(Database& database);

/// Receipts that stand (deliveries from suppliers, not what counts found), in the order of their
/// entries. Lists every lot.
std::vector<Lot> standing_receipts(Database& database);

} // namespace barrow::store
