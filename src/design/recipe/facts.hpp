#pragma once

#include "base/length.hpp"
#include "base/rational.hpp"
#include "design/formula/quantity.hpp"
#include "design/recipe/turning.hpp"

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::design {

/// A fresh sheet of a material, inside what is trimmed off, and how it may be laid.
struct SheetFacts {
    base::Length width;
    base::Length height;
    std::optional<Grain> grain; ///< side the grain runs along, where it is known
    Turn turn = Turn::quarter;  ///< how far its pattern lets a piece be turned
};

/// What a material is, as far as anyone has said: nothing given is unknown, never zero.
struct MaterialFacts {
    std::string collection; ///< the papers it goes with; empty: none
    /// Thickness of one sheet (ISO 534, single-sheet thickness); of an envelope, its paper; of a
    /// button, bead or tag, the thing itself.
    std::optional<base::Length> caliper;
    std::optional<base::Rational> grammage;       ///< g/m2 (ISO 536)
    std::optional<base::Rational> bulk;           ///< cm3/g: with the grammage it gives a caliper
    std::optional<bool> two_faced;                ///< patterned on both sides
    std::optional<base::Length> repeat;           ///< after which its pattern begins again
    std::optional<base::Rational> loops_per_inch; ///< of binding wire: 3 for 3:1, 2 for 2:1
    std::optional<base::Length> diameter;         ///< of wire or rings, across
    std::optional<base::Length> short_side;       ///< of an envelope
    std::optional<base::Length> long_side;        ///< of an envelope
    std::optional<base::Length> flap;             ///< depth of an envelope's flap
    std::optional<base::Length> width;            ///< of ribbon or tape
    std::optional<base::Rational> spread;         ///< of glue: ml or g on a square metre
    bool spread_is_mass = false;                  ///< the spread is in grams
    std::optional<SheetFacts> sheet;
};

/// A fact that formulas may use behind the name of a slot: `board.caliper`, `wire.pitch`.
struct FactKind {
    std::string_view name;
    Dimension dimension;
    std::string_view about;   ///< for messages: "its thickness, measured"
    std::string_view example; ///< in a design: "0.42 mm"
    std::string_view
        in_shop; ///< how to tell the shop: "--caliper 0.42mm"; empty: it cannot be told
    /// The fact out of what is known; nothing when it is not.
    std::optional<Quantity> (*of)(const MaterialFacts& facts);
    /// Which of several papers counts where any of a collection may be taken.
    enum class Among { most, least } among = Among::most;
};

/// caliper grammage bulk pitch diameter wide long flap width repeat spread sheet_width
/// sheet_height.
std::span<const FactKind> fact_kinds();
const FactKind* find_fact(std::string_view name);

/// What is known of the shop's materials. Codes are found whatever their case.
class Facts {
public:
    void add(const std::string& code, MaterialFacts facts);

    /// Nothing when the material is not known at all.
    const MaterialFacts* of(const std::string& code) const;
    /// Codes of the papers (materials with a sheet) of a collection, in the order of their codes.
    std::vector<std::string> in_collection(const std::string& collection) const;

private:
    struct Entry {
        std::string code;
        MaterialFacts facts;
    };
    std::map<std::string, Entry> by_lowered_code_;
};

} // namespace barrow::design
