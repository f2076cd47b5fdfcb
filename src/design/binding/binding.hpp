#pragma once

#include "design/recipe/warning.hpp"

#include <span>
#include <string_view>
#include <vector>

/// A kind of binding is data: the keys its table in a design file takes, the names that follow
/// from them as formulas, and what it puts on the bench. So everything a binding says is worked
/// out, checked and explained by the same machinery as the formulas of a design.
///
/// To add a kind: write binding/<kind>.cpp with one function that gives its BindingKind, as
/// rings.cpp does; declare it below; name it in kinds.cpp and in CMakeLists.txt. Nothing else in
/// the program lists the kinds.
namespace barrow::design {

/// A key of [binding] that holds a formula, or the name of a slot.
struct BindingKey {
    enum class Is { formula, slot } is = Is::formula;
    std::string_view name;
    /// Formula when the key is not given; $material (and any other key that names a slot) stands
    /// for the slot given. Empty: see `needed`.
    std::string_view otherwise = {};
    std::string_view about;
    bool needed = false; ///< must be given; without it and without `otherwise` it is simply absent
    /// May hang on what nobody knows (a fact of the material): then it, and all that needs it, is
    /// left out and named as not known.
    bool if_known = false;
    bool whole = false; ///< only a whole number above zero makes sense
};

/// A name that follows: binding.<name>.
struct BindingName {
    std::string_view name;
    std::string_view formula; ///< over binding.<key>, binding.<name> and $slot.fact
    std::string_view about;
    bool if_known = false;
};

/// Holes or stations in a row along the bound edge.
struct BindingRow {
    std::string_view mark;   ///< "hole", "station"
    std::string_view number; ///< the names that hold how many, the first from the end of the edge,
    std::string_view first;  ///< and the distance of one from the next
    std::string_view step;
    std::string_view edge;      ///< the length of the edge
    std::string_view setback;   ///< how far in from the edge their middle is; empty: in the fold
    std::string_view hole;      ///< width of a hole; empty: a needle's
    std::string_view rows = {}; ///< how many rows side by side on the panel; empty: one
};

/// A part the binding adds unless the design lists one of that slot itself.
struct BindingPart {
    std::string_view name;
    std::string_view slot_key; ///< "material"
    std::string_view number;   ///< formulas; empty where they do not apply
    std::string_view length;
    std::string_view loops;
};

/// A warning, given unless the condition holds (or hangs on what is not known).
struct BindingCheck {
    std::string_view holds;
    std::string_view say;   ///< names in braces are replaced by their values
    bool for_panel = false; ///< only when the design names a panel; $panel stands for it
    Severity severity = Severity::mind;
};

struct BindingKind {
    std::string_view name;  ///< as written in kind = "..."
    std::string_view about; ///< one line for people
    std::vector<BindingKey> keys;
    std::vector<BindingName> names; ///< each only on keys and names that may come in any order
    std::vector<BindingRow> row;    ///< none or one
    std::vector<BindingPart> parts;
    std::vector<BindingCheck> checks;
    std::vector<std::string_view> notes; ///< for the bench; names in braces are replaced
};

/// One function for each kind, in a file of its own.
const BindingKind& wire_binding();
const BindingKind& ribbon_binding();
const BindingKind& sewn_binding();
const BindingKind& rings_binding();

/// All kinds, in the order in which they are offered.
std::span<const BindingKind* const> binding_kinds();

/// The kind of that name; null when there is none.
const BindingKind* find_binding(std::string_view name);

} // namespace barrow::design
