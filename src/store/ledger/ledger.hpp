#pragma once

#include "base/date.hpp"
#include "base/money.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::store {

/// Holders that every shop has.
inline constexpr std::int64_t outside = 1;
inline constexpr std::int64_t sold = 2;
inline constexpr std::int64_t written_off = 3;
inline constexpr std::int64_t made = 4;

/// One command's entry in the ledger.
struct Posting {
    std::int64_t id = 0;
    std::string kind;
    base::Date made_on;
    std::string recorded_at; ///< UTC, ISO 8601 with seconds
    std::string who;
    std::string note;
    std::optional<std::int64_t> reverses;
};

/// A quantity and value that went from one holder to another. Without a lot, `quantity` counts
/// finished journals.
struct Movement {
    std::int64_t id = 0;
    std::int64_t posting_id = 0;
    std::string kind;
    std::optional<std::int64_t> lot;
    std::int64_t from = 0;
    std::int64_t to = 0;
    std::int64_t quantity = 0;
    base::Money value;
};

/// What a holder has of one lot (lot 0: of finished journals).
struct Balance {
    std::int64_t holder = 0;
    std::int64_t lot = 0;
    std::int64_t quantity = 0;
    base::Money value;
};

/// What a posting has to do with things that one posting begins and others belong to (orders,
/// fairs), by their numbers.
struct Belonging {
    std::optional<std::int64_t> begins;
    std::vector<std::int64_t> follows;
};

/// Writes a posting (its id is ignored) and gives its id.
std::int64_t add_posting(Database& database, const Posting& posting);
std::optional<Posting> posting_by_id(Database& database, std::int64_t id);
/// The posting that reverses this one, if there is one.
std::optional<Posting> reversal_of(Database& database, std::int64_t id);
/// True unless the posting is reversed (and that reversal not itself reversed, and so on).
bool stands(Database& database, std::int64_t id);
/// What a reversal takes back in the end: the first posting of its chain; the posting itself when
/// it is no reversal.
std::int64_t origin_of(Database& database, std::int64_t id);
/// The last `most` postings, newest first.
std::vector<Posting> latest_postings(Database& database, std::int64_t most);

/// Makes a holder of that kind and gives its id.
std::int64_t add_holder(Database& database, std::string_view kind);

/// Kind of a holder: "shelf", "offcut", ...
std::string kind_of_holder(Database& database, std::int64_t id);

/// Writes movements of one posting.
class MovementWriter {
public:
    MovementWriter(Database& database, std::int64_t posting)
        : database_(database), posting_(posting) {}
    /// The id and posting of `movement` are ignored. Movements of nothing (no quantity and no
    /// value) are left out.
    void move(const Movement& movement);

private:
    Database& database_;
    std::int64_t posting_;
};

/// Movements of a posting in the order they were written.
std::vector<Movement> movements_of(Database& database, std::int64_t posting);

/// What a holder has of each lot; empty when it has nothing.
std::vector<Balance> balances_of(Database& database, std::int64_t holder);
/// What one holder has of one lot.
Balance balance_of(Database& database, std::int64_t holder, std::int64_t lot);

/// Value held by each kind of holder, from the running totals.
std::map<std::string, base::Money> value_by_kind(Database& database);

} // namespace barrow::store
