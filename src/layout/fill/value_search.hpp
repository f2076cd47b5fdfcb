#pragma once

#include "layout/effort/random.hpp"
#include "layout/fill/choice.hpp"
#include "layout/tree/insertion.hpp"

#include <vector>

namespace barrow::layout {

/// Improves a choice by removing parts of the sheet and filling it again, accepting what is not
/// worse than some rounds before (late acceptance: Burke & Bykov, EJOR 258 (2017) 70-78).
class ValueSearch {
public:
    ValueSearch(const Instance& instance, std::uint64_t seed, Choice& choice, Meter& meter);

    /// Runs until this many steps bring no improvement, or `bound` is reached.
    void run(std::int64_t steps, Cost bound);

private:
    void ruin();
    void recreate();

    const Instance& instance_;
    Choice& choice_;
    Meter& meter_;
    Random random_;
    SlicingTree tree_;
    SlicingTree before_;
    Cost value_ = 0;
    std::vector<std::int64_t> left_; ///< copies not on the sheet
    std::vector<std::int64_t> left_before_;
    std::vector<Cost> history_;
    std::vector<std::int32_t> removed_;
    std::vector<std::pair<double, std::int32_t>> order_;
};

} // namespace barrow::layout
