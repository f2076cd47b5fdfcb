#pragma once

#include "costing/price/estimate.hpp"
#include "store/making/designs.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

namespace barrow::workshop {

/// So many journals of one design, with what is changed against its usual values.
struct WantedRun {
    std::string design; ///< code
    std::int64_t journals = 0;
    design::Changes changes;
};

/// How a costing is to be made.
struct HowToCost {
    layout::Effort effort = layout::Effort::normal;
    /// Lots to take first, in that order, by material code in capitals (`barrow lots` shows their
    /// numbers). A shop whose cost order is pick-the-lot wants one named wherever there are
    /// several.
    std::map<std::string, std::vector<std::int64_t>> picks = {};
    /// Whether fillers that find no room in what the plan leaves over are cut from offcuts that no
    /// part takes and no planned batch has reserved (costing::fill_from_box).
    bool fillers_from_box = false;
    /// Whether `make` and `plan_batch` go on where a warning says that the journals cannot be put
    /// together. The reason is then kept in the note of the entry.
    bool anyway = false;
};

/// Everything known of some journals before they are made: the estimate, and what it was made
/// from. Pointers inside the estimate point into `shelf`, which does not move.
struct Costing {
    Settings settings;
    std::vector<store::StoredDesign> designs; ///< beside runs
    std::vector<costing::Run> runs;
    std::shared_ptr<const std::vector<costing::ShelfMaterial>> shelf;
    costing::Estimate estimate;
    /// Beside runs; nothing where work is not counted, since no hourly rate is set.
    std::vector<std::optional<costing::Price>> prices;
    std::vector<std::string> hazards; ///< of everything used, for cautions; each once
    /// Every warning: of the designs, of the bill, and of fillers that were not cut; each once.
    std::vector<design::Warning> warnings;
};

/// What journals would cost now, and how they would be cut. Writes nothing.
/// Throws base::Error as design_called, work_out and estimate do.
Costing cost(store::Database& database, const std::vector<WantedRun>& wanted,
             const base::Date& today, const HowToCost& how = {});

} // namespace barrow::workshop
