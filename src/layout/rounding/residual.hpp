#pragma once

#include "layout/columns/pattern_lp.hpp"
#include "layout/tree/solution.hpp"

#include <cstdint>
#include <vector>

namespace barrow::layout {

/// The residual problem of a pattern LP whose uses are rounded down (Waescher & Gau, OR Spektrum 18
/// (1996) 131-144). With few sheets left, searches that fail on the whole problem get close to the
/// bound.
class Residual {
public:
    /// Keeps of each column of the LP's last answer the whole part of its use less `less`. The
    /// instance must outlive it.
    Residual(const Instance& instance, const PatternLp& lp, double less);

    /// What is left, without kinds that are finished. The sheets are those of the instance, in the
    /// same order, with fewer copies.
    const Instance& rest() const { return rest_; }

    /// The kept patterns joined with a complete answer to the rest.
    Solution whole(const Solution& rest) const;

private:
    Block in_our_kinds(const Block& block) const;

    const Instance& instance_;
    Solution kept_;
    Instance rest_;
    std::vector<std::int32_t> kinds_; ///< kind of the instance for each kind of the rest
};

} // namespace barrow::layout
