#pragma once

#include "design/formula/formula.hpp"
#include "design/recipe/facts.hpp"
#include "design/recipe/warning.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

/// A recipe for a journal, read but not yet worked out: what a design file says, table by table.
/// Formulas that were not given are empty.
namespace barrow::design {

struct BindingKind;

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

/// What a panel of the cover does once the cover is folded round its journal.
enum class Role {
    face, ///< lies flat against the block: front, back
    base, ///< stands at the side of the block, as wide as the block is thick
    flap, ///< folds over a face and closes the journal
};

/// One panel of the cover board, from left to right as it lies flat, outside up.
struct Panel {
    std::string name;
    Formula width;
    Role role = Role::face;
    Formula fold;          ///< allowance of the fold behind this panel; empty: the cover's
    bool fold_out = false; ///< that fold closes towards the outside (a concertina), not the inside
    Place place;
};

/// The cover board: panels side by side, a fold between each two. See cover/work_cover.hpp for
/// the names it gives to formulas.
struct CoverSpec {
    Formula height;
    Formula fold;      ///< board each fold takes up; empty: nothing
    std::string board; ///< slot of the board; may be empty
    std::vector<Panel> panels;
    Place place;
};

/// One kind of thing that lies between the covers, for the thickness of the block.
struct LayerSpec {
    std::string name;
    std::string slot;      ///< whose caliper counts; empty when `each` says the thickness
    Formula number;        ///< how many lie on one another; empty: 1
    Formula each;          ///< thickness of one, in place of a caliper
    bool envelope = false; ///< made of walls, flap and seams
    Formula walls;         ///< of an envelope: plies one over the other; empty: 2
    Formula flap;          ///< of an envelope: plies the flap adds where it lies; empty: 1
    Formula seams;         ///< of an envelope: plies its seams add where they lie; empty: 1
    bool filling = false;  ///< only there once the journal is filled (photographs)
    Place place;
};

/// What lies between the covers.
struct BlockSpec {
    std::vector<LayerSpec> layers;
    Formula give; ///< share added for air and handling: "10 %"; empty: nothing
    Place place;
};

/// How the block is held together. `names` are what the kind of binding asks for and what follows
/// from it, under the names that formulas use (binding.edge, binding.loops, ...).
struct BindingSpec {
    const BindingKind* kind = nullptr;
    std::map<std::string, std::string> slots; ///< key of the kind ("material") to slot
    std::map<std::string, Formula> given;     ///< keys that the design gives itself
    std::string panel; ///< of the cover, which the holes or stations go through; may be empty
    Place place;
};

/// How far the paper of a slot must be the same.
enum class Same {
    piece,   ///< each piece may be of another paper
    journal, ///< one paper for all its pieces in a journal
    run,     ///< one paper for the whole run
};

/// What the design calls a material, and what fills it: one material, or any of several.
struct SlotSpec {
    std::string name;
    std::string code;                ///< the shop's material that usually fills it; may be empty
    std::string collection;          ///< any paper of this collection
    std::vector<std::string> any_of; ///< any of these codes
    Same same = Same::journal;
    std::vector<std::string> differs_from; ///< slots that must have another paper in a journal
    std::string reverse_of;                ///< slot whose paper this is, the other face showing
    bool offcuts_only = false;             ///< never a fresh sheet
    std::map<std::string, Formula> stated; ///< facts the design takes it to have: caliper, wide
    std::string about;
    Place place;
};

/// A glue or a tape, and how it goes on.
struct AdhesiveSpec {
    std::string name;
    std::string slot;
    Formula spread; ///< of glue: ml/m2 or g/m2; empty: the material's own
    Formula edge;   ///< of glue: how wide the strip along a glued edge is
    Formula width;  ///< of tape; empty: the material's own
    bool tape = false;
    Place place;
};

/// Where on a part an adhesive goes.
enum class Glued { area, left, right, top, bottom, overlap };

struct GlueSpec {
    std::string adhesive;
    std::vector<Glued> where;
    Place place;
};

/// Where a piece may be made of two.
struct JoinSpec {
    enum class Where { nowhere, folds, named_folds, anywhere } where = Where::nowhere;
    std::vector<std::string> folds;    ///< "front/base": the fold between two panels
    std::vector<std::string> never_on; ///< panels on whose face no join may show
    Formula overlap;
    Formula least_piece; ///< narrowest piece
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
    JoinSpec join;
    Formula from; ///< where the part's left edge lies on the cover; empty means 0
    std::vector<GlueSpec> glue;
    /// Of a filler: what one is worth, in the shop's currency, for choosing among fillers.
    std::optional<base::Rational> worth;
    std::string about;
    Place place;
};

/// Work of the hands.
struct Operation {
    std::string name;
    Formula minutes;
    bool per_batch = false; ///< once for the whole run, not for each journal
    Place place;
};

/// Something a maker wants to be warned of.
struct CheckSpec {
    Formula holds;   ///< a condition
    std::string say; ///< the warning; names in braces are replaced: "{cover.base}"
    Severity severity = Severity::mind;
    Place place;
};

struct Design {
    std::string code; ///< of a variant: "quayside.large"
    std::string name;
    std::string about;
    std::string builds_on; ///< code of the design this one changes; empty: none
    std::vector<Parameter> parameters;
    std::vector<Definition> definitions;
    std::optional<CoverSpec> cover;
    std::optional<BlockSpec> block;
    std::optional<BindingSpec> binding;
    std::vector<SlotSpec> slots;
    std::vector<AdhesiveSpec> adhesives;
    std::vector<PartSpec> parts;
    std::vector<PartSpec> fillers; ///< optional parts, cut only from what is left over
    std::vector<Operation> operations;
    std::vector<CheckSpec> checks;
    std::string variant;          ///< of a variant: its name in the family ("large")
    std::string own_code;         ///< of a variant: a second code of its own, if it has one
    std::vector<Design> variants; ///< of a family: each whole, with its changes made
    std::string file;             ///< as named when it was read, for messages
};

} // namespace barrow::design
