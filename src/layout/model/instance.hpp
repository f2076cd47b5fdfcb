#pragma once

#include "layout/job.hpp"

#include <cstdint>
#include <vector>

namespace barrow::layout {

/// A length in search units (see Instance). Sums fit 32 bits because no search adds beyond the side
/// of a sheet.
using Length = std::int32_t;

/// Copies of a sheet without a count.
inline constexpr std::int64_t unlimited = INT64_MAX / 4;

/// Entry of the job that a kind stands for, and how many copies of it.
struct Source {
    std::size_t index = 0;
    std::int64_t count = 0;
    bool swapped = false; ///< width and height of the entry were exchanged
};

/// A kind of rectangle to place. Entries of the job alike in all that matters are one kind.
struct Item {
    Length width = 0;
    Length height = 0;
    std::int64_t demand = 0; ///< wanted (least_cost) or most allowed (most_value)
    bool turns = false;      ///< may lie on its side
    Cost value = 0;
    std::vector<Source> sources;

    std::int64_t area() const { return std::int64_t{width} * height; }
};

/// A kind of sheet to cut from.
struct Sheet {
    Length width = 0;
    Length height = 0;
    Cost cost = 0;
    std::int64_t copies = unlimited;
    bool offcut = false;
    std::int64_t age = 0;
    std::int64_t true_area = 0; ///< inside the margins, in the measures of the job
    std::vector<Source> sources;

    std::int64_t area() const { return std::int64_t{width} * height; }
};

/// The job as the search sees it, without kerf: adding the kerf once to every piece and once to
/// every sheet makes cuts zero wide (the last piece of a row needs no cut behind it, and gets the
/// kerf that was added to the sheet). Then the greatest common factor of the pieces' sides is
/// divided out, for each axis by itself where no piece may be turned. Sheets are rounded down to
/// it: what they lose cannot hold a piece, and returns when the plan is drawn in true measures.
struct Instance {
    std::vector<Item> items;
    std::vector<Sheet> sheets;
    std::vector<std::size_t> too_large; ///< entries of Job::pieces that fit no sheet
    Measure unit_x = 1;
    Measure unit_y = 1;
    Measure kerf_x = 0;
    Measure kerf_y = 0; ///< 0 in one dimension

    Measure true_width(Length width) const { return width * unit_x - kerf_x; }
    Measure true_height(Length height) const { return height * unit_y - kerf_y; }
    bool holds(const Sheet& sheet, const Item& item) const;
    std::int64_t pieces_wanted() const;
    /// All heights are equal, and equal to a sheet's: a problem of lengths.
    bool one_dimensional() const;
    bool has_offcuts() const;
};

/// Requires examine(job) to be empty and the measures of the job to have no common factor.
Instance instance_of(const Job& job);

/// Sorts the kinds, so that equal jobs are searched alike in whatever order their entries were
/// written: large items first, cheap sheets first. No two kinds are alike in all that is compared.
void bring_into_order(Instance& instance);

/// The greatest number that divides every measure of the job.
Measure common_factor(const Job& job);

/// The job with every measure divided by the factor.
Job divided(const Job& job, Measure factor);

} // namespace barrow::layout
