#pragma once

#include "layout/bound/pattern_lp.hpp"
#include "layout/search/construct.hpp"

#include <cstdint>
#include <vector>

namespace barrow::layout {

/// What the answer of a pattern LP leaves to do when its uses are rounded down (the residual
/// problem: Waescher & Gau, OR Spektrum 18 (1996) 131-144). With few sheets left, searches that
/// are at a loss before all of them come nearly to the bound.
class Residual {
public:
    /// Keeps of each column of the LP's last answer the whole part of its use less `less`. The
    /// instance must outlive it.
    Residual(const Instance& instance, const PatternLp& lp, double less);

    /// What is left: kinds of which nothing is, are left out. Sheets are those of the instance, in
    /// the same order, fewer copies of them.
    const Instance& rest() const { return rest_; }

    /// What was kept, and with it a complete answer to the rest.
    Solution whole(const Solution& rest) const;

private:
    Block in_our_kinds(const Block& block) const;

    const Instance& instance_;
    Solution kept_;
    Instance rest_;
    std::vector<std::int32_t> kinds_; ///< of the instance, of each kind of the rest
};

} // namespace barrow::layout
