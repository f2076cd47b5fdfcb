#include "design/recipe/facts.hpp"

#include "base/text.hpp"

#include <array>
#include <utility>

namespace barrow::design {
namespace {

using base::Length;
using base::Rational;

std::optional<Quantity> length(const std::optional<Length>& value) {
    if (!value) return std::nullopt;
    return quantity_of(*value);
}

/// Measured, else from grammage and bulk: bulk = thickness / grammage (ISO 534).
std::optional<Quantity> caliper(const MaterialFacts& facts) {
    if (facts.caliper) return quantity_of(*facts.caliper);
    if (!facts.grammage || !facts.bulk) return std::nullopt;
    // g/m2 times cm3/g is cm3/m2, a thousandth of a millimetre.
    return Quantity{*facts.grammage * *facts.bulk / Rational(1'000), a_length};
}

std::optional<Quantity> grammage(const MaterialFacts& facts) {
    if (!facts.grammage) return std::nullopt;
    return Quantity{*facts.grammage / Rational(mm2_per_m2), a_grammage};
}

std::optional<Quantity> bulk(const MaterialFacts& facts) {
    if (!facts.bulk) return std::nullopt;
    return Quantity{*facts.bulk * Rational(mm3_per_ml), a_bulk};
}

std::optional<Quantity> pitch(const MaterialFacts& facts) {
    if (!facts.loops_per_inch || *facts.loops_per_inch <= Rational(0)) return std::nullopt;
    return Quantity{Rational::of(127, 5) / *facts.loops_per_inch, a_length};
}

std::optional<Quantity> spread(const MaterialFacts& facts) {
    if (!facts.spread) return std::nullopt;
    if (facts.spread_is_mass)
        return Quantity{*facts.spread / Rational(mm2_per_m2), a_spread_by_mass};
    return Quantity{*facts.spread * Rational::of(mm3_per_ml, mm2_per_m2), a_spread};
}

std::optional<Quantity> sheet_width(const MaterialFacts& facts) {
    if (!facts.sheet) return std::nullopt;
    return quantity_of(facts.sheet->width);
}

std::optional<Quantity> sheet_height(const MaterialFacts& facts) {
    if (!facts.sheet) return std::nullopt;
    return quantity_of(facts.sheet->height);
}

using Among = FactKind::Among;

const std::array<FactKind, 13>& kinds() {
    static const std::array<FactKind, 13> all = {{
        {"caliper", a_length, "its thickness: measure ten together and divide", "0.42 mm",
         "--caliper 0.42mm", caliper, Among::most},
        {"grammage", a_grammage, "its weight in g/m2", "310 g/m2", "--grammage 310", grammage,
         Among::most},
        {"bulk", a_bulk, "its bulk in cm3/g", "1.3 cm3/g", "--bulk 1.3", bulk, Among::most},
        {"pitch", a_length, "from one loop to the next", "1in / 2", "--pitch 2:1", pitch,
         Among::most},
        {"diameter", a_length, "its size across", "5/8in", "--diameter 5/8in",
         [](const MaterialFacts& facts) { return length(facts.diameter); }, Among::least},
        {"wide", a_length, "its shorter side", "9 cm", "--width 9cm",
         [](const MaterialFacts& facts) { return length(facts.short_side); }, Among::most},
        {"long", a_length, "its longer side", "16.5 cm", "--height 16.5cm",
         [](const MaterialFacts& facts) { return length(facts.long_side); }, Among::most},
        {"flap", a_length, "the depth of its flap", "3 cm", "--flap 3cm",
         [](const MaterialFacts& facts) { return length(facts.flap); }, Among::most},
        {"width", a_length, "how wide it is", "10 mm", "--width 10mm",
         [](const MaterialFacts& facts) { return length(facts.width); }, Among::least},
        {"repeat", a_length, "after which its pattern begins again", "60 mm", "--repeat 60mm",
         [](const MaterialFacts& facts) { return length(facts.repeat); }, Among::most},
        {"spread", a_spread, "how much of it a square metre takes", "70 ml/m2", "--spread 70",
         spread, Among::most},
        {"sheet_width", a_length, "the width of a sheet of it", "12in", "--width 12in", sheet_width,
         Among::least},
        {"sheet_height", a_length, "the height of a sheet of it", "12in", "--height 12in",
         sheet_height, Among::least},
    }};
    return all;
}

} // namespace

std::span<const FactKind> fact_kinds() {
    return kinds();
}

const FactKind* find_fact(std::string_view name) {
    for (const FactKind& kind : kinds())
        if (kind.name == name) return &kind;
    return nullptr;
}

void Facts::add(const std::string& code, MaterialFacts facts) {
    by_lowered_code_[base::lowered(code)] = {code, std::move(facts)};
}

const MaterialFacts* Facts::of(const std::string& code) const {
    const auto found = by_lowered_code_.find(base::lowered(code));
    return found == by_lowered_code_.end() ? nullptr : &found->second.facts;
}

std::vector<std::string> Facts::in_collection(const std::string& collection) const {
    std::vector<std::string> codes;
    for (const auto& [lowered, entry] : by_lowered_code_)
        if (!collection.empty()
            && base::lowered(entry.facts.collection) == base::lowered(collection))
            codes.push_back(entry.code);
    return codes;
}

} // namespace barrow::design
