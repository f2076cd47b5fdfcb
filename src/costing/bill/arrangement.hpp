#pragma once

#include "costing/bill/divisions.hpp"
#include "costing/bill/origin.hpp"
#include "layout/job.hpp"

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace barrow::costing {

/// So many panels made in one way.
struct Way {
    Division division;
    std::int64_t count = 0;
};

/// So many of a part taken from one material.
struct Taken {
    Origin origin;
    std::size_t material = 0; ///< index into the shelf
    std::int64_t number = 0;  ///< of all journals of the run
    std::vector<Way> ways;    ///< of a part cut from a sheet: how each is made; their counts add up
};

/// Journals `first` to `last` of a run (counted from 1) have these papers in the slots that leave
/// a choice.
struct PaperRow {
    std::size_t run = 0;
    std::int64_t first = 1;
    std::int64_t last = 1;
    std::vector<std::pair<std::string, std::size_t>> papers; ///< slot, index into the shelf
};

/// Who gets what: every part of every run with its material, and every panel with its joins.
struct Arrangement {
    std::vector<Taken> taken;   ///< in the order of runs and parts
    std::vector<PaperRow> rows; ///< in the order of runs and journals; only of slots with a choice
    bool all_weighed = false; ///< every way to choose and to join was weighed, and this is the best
    layout::Cost weight = 0;  ///< what it counts (see arrange)
};

} // namespace barrow::costing
