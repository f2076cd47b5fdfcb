#include "design/work/desk.hpp"

#include <fmt/format.h>

#include <utility>

// Names the block gives to formulas:
//   block.<layer>    thickness of one layer: how many lie on one another, times the plies of each,
//                    times the caliper (ISO 534, single sheets lying on one another; the bulking
//                    thickness of a pack is a little less, which is the safe side)
//   block.empty      all layers but those that fill the journal later, and what is given for air
//   block.thickness  all layers
//
// An envelope is two walls; its flap is one more ply where it lies, its seams one more where two
// walls are glued together. Where flap and seam meet, in a stack of envelopes that all lie the same
// way, all four add up: that is what the usual values count. Envelopes laid with their flaps turn
// and turn about have half the flaps on either side: flap = "1/2". (Common practice, no source.)

namespace barrow::design {
namespace {

using base::Rational;

Quantity plies_of(Desk& desk, const LayerSpec& layer) {
    const auto ply = [&](const Formula& formula, std::int64_t usual) {
        return formula.empty() ? Rational(usual) : desk.number_of(formula);
    };
    if (!layer.envelope) return {Rational(1), plain};
    return {ply(layer.walls, 2) + ply(layer.flap, 1) + ply(layer.seams, 1), plain};
}

Quantity each_of(Desk& desk, const LayerSpec& layer) {
    if (layer.each.empty()) return desk.names.value(layer.slot + ".caliper", layer.place.at());
    const Quantity each = desk.names.value(layer.each);
    if (each.dimension != a_length) Desk::refuse(layer.each, each, "a length");
    return each;
}

Rational number_of(Desk& desk, const LayerSpec& layer) {
    return layer.number.empty() ? Rational(1) : desk.number_of(layer.number);
}

Quantity thickness_of(Desk& desk, const LayerSpec& layer) {
    const Rational number = number_of(desk, layer);
    if (number == Rational(0)) return {Rational(0), a_length}; // its caliper need not be known
    return {number * plies_of(desk, layer).number * each_of(desk, layer).number, a_length};
}

Quantity total(Desk& desk, const BlockSpec& block, bool filled) {
    Quantity sum{Rational(0), a_length};
    for (const LayerSpec& layer : block.layers)
        if (filled || !layer.filling)
            sum.number =
                sum.number + desk.names.value("block." + layer.name, layer.place.at()).number;
    if (!block.give.empty()) sum.number = sum.number * (Rational(1) + desk.number_of(block.give));
    return sum;
}

void explain_layer(Desk& desk, const LayerSpec& layer) {
    const Quantity value = desk.names.value("block." + layer.name, layer.place.at());
    const Rational number = number_of(desk, layer);
    std::string how = layer.number.empty() ? "1" : layer.number.text();
    std::string spelled = base::to_text(number);
    if (layer.envelope) {
        how += " x plies";
        spelled += " x " + to_text(plies_of(desk, layer));
    }
    how += " x " + (layer.each.empty() ? layer.slot + ".caliper" : layer.each.text());
    spelled +=
        " x " + (number == Rational(0) ? std::string("0 mm") : to_text(each_of(desk, layer)));
    desk.explain("block", "block." + layer.name, how, spelled, value);
}

void explain_total(Desk& desk, const BlockSpec& block, const char* name, bool filled) {
    std::string spelled;
    for (const LayerSpec& layer : block.layers)
        if (filled || !layer.filling)
            spelled += (spelled.empty() ? "" : " + ")
                       + to_text(desk.names.value("block." + layer.name, layer.place.at()));
    std::string how = filled ? "all layers" : "all layers but the filling";
    if (!block.give.empty()) {
        how += ", and the give";
        spelled = fmt::format("({}) x (1 + {})", spelled, desk.names.spelled(block.give));
    }
    desk.explain("block", name, how, spelled, total(desk, block, filled));
}

/// A base must be as wide as what it goes round. One that is too narrow for the block as it is made
/// stops the making; one that is too narrow only once the journal is filled is a warning.
void check_bases(Desk& desk, const WorkedBlock& block) {
    if (!desk.design.cover || !desk.worked.cover) return;
    const base::Length thickness = block.thickness;
    for (const WorkedPanel& panel : desk.worked.cover->panels) {
        if (panel.role != Role::base || panel.width >= thickness) continue;
        desk.warn(
            fmt::format("the panel {} is {} mm wide, but the filled block is {} mm thick: the "
                        "journal will not close. Make the panel {} mm wider, or put less in",
                        panel.name, base::mm_text(panel.width), base::mm_text(thickness),
                        base::mm_text(thickness - panel.width)),
            panel.width < block.empty ? Severity::stops : Severity::mind);
    }
}

base::Length thickness_on_grid(const Quantity& value, const Place& place) {
    const auto length = as_length(value);
    if (!length)
        throw base::bad_input(place.at(), fmt::format("comes to {}", to_text(value)),
                              "a thickness is between zero and 100 km");
    return *length;
}

} // namespace

void name_block(Desk& desk) {
    if (!desk.design.block) {
        desk.names.define("block.thickness", [](const std::string& where) -> Quantity {
            throw NotToBeHad({where, "how thick the block is is not known",
                              "say in [block] what lies between the covers"});
        });
        return;
    }
    const BlockSpec& block = *desk.design.block;
    for (const LayerSpec& layer : block.layers)
        desk.names.define("block." + layer.name, [&desk, &layer](const std::string&) {
            return thickness_of(desk, layer);
        });
    desk.names.define("block.thickness",
                      [&](const std::string&) { return total(desk, block, true); });
    desk.names.define("block.empty", [&](const std::string&) { return total(desk, block, false); });
}

void work_block(Desk& desk) {
    if (!desk.design.block) return;
    const BlockSpec& spec = *desk.design.block;
    WorkedBlock block;
    bool known = true;
    // A caliper nobody has given leaves the block unknown; only what hangs on it is refused.
    for (const LayerSpec& layer : spec.layers)
        desk.attempt(layer.place, [&] {
            known = desk.if_known([&] {
                            explain_layer(desk, layer);
                            const Quantity value =
                                desk.names.value("block." + layer.name, layer.place.at());
                            block.layers.push_back(
                                {layer.name, thickness_on_grid(value, layer.place), layer.filling});
                            return true;
                        })
                        .has_value()
                    && known;
        });
    if (!known) return;
    desk.attempt(spec.place, [&] {
        explain_total(desk, spec, "block.empty", false);
        explain_total(desk, spec, "block.thickness", true);
        block.empty = thickness_on_grid(total(desk, spec, false), spec.place);
        block.thickness = thickness_on_grid(total(desk, spec, true), spec.place);
        check_bases(desk, block);
        desk.worked.block = std::move(block);
    });
}

} // namespace barrow::design
