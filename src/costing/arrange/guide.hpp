#pragma once

#include "costing/arrange/dealing.hpp"

#include <optional>
#include <vector>

namespace barrow::costing {

/// A deal to begin with, from the linear program over all papers and choices together
/// (layout::joint_falls): it sees what the deals of one paper leave for the others, which trials
/// paper by paper do not. Suggests to `costs` how its panels are made. Nothing when there was none;
/// what it weighs is for the caller to find. `exclusive` as for paper_question, `work` as for
/// joint_falls.
std::optional<Deal> guided_deal(const Table& table, const std::vector<Chooser>& choosers,
                                const std::vector<Run>& runs,
                                const std::vector<ShelfMaterial>& shelf,
                                const std::vector<std::vector<std::size_t>>& exclusive,
                                std::int64_t work, PaperCosts& costs);

} // namespace barrow::costing
