#pragma once

#include "design/recipe/design.hpp"

#include <cstdint>
#include <map>
#include <optional>
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
    Role role = Role::face;
};

/// A score line, in the order to score: those of folds that close inwards from the left to the
/// right, then, the board turned over head to tail so that its left edge stays at the stop, those
/// of folds that close outwards.
struct Score {
    base::Length from_left;
    base::Length from_right;
    base::Length allowance; ///< board the fold takes up, half on each side of the score
    bool fold_out = false;
    std::string left; ///< panels it stands between
    std::string right;
};

struct WorkedCover {
    base::Length length; ///< of the board to cut: panels and what the folds take up
    base::Length height;
    std::vector<WorkedPanel> panels;
    /// Measures of the folds (score lines) from the left edge, in order.
    std::vector<base::Length> folds;
    std::vector<Score> scores; ///< the same folds, in the order to score
    base::Length finished;     ///< panels alone: what the cover measures along its faces, folded
    base::Length open;         ///< lying open with its flaps turned in: faces and bases
    std::optional<base::Length> closed_width;     ///< known when the board's caliper is
    std::optional<base::Length> closed_thickness; ///< known when there is a base or a block too
};

/// One layer of the block with its thickness.
struct WorkedLayer {
    std::string name;
    base::Length thickness;
    bool filling = false;
};

struct WorkedBlock {
    std::vector<WorkedLayer> layers;
    base::Length empty;     ///< without what fills the journal later
    base::Length thickness; ///< filled
};

/// A number of a binding, under the name that formulas use for it.
struct BindingNumber {
    std::string name; ///< "loops"
    std::string about;
    Quantity value;
};

struct WorkedBinding {
    std::string kind;
    std::vector<BindingNumber> numbers;  ///< those that are known, in order
    std::string mark;                    ///< what the marks are: "hole", "station"; empty: none
    std::vector<base::Length> marks;     ///< from the end of the edge to the middle of each
    base::Length edge;                   ///< the edge the marks are along
    std::optional<base::Length> setback; ///< from the edge to the middle of a hole; none: in a fold
    std::optional<base::Length> hole;    ///< width of a hole; none: a needle's
    std::string panel;                   ///< of the cover they go through; empty: not the cover
    /// Where on the cover the rows of marks are, from its left edge: one, or one for each section.
    std::vector<base::Length> panel_rows;
    base::Length panel_y;           ///< where on the cover the edge begins, from below
    std::vector<std::string> notes; ///< for the bench
};

/// What fills a slot. The choice is between:
///   `material` alone      that material: usual, or chosen with --use (`pinned`);
///   `any_of`              any of these codes, `material` empty;
///   `collection`          any sheet material of that collection, `material` empty;
///   `reverse_of`          the very paper that fills the other slot, the other face up (`material`
///   is
///                         then the other's, if that is settled). The paper must have two faces,
///                         and a piece is cut from the same kind of sheet, turned over.
/// Slots are told apart by name: parts of one slot share its choice as far as `same` says.
struct WorkedSlot {
    std::string name;
    std::string material;            ///< code; empty: to be chosen
    std::string collection;          ///< any paper of this collection
    std::vector<std::string> any_of; ///< any of these codes
    /// Whether all pieces of the slot in one journal, or in the whole run, must be of one paper.
    Same same = Same::journal;
    /// Slots that must have another paper in the same journal. Holds both ways, though only one of
    /// the two may name the other. With Same::piece: no paper of this slot may be one of theirs.
    std::vector<std::string> differs_from;
    std::string reverse_of;    ///< slot whose paper this is, its other face showing
    bool pinned = false;       ///< chosen by the maker with --use
    bool offcuts_only = false; ///< never a fresh sheet, a fresh roll or a fresh strip
};

/// A stretch of a part, from its own left edge.
struct Span {
    base::Length from;
    base::Length to;
    std::string panel;
};

