#pragma once

#include "layout/fill/choice.hpp"
#include "layout/table/guillotine_table.hpp"

#include <vector>

namespace barrow::layout {

/// A price on every copy of every kind, and the bound it proves: cutting with unlimited copies,
/// each worth its value less its price, plus the price of all allowed copies, is worth at least as
/// much as any allowed choice. In units of 1/scale, so that all are whole numbers.
struct CopyPrices {
    std::int64_t scale = 1;
    std::vector<std::int64_t> prices;
    std::int64_t all_copies = 0; ///< sum of price times copies allowed
    Cost bound = 0;              ///< proven, in units of value
};

/// Finds the prices with the least bound: the dual of choosing among patterns so that no kind is
/// taken more often than allowed on average, solved by column generation. Offers the patterns it
/// meets to the choice. Ends early, with the best so far, after so many steps. Afterwards `table`
/// holds the values less the prices found, unless the choice reaches the bound. Requires that the
/// greatest value of the sheet fits the table at scale 1.
CopyPrices find_copy_prices(const Instance& instance, GuillotineTable<double>& table,
                            Choice& choice, std::int64_t steps, Meter& meter);

} // namespace barrow::layout
