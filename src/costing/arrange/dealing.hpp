#pragma once

#include "costing/arrange/paper_costs.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <vector>

namespace barrow::costing {

/// Choosers that compete for the same papers.
struct Table {
    std::vector<std::size_t> choosers; ///< with a choice, ascending
    std::vector<std::size_t> settled;  ///< without, taken from the same papers, ascending
    std::vector<std::size_t> papers;   ///< ascending
};

/// How many units of each chooser of a table each paper has: deal[chooser][paper], beside
/// Table::choosers and Table::papers.
using Deal = std::vector<std::vector<std::int64_t>>;

struct Dealt {
    Deal deal;
    Weight weight;
    bool all_weighed = false;
};

/// Deals the units of a table's choosers out to its papers at least weight. Choosers that must
/// differ have at most as many journals of one paper between them as the run has: then, and only
/// then, the journals can be paired (for choosers that must all differ from each other: Koenig's
/// theorem on colouring the edges of a bipartite graph, with choosers and papers as its vertices).
/// With `strict`, choosers tied in any way are treated as if all had to differ from each other.
/// Nothing when there is no way.
///
/// Few units are dealt by a dynamic program over the papers, with every way weighed. More begin
/// from the best of some quick deals and one guided by a linear program, and are moved about.
std::optional<Dealt> deal_out(const Table& table, const std::vector<Chooser>& choosers,
                              const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
                              bool strict, PaperCosts& costs);

/// Sets of choosers of which no paper may have more journals in all than the run has.
std::vector<std::vector<std::size_t>> exclusive_sets(const std::vector<std::size_t>& among,
                                                     const std::vector<Chooser>& choosers,
                                                     bool strict);

} // namespace barrow::costing
