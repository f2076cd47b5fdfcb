#pragma once

#include "book/shop.hpp"
#include "workshop/shared/context.hpp"

#include <functional>
#include <string>
#include <vector>

namespace barrow::test {

/// A use case that writes, ready to be run on a copy of the busy shop.
struct UseCase {
    std::string name;
    std::function<void(workshop::Context&)> run;
    std::string before = {}; ///< a command it needs to have been done
};

/// Every use case of the workshop that writes, each where it has something to write.
std::vector<UseCase> writing_use_cases();

/// A shop in which each of them can take place: batch 1 finished (five journals, 1-01 to 1-05, of
/// which 1-05 is sold), batch 2 planned, batch 3 cut, order 1 placed, fair 1 held with 1-01 on
/// its list, fair 2 to come, a stocktake open with a difference, offcuts
/// in the box.
void keep_busy(Shop& shop);

workshop::Context context_of(store::Database& database, store::Mode mode = store::Mode::commit);

} // namespace barrow::test
