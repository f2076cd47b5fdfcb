#pragma once

#include "design/formula.hpp"

#include <optional>
#include <string>
#include <vector>

namespace barrow::design {

/// How a piece may be turned against the sheet it is cut from.
enum class Turn { none, half, quarter };

/// Which side of a piece the grain of its paper or board must run along.
enum class Grain { width, height };

/// A named number a maker may change when she costs or makes the design.
struct Parameter {
    std::string name;
    Quantity usual; ///< the value when she says nothing
    std::string about;
    std::optional<Quantity> least;
    std::optional<Quantity> most;
    bool whole = false; ///< only whole numbers make sense (a count)
    Place place;
};

/// A name for a formula over the parameters and other names.
struct Definition {
    std::string name;
    Formula formula;
};

/// One panel of the cover board, from left to right as it lies flat, outside up.
struct Panel {
    std::string name;
    Formula width;
};

/// The cover board: panels side by side, a fold between each two. Gives the formulas the names
/// cover.length (sum of the panels), cover.height and cover.<panel>.
struct CoverSpec {
    Formula height;
    std::vector<Panel> panels;
};

/// What the design calls a material, and the code of the shop's material that usually fills it.
struct Slot {
    std::string name;
    std::string code;
    std::string about;
    Place place;
};

/// How a part uses its material up.
enum class Take {
    piece,  ///< a rectangle cut from a sheet: width and height
    length, ///< a length of ribbon or cord: length
    loops,  ///< binding wire: loops
    count,  ///< so many of a counted thing: number alone
    spread, ///< glue or ink: amount, in ml or g
};

struct PartSpec {
    std::string name;
    std::string slot;
    Take take = Take::count;
    Formula number; ///< how many in one journal; empty means 1
    Formula width;
    Formula height;
    Formula length;
    Formula loops;
    Formula amount;
    std::optional<Turn> turn;   ///< nothing said: as the pattern of the material allows
    std::optional<Grain> grain; ///< nothing said: the grain does not matter
    bool join_at_folds = false; ///< may be made of pieces that meet at folds of the cover
    Formula overlap;            ///< how far joined pieces overlap
    Formula from;               ///< where the part's left edge lies on the cover; empty means 0
    std::string about;
    Place place;
};

/// Work of the hands.
struct Operation {
    std::string name;
    Formula minutes;
    bool per_batch = false; ///< once for the whole run, not for each journal
};

/// A recipe for a journal, read but not yet worked out.
struct Design {
    std::string code;
    std::string name;
    std::string about;
    std::vector<Parameter> parameters;
    std::vector<Definition> definitions;
    std::optional<CoverSpec> cover;
    std::vector<Slot> slots;
    std::vector<PartSpec> parts;
    std::vector<Operation> operations;
    std::string file; ///< as named when it was read, for messages
};

} // namespace barrow::design
