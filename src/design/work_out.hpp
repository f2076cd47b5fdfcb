#pragma once

#include "design/design.hpp"

#include <map>
#include <string>
#include <vector>

namespace barrow::design {

/// What a maker changes for one run: `--set name=value` and `--use slot=CODE`.
struct Changes {
    std::map<std::string, std::string> parameters; ///< value as formula text without names
    std::map<std::string, std::string> materials;  ///< slot name to material code
};

/// A panel with its numbers: from `start` to `start + width` along the cover.
struct WorkedPanel {
    std::string name;
    base::Length start;
    base::Length width;
};

struct WorkedCover {
    base::Length length;
    base::Length height;
    std::vector<WorkedPanel> panels;
    /// Measures of the folds (score lines) from the left edge, in order.
    std::vector<base::Length> folds;
};

/// A part with its numbers, for one journal.
struct WorkedPart {
    std::string name;
    std::string slot;
    std::string material; ///< code
    Take take = Take::count;
    std::int64_t number = 1;
    base::Length width;
    base::Length height;
    base::Length length;
    std::int64_t loops = 0;
    base::Rational amount; ///< ml or g
    bool amount_is_mass = false;
    std::optional<Turn> turn;
    std::optional<Grain> grain;
    std::vector<base::Length> joins; ///< where it may be divided, from its own left edge
    base::Length overlap;
};

/// How a number came about, for a maker who asks: "cover.length = 20 mm + 165 mm + ... = 372 mm".
struct Explanation {
    std::string name;
    std::string formula;
    std::string spelled; ///< with values in place of names
    std::string value;
};

/// A design with every number known.
struct Worked {
    std::string code;
    std::string name;
    std::vector<Explanation> explanations; ///< parameters, definitions, cover, in order
    std::optional<WorkedCover> cover;
    std::vector<WorkedPart> parts; ///< those with a number above zero
    base::Rational minutes_per_journal;
    base::Rational minutes_per_batch;
};

/// Works every formula out. Throws base::Error (Kind::bad_input) naming line and column for:
/// a name that is not defined (with the nearest), names that need each other in a circle (the
/// circle is spelled out), dimensions that do not fit what a key wants, counts that are not whole
/// or below zero, sizes of zero, parameters outside their limits; and for changes that name no
/// parameter or slot of the design.
Worked work_out(const Design& design, const Changes& changes = {});

} // namespace barrow::design
