#include "workshop/shared/days.hpp"

#include "base/error.hpp"
#include "store/books/history.hpp"
#include "store/ledger/ledger.hpp"
#include "store/stock/lots.hpp"

#include <fmt/format.h>

#include <set>

namespace barrow::workshop {
namespace {

/// The last holder that is a place of the book itself: outside, made, sold, written off.
constexpr std::int64_t last_fixed_holder = 4;

/// The day on which the holder first had something, and how people call it.
struct Beginning {
    base::Date day;
    std::string what;
    std::int64_t entry = 0;
};

std::optional<Beginning> beginning_of(store::Database& database, std::int64_t holder,
                                      std::int64_t posting) {
    if (const auto lot = store::lot_by_id(database, holder))
        return Beginning{lot->received_on, fmt::format("lot {} was received", holder),
                         lot->posting_id};
    for (const store::ToldMovement& line : store::movements_touching(database, holder)) {
        if (line.posting.id == posting || line.movement.to != holder) continue;
        return Beginning{line.posting.made_on,
                         fmt::format("{} came into the book", line.to.empty() ? "it" : line.to),
                         line.posting.id};
    }
    return std::nullopt;
}

} // namespace

void require_its_day(store::Database& database, std::int64_t posting) {
    const store::Posting own = store::posting_by_id(database, posting).value();
    std::set<std::int64_t> seen;
    for (const store::Movement& move : store::movements_of(database, posting)) {
        if (move.from <= last_fixed_holder || !seen.insert(move.from).second) continue;
        const auto began = beginning_of(database, move.from, posting);
        if (!began || began->day <= own.made_on) continue;
        throw base::refused(fmt::format("nothing can be booked for {}: {} only on {} (entry {})",
                                        base::to_text(own.made_on), began->what,
                                        base::to_text(began->day), began->entry),
                            "set the clock right, or wait for that day");
    }
}

std::string clock_behind(store::Database& database, const base::Date& today) {
    for (const store::Posting& last : store::latest_postings(database, 1))
        if (last.made_on > today)
            return fmt::format("the clock says {}, but entry {} is of {}", base::to_text(today),
                               last.id, base::to_text(last.made_on));
    return {};
}

} // namespace barrow::workshop
