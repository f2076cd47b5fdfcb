#pragma once

#include "base/date.hpp"
#include "store/ledger/ledger.hpp"
#include "store/ledger/transaction.hpp"

#include <optional>
#include <string>

namespace barrow::workshop {

/// What every use case is given instead of reaching for it: the open shop, the day it is, the
/// moment of writing, and whether it is meant or only asked.
struct Context {
    store::Database& database;
    base::Date today;
    std::string recorded_at; ///< UTC, "2027-03-14T09:30:00Z"
    store::Mode mode = store::Mode::commit;
    std::string note = {}; ///< the maker's reason, kept with the posting
};

/// Writes the posting of a command and gives its id. `made_on` is the day it is true of;
/// `reverses` the posting it takes back, if any.
std::int64_t post(Context& context, const std::string& kind, const base::Date& made_on,
                  std::optional<std::int64_t> reverses = std::nullopt);

/// Runs `action` as one IMMEDIATE transaction (a dry run rolls it back) and gives its answer.
template <typename Action>
auto writing(Context& context, Action action) -> decltype(action()) {
    decltype(action()) answer{};
    store::write(context.database, context.mode, [&] { answer = action(); });
    return answer;
}

/// Runs `action` in one read transaction and gives its answer.
template <typename Action>
auto reading(store::Database& database, Action action) -> decltype(action()) {
    decltype(action()) answer{};
    store::read(database, [&] { answer = action(); });
    return answer;
}

} // namespace barrow::workshop
