#pragma once

#include "costing/bill/arrangement.hpp"
#include "costing/shelf/shelf.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::costing {

/// So many of a part go with one unit of a chooser.
struct Use {
    std::size_t part = 0;
    std::int64_t copies = 1;
};

/// Something that takes its material from one of several papers, over and over: a slot in each
/// journal, a slot in the whole run, or one part of a slot piece by piece. Parts whose material is
/// settled are choosers with one paper.
struct Chooser {
    std::size_t run = 0;
    std::string slot;
    std::int64_t units = 0;          ///< how often it is chosen
    std::int64_t journals = 1;       ///< of the run, that one unit is for; 0: a piece of one
    std::vector<std::size_t> papers; ///< indices into the shelf
    std::vector<Use> uses;
    bool offcuts_only = false;
    std::vector<std::size_t> differs_from; ///< other choosers, of another paper in each journal
};

/// Everything of the runs that takes a material, in the order of runs and parts (of choosers that
/// have several parts, of the first). Throws as arrange does for materials and forms.
std::vector<Chooser> choosers_of(const std::vector<Run>& runs,
                                 const std::vector<ShelfMaterial>& shelf);

} // namespace barrow::costing
