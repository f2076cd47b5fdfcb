#pragma once

#include "layout/job.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace barrow::layout {

/// So many of a piece of one of several jobs.
struct JointPiece {
    std::size_t job = 0;
    std::size_t piece = 0; ///< index into Job::pieces
    std::int64_t count = 0;
};

/// Something that is decided so many times, each time for one of several options; each option asks
/// for pieces. One option: no decision, just a demand.
struct JointChoice {
    std::int64_t times = 0;
    std::vector<std::vector<JointPiece>> options;
};

/// Options that together fall at most so often, each time counted `weight` times.
struct JointLimit {
    struct Term {
        std::size_t choice = 0;
        std::size_t option = 0;
        std::int64_t weight = 1;
    };
    std::vector<Term> terms;
    std::int64_t most = 0;
};

/// Several jobs with choices over all of them. Each job is one of its own (its pieces come from its
/// stock alone); what is wanted of its pieces follows from the choices, and their counts only say
/// how many could be wanted at most. Requires of each job with pieces: examine(job) is empty, goal
/// least_cost, and kinds without quarter turns of different sizes alike.
struct JointQuestion {
    std::vector<Job> jobs;
    std::vector<JointChoice> choices;
    std::vector<JointLimit> limits;
};

/// How often each option of each choice falls: [choice][option].
using JointFalls = std::vector<std::vector<std::int64_t>>;

/// A cost below which the sheets of all jobs together cannot be had, however the choices fall.
///
/// The linear program over patterns and choices together, by column generation (Gilmore & Gomory,
/// Oper. Res. 9 (1961) and 13 (1965)); the bound is the Lagrangian one at its prices, computed in
/// whole numbers: prices are rounded, the best pattern of every sheet at them is found exactly, and
/// where it would bring more than a sheet without limit costs, the job's prices are shrunk (Farley,
/// Oper. Res. 38 (1990)). Where each job has few ways to share in the choices, a second program
/// over those shares, which cost whole sheets, raises it (Dantzig & Wolfe, Oper. Res. 8 (1960)).
/// Never wrong, whatever the LP solver does; 0 when nothing better was found. `work` bounds the
/// effort, in units of work.
Cost joint_bound(const JointQuestion& question, std::int64_t work);

/// A good way for the choices to fall, from the patterns of the same linear program in whole
/// numbers, by branch and cut over those that cost next to nothing beyond what they save. No
/// promise how good; nothing where none was found. Every choice falls `times` times, limits are
/// kept.
std::optional<JointFalls> joint_falls(const JointQuestion& question, std::int64_t work);

} // namespace barrow::layout
