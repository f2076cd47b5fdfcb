#pragma once

#include "base/date.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <string>

namespace barrow::workshop {

/// Refuses an entry of a day on which something it takes was not there yet: a lot not received, an
/// offcut not kept, a journal not made. So happens when the clock is behind. Called once the
/// movements of the entry are written, inside its transaction. Throws base::Error (Kind::refused)
/// naming the day and what it needs.
void require_its_day(store::Database& database, std::int64_t posting);

/// What to say when the day lies before the latest entry; empty when it does not.
std::string clock_behind(store::Database& database, const base::Date& today);

} // namespace barrow::workshop
