#pragma once

#include "base/money.hpp"

#include <cstdint>
#include <utility>
#include <vector>

namespace barrow::costing {

using base::Money;

/// What one part of a run took of one material, and the journals that have it.
struct PartShare {
    Money cost;
    /// Ranges of journals, first and last, counted from 1; none: all have it.
    std::vector<std::pair<std::int64_t, std::int64_t>> journals;
};

/// Divides what the materials of a run cost among its journals, so that each bears the papers it
/// has: what a part took of a material is borne in equal parts by the journals that have it. The
/// parts' costs are weights only; the shares add up to `total` exactly, rounded once by largest
/// remainder (base::split). Even shares where all parts were free. Requires journals > 0 and ranges
/// within them.
std::vector<Money> share_among_journals(Money total, std::int64_t journals,
                                        const std::vector<PartShare>& parts);

/// What the journals of a run cost, each in its place.
struct JournalCosts {
    std::vector<Money> materials, labour, overheads;
};

/// Divides labour evenly, and overheads evenly or (`by_cost`) in proportion to materials and
/// labour, among journals whose materials are divided already. `kinds` says which are alike:
/// journals of one kind, given by any number, have the same papers. Two of a kind differ by one
/// minor unit at most in all: odd units of labour and overheads go first to those that had none
/// before.
JournalCosts share_work(std::vector<Money> materials, Money labour, Money overheads, bool by_cost,
                        const std::vector<std::int64_t>& kinds);

} // namespace barrow::costing
