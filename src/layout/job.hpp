#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace barrow::layout {

/// The engine knows rectangles and numbers only. A Measure is a length in any whole unit; the
/// engine divides out common factors. A Cost is what the caller wants to minimise, in any whole
/// unit.
using Measure = std::int64_t;
using Cost = std::int64_t;

enum class Goal {
    least_cost, ///< place every piece at least stock cost
    most_value, ///< fill one sheet of the first stock entry with the best-valued pieces
};

/// How a piece may lie against the sheet.
enum class Turn {
    none,    ///< upright only
    half,    ///< upright or by 180 degrees: for the layout the same as none
    quarter, ///< also by 90 degrees
};

/// How hard to search. Effort is counted in work, never in seconds.
enum class Effort { quick, normal, thorough };

/// A border that cannot be used and is trimmed off before the cuts listed in a plan.
struct Margin {
    Measure left = 0;
    Measure right = 0;
    Measure top = 0;
    Measure bottom = 0;
};

/// A kind of sheet (or strip) to cut from: fresh sheets with many copies, or an offcut with one.
struct Stock {
    std::string id;
    Measure width = 0;
    Measure height = 0;                     ///< 1 in a one-dimensional job
    Cost cost = 0;                          ///< of one copy; zero or more
    std::optional<std::int64_t> count = {}; ///< copies on hand; no value: as many as wanted; 0: none
    Margin margin = {};
    bool offcut = false;
    std::int64_t age = 0; ///< between offcuts otherwise alike, the greater age is used first
};

/// A kind of rectangle (or length) to cut.
struct Piece {
    std::string id;
    Measure width = 0;
    Measure height = 0; ///< 1 in a one-dimensional job
    /// Wanted number (least_cost, required) or most allowed (most_value; no value: no limit).
    std::optional<std::int64_t> count = {};
    Turn turn = Turn::none;
    Cost value = 0; ///< most_value only: what one is worth; zero or more
};

/// The least size at which a remnant is worth keeping: both sides at least these, in one of the
/// two orientations. Zero: every remnant.
struct Useful {
    Measure shorter = 0;
    Measure longer = 0;
};

struct Job {
    Goal goal = Goal::least_cost;
    bool one_dimensional = false; ///< widths are lengths, heights are all 1, cuts only across
    Measure kerf = 0;             ///< what each cut destroys, from its `at` onward
    std::vector<Stock> stock;
    std::vector<Piece> pieces;
    Useful useful = {};
    std::optional<Measure> trimmer = {}; ///< longest cut the trimmer can make
};

/// A fault in a job: the list and index of the entry and the name of its field.
struct JobProblem {
    enum class List { job, stock, pieces } list = List::job;
    std::size_t index = 0;
    std::string field;
    std::string what; ///< found and expected: "width is 0; expected a positive number"
};

/// Largest side and count accepted (limits keep every area and total inside 64 bits).
inline constexpr Measure largest_side = std::numeric_limits<std::int32_t>::max();
inline constexpr std::int64_t largest_count = 10'000'000;

/// Everything wrong with a job: zero, negative or too large sizes, negative or too large counts,
/// negative costs and margins, duplicate or empty ids, no stock or no pieces. Entries that come to
/// nothing are not wrong: a count of 0, or margins that leave nothing. Empty when the job
/// can be solved (a piece that fits no stock is not a wrong job: solve answers `infeasible`).
/// Sides are judged after the common factor of all measures is divided out.
std::vector<JobProblem> examine(const Job& job);

} // namespace barrow::layout
