#pragma once

#include "families.hpp"

#include "layout/solve.hpp"

namespace barrow::bench {

struct Result {
    const Case* instance = nullptr;
    layout::Outcome outcome;
    double seconds = 0;
    std::size_t faults = 0; ///< what the checker found wrong
};

/// One line on one instance.
void print_line(const Result& result);

/// The table of a family: totals against the best known, proofs, gaps and times.
void print_table(const std::string& family, const std::vector<Result>& results);

} // namespace barrow::bench