/// Where a part may be made of several pieces, side by side along its width. With joins at
/// j1 < j2 < ..., piece k lies from its join (or 0) to the next join plus `overlap`, under its
/// right neighbour; the last ends at the part's width, without an overlap. The pattern keeps its
/// direction: all pieces of a part are turned the same way. A join must be
///   - one of `at`, or, where `anywhere`, any position strictly inside the part;
///   - strictly inside no span of `never` (on its border is allowed: that is a fold);
///   - such that each piece, its overlap left out, is at least `least_piece` wide.
struct WorkedJoins {
    bool anywhere = false;
    /// When not anywhere: positions from its own left edge, ascending, none of them forbidden by
    /// `never`.
    std::vector<base::Length> at;
    std::vector<Span> never; ///< faces no join may show on
    base::Length overlap;
    base::Length least_piece; ///< narrowest piece, overlap left out; zero: no bound
    bool allowed() const { return anywhere || !at.empty(); }
};

/// A part with its numbers, for one journal. Only the measures that `take` names are set:
/// piece: width x height, turn, grain, joining; length: length; loops: loops; spread: amount;
/// count: number alone. `number` is how many of them there are in one journal, at least 1.
struct WorkedPart {
    std::string name;
    std::string slot;
    std::string material; ///< code; empty: the slot says what it may be
    Take take = Take::count;
    std::int64_t number = 1;
    base::Length width;
    base::Length height;
    base::Length length;
    std::int64_t loops = 0;
    base::Rational amount; ///< ml or g, of each
    bool amount_is_mass = false;
    std::optional<Turn> turn; ///< nothing: as the pattern of the material allows
    std::optional<Grain>
        grain; ///< nothing: does not matter, or cannot be had (then a warning says so)
    WorkedJoins joining;
    /// Set for a filler: what one is worth in the shop's currency (not minor units).
    std::optional<base::Rational> worth;
    std::string about;
};

/// Glue or tape on top of what is in `parts`, since it is only known once things are laid out how
/// often it is needed: for each join of a part, or for each filler that is cut.
struct ExtraGlue {
    enum class For { join, filler } what = For::join;
    std::size_t part = 0; ///< index into Worked::parts (join) or Worked::fillers (filler)
    std::string slot;
    std::string material;
    Take take = Take::spread; ///< spread: amount; length: length
    base::Rational amount;    ///< ml or g for one join or one filler, of one part in one journal
    bool amount_is_mass = false;
    base::Length length; ///< of tape for one join or one filler
};

/// How a number came about, for a maker who asks: "cover.length = 20 mm + 165 mm + ... = 372 mm".
struct Explanation {
    std::string name;
    std::string formula;
    std::string spelled; ///< with values in place of names
    std::string value;
    std::string group; ///< "parameter", "let", "material", "cover", "block", "binding", "part"
};

/// A design with every number known.
struct Worked {
    std::string code;
    std::string name;
    std::vector<Explanation> explanations; ///< in the order of the groups above
    std::optional<WorkedCover> cover;
    /// What the design lists, then what its binding and its adhesives add; those with a number
    /// above zero.
    std::vector<WorkedPart> parts;
    base::Rational minutes_per_journal;
    base::Rational minutes_per_batch;
    std::vector<WorkedSlot> slots; ///< every slot, in the order of the file
    /// Optional parts: `number` is how many are wanted in a journal at most, each `worth` so much.
    /// Pieces or lengths, never joined; to be cut from offcuts and from what the parts leave, never
    /// from a sheet that would not be cut otherwise.
    std::vector<WorkedPart> fillers;
    std::vector<ExtraGlue> extra_glue; ///< on top of `parts`, for joins and fillers there are
    std::optional<WorkedBlock> block;
    std::optional<WorkedBinding> binding;
    std::vector<Warning> warnings; ///< what will not work at the bench as it stands; each once
    std::vector<std::string>
        not_known; ///< what was left out for want of a fact, and how to give it
};

/// Works every formula out with what is known of the materials. Throws base::Error
/// (Kind::bad_input) with every problem that can be told, naming line and column for: a name that
/// is not defined (with the nearest), names that need each other in a circle (the circle is spelled
/// out), dimensions that do not fit what a key wants, facts of materials that a formula needs and
/// nobody has given (and how to give them), counts that are not whole or below zero, sizes of zero,
/// parameters outside their limits; and for changes that name no parameter or slot of the design.
/// Kind::refused when all that is wrong is a piece that no sheet holds and that has no fold to be
/// joined at, or something of the block that no face of the cover holds (each checked only where
/// the sizes are known).
Worked work_out(const Design& design, const Changes& changes = {}, const Facts& facts = {});

} // namespace barrow::design
