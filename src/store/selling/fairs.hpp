#pragma once

#include "base/date.hpp"
#include "base/money.hpp"
#include "store/ledger/ledger.hpp"
#include "store/selling/journals.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::store {

/// Something a fair cost.
struct FairCost {
    std::string what; ///< "pitch fee"
    base::Money amount;
};

/// A journal that was at a fair: taken along, or sold there.
struct FairJournal {
    Journal journal;
    std::string design_name;
    std::optional<base::Money> sold_for; ///< nothing when it was brought back
};

/// A market day as its standing entries have it; see schema/6_fairs.sql.
struct Fair {
    std::int64_t number = 0;
    Posting noted; ///< its entry
    std::string name;
    base::Date held_on;
    bool undone = false; ///< the entry that noted it was reversed
    std::vector<FairCost> costs;
    std::vector<FairJournal> journals; ///< by serial, each once
};

/// Writes the fair under its posting (`noted.id`), without costs and journals; gives its number.
std::int64_t add_fair(Database& database, const Fair& fair);
void add_fair_cost(Database& database, std::int64_t posting, std::int64_t fair,
                   const FairCost& cost);
/// `asked` is the price that is asked for it from then on, where one is known.
void add_fair_take(Database& database, std::int64_t posting, std::int64_t fair,
                   std::int64_t journal, const std::optional<base::Money>& asked);
/// What was asked for a journal when it was last taken along, by a posting that stands; nothing
/// when it never was, or no price was known then.
std::optional<base::Money> asked_at_fair(Database& database, std::int64_t journal);
/// Says that the sales of the posting were made at the fair.
void add_fair_sale(Database& database, std::int64_t posting, std::int64_t fair);

std::optional<Fair> find_fair(Database& database, std::int64_t number);
/// Latest day first.
std::vector<Fair> all_fairs(Database& database);

/// What fairs held from `from` to `to` cost together, by standing entries.
base::Money fair_costs(Database& database, const base::Date& from, const base::Date& to);

/// The fair that a posting noted, or the one it belongs to.
Belonging fairs_of_posting(Database& database, std::int64_t posting);

/// Standing postings that belong to a fair beside the one that noted it, oldest first.
std::vector<Posting> postings_at_fair(Database& database, std::int64_t fair);

} // namespace barrow::store
