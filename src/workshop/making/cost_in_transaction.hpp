#pragma once

#include "store/stock/catalogue.hpp"
#include "workshop/making/cost.hpp"

namespace barrow::workshop {

/// `cost` for use cases that already stand in a transaction.
Costing cost_in_transaction(store::Database& database, const std::vector<WantedRun>& wanted,
                            const base::Date& today, const HowToCost& how);

/// How the shop's settings say that is cut and costed.
costing::CutOptions cut_options(const Settings& settings, const HowToCost& how);

/// What a material's own notes and its form say may hurt, added to the names of hazards; each once.
void add_hazards(const store::Material& material, std::vector<std::string>& hazards);

} // namespace barrow::workshop
