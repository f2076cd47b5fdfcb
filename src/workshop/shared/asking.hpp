#pragma once

#include "costing/price/price.hpp"
#include "store/selling/journals.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <utility>

namespace barrow::workshop {

/// What to ask for each of `journals` that cost `total` together; nothing while no hourly rate is
/// set, since a price without the work in it misleads.
std::optional<costing::Price> price_of_run(const Settings& settings, base::Money total,
                                           std::int64_t journals);

/// The one price that is asked for a finished journal, wherever it is shown and when it is sold:
/// its own, when the maker gave it one; else what was asked when it was last taken along to a fair,
/// which no later setting changes; else what the shop's margin asks for the exact cost of its run,
/// so that journals alike have one price. Reads each run once.
class AskingPrices {
public:
    AskingPrices(store::Database& database, const Settings& settings)
        : database_(database), settings_(settings) {}

    /// Nothing while no hourly rate is set and the journal has neither of the other two.
    std::optional<base::Money> of(const store::Journal& journal);

private:
    store::Database& database_;
    const Settings& settings_;
    /// By the entry that finished it and the number of the run.
    std::map<std::pair<std::int64_t, std::int64_t>, std::optional<base::Money>> runs_;
};

} // namespace barrow::workshop
