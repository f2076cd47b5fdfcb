#pragma once

#include "base/form.hpp"
#include "base/money.hpp"
#include "store/ledger/ledger.hpp"
#include "store/selling/journals.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::workshop {

/// One material as it stands.
struct StockLine {
    store::Material material;
    std::int64_t quantity = 0; ///< on shelves, in the form's measure
    std::int64_t units = 0;    ///< the same in whole units (bulk: thousandths)
    std::int64_t reserved = 0; ///< of those units, for planned batches
    std::int64_t on_order = 0; ///< units still to come from suppliers
    std::int64_t offcuts = 0;  ///< how many
    std::int64_t offcut_quantity = 0;
    base::Money shelf_value;
    base::Money offcut_value;
    bool low = false; ///< what no planned batch uses up is below its reorder level (units_there)
};

struct Stock {
    Settings settings;
    std::vector<StockLine> lines; ///< by code
    base::Money value;            ///< shelves and offcuts together
};

/// Every material with what is on hand of it.
Stock stock(store::Database& database);

/// One offcut as it stands.
struct OffcutLine {
    store::OffcutOnHand there;
    std::string material; ///< code
    std::string material_name;
    base::Form form = base::Form::sheet;
    long age_days = 0;
};

struct OffcutBox {
    Settings settings;
    std::vector<OffcutLine> lines;
    base::Money value;
};

OffcutBox offcuts(store::Database& database, const base::Date& today);

/// Where all the money that came in now is. `difference` is what cannot be accounted for:
/// received less everything else. It is computed from the lots on one side and the movements on
/// the other, and is nothing in a sound shop.
struct ShopValue {
    Settings settings;
    base::Money received; ///< cost of all lots, less what was returned or reversed
    base::Money on_shelf;
    base::Money in_offcuts;
    base::Money in_work;
    base::Money in_journals; ///< materials only: labour and overheads were never received
    base::Money sold;
    base::Money written_off;
    base::Money difference;
};

ShopValue shop_value(store::Database& database);

/// Finished journals in hand.
struct Journals {
    Settings settings;
    std::vector<store::JournalOnHand> lines;
    /// Beside lines: what to ask for each (AskingPrices); nothing where no price is known.
    std::vector<std::optional<base::Money>> asked;
};

Journals journals(store::Database& database);

/// An entry of the ledger with its movements in words.
struct LogLine {
    store::Posting posting;
    std::string reversed_by; ///< number of the reversal, or empty
    std::int64_t movements = 0;
};

/// The latest entries, newest first.
std::vector<LogLine> log(store::Database& database, std::int64_t most);

/// Everything wrong with the shop file; empty when it is sound.
std::vector<std::string> check(store::Database& database);

/// Changes one setting. The cost order is not merely changed but decided, from this entry on: what
/// was used before keeps its cost, and what is on the shelves when the moving average is left goes
/// on at what it cost on average. Throws as apply_setting; Kind::refused for the currency of a
/// shop that has stock booked.
Settings change_setting(Context& context, const std::string& name, const std::string& value);

} // namespace barrow::workshop
