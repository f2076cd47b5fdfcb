#pragma once

#include "costing/bill/bill.hpp"
#include "costing/cutting/cutting.hpp"

#include <cstdint>
#include <vector>

namespace barrow::costing {

/// Parts of a minor unit in which the worth of fillers is weighed.
inline constexpr std::int64_t worth_per_minor = 1'000;

/// A filler that may be cut from a material: an optional part, cut only from what would otherwise
/// become an offcut or waste.
struct FillerWant {
    CutWant want;           ///< count: how many are still wanted
    std::int64_t worth = 0; ///< of one, in parts of a minor unit (worth_per_minor)
};

/// Fillers of the runs that may be cut from `material`, in the order of runs and fillers, with the
/// numbers wanted. `minor_per_major`: minor units in a unit of the currency, in which worths are
/// given.
std::vector<FillerWant> fillers_for(const std::vector<Run>& runs,
                                    const std::vector<ShelfMaterial>& shelf, std::size_t material,
                                    std::int64_t minor_per_major);

/// Cuts fillers from what a plan leaves over. Each rectangle left, the largest first, is laid out
/// for the greatest worth; from one that is large enough to keep, only fillers worth more than the
/// offcut they are cut from would carry by area at `per_measure` (thousandths of a minor unit for
/// a measure of the material). Never takes another sheet, never moves a piece. Changes the plan's
/// job (the fillers become pieces, their counts what was placed), wants and outcome; lowers the
/// counts still wanted.
void fill_in(CutPlan& plan, std::vector<FillerWant>& fillers, const base::Rational& per_measure);

} // namespace barrow::costing
