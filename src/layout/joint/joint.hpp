#pragma once

#include "layout/job.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace barrow::layout {

/// A number of pieces of one of several jobs.
struct JointPiece {
    std::size_t job = 0;
    std::size_t piece = 0; ///< index into Job::pieces
    std::int64_t count = 0;
};

/// A decision made `times` times, each time for one of several options; each option asks for
/// pieces. With one option it is just a demand.
struct JointChoice {
    std::int64_t times = 0;
    std::vector<std::vector<JointPiece>> options;
};

/// A limit on how often these options are chosen in total, each counted `weight` times.
struct JointLimit {
    struct Term {
        std::size_t choice = 0;
        std::size_t option = 0;
        std::int64_t weight = 1;
    };
    std::vector<Term> terms;
    std::int64_t most = 0;
};

/// Several jobs with choices over all of them. The pieces of each job come from its own stock; the
/// choices decide how many are wanted, and the counts of the pieces only limit that. Requires of
/// each job with pieces: examine(job) is empty, goal least_cost, and no equal entries except of
/// kinds without quarter turns.
struct JointQuestion {
    std::vector<Job> jobs;
    std::vector<JointChoice> choices;
    std::vector<JointLimit> limits;
};

/// How often each option of each choice is taken: [choice][option].
using JointFalls = std::vector<std::vector<std::int64_t>>;

/// Good numbers for the choices, from the patterns of the linear program over patterns and choices
/// (column generation: Gilmore & Gomory, Oper. Res. 9 (1961) and 13 (1965)), by branch and cut over
/// the columns with small reduced cost. No promise how good; nothing where none was found. Every
/// choice is made `times` times, limits are kept. `work` bounds the effort, in units of work.
std::optional<JointFalls> joint_falls(const JointQuestion& question, std::int64_t work);

} // namespace barrow::layout
