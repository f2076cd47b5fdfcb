#include "design/work/desk.hpp"

#include <fmt/format.h>

#include <algorithm>

// What lies between the covers must lie on a face of the cover: a thing of the block whose sides
// are known (an envelope, as the shop has it) is held against the faces, whatever the design's own
// numbers say of it.

namespace barrow::design {
namespace {

using base::Length;

/// A side of what fills the slot; nothing when nobody knows it.
std::optional<Length> side_of(Desk& desk, const LayerSpec& layer, const char* fact) {
    try {
        return as_length(desk.names.value(layer.slot + "." + fact, layer.place.at()));
    } catch (const NotToBeHad&) {
        return std::nullopt;
    }
}

std::string size_text(Length one, Length other) {
    return fmt::format("{} x {} mm", base::mm_text(one), base::mm_text(other));
}

void check_layer(Desk& desk, const WorkedCover& cover, const LayerSpec& layer) {
    const auto shorter = side_of(desk, layer, "wide");
    const auto longer = side_of(desk, layer, "long");
    if (!shorter || !longer) return;
    const WorkedPanel* largest = nullptr;
    for (const WorkedPanel& panel : cover.panels) {
        if (panel.role != Role::face) continue;
        if (largest == nullptr || panel.width > largest->width) largest = &panel;
    }
    if (largest == nullptr) return;
    if (std::min(largest->width, cover.height) >= std::min(*shorter, *longer)
        && std::max(largest->width, cover.height) >= std::max(*shorter, *longer))
        return;
    const WorkedSlot* slot = worked_slot(desk, layer.slot);
    throw base::Error(
        base::Kind::refused,
        {{layer.place.at(),
          fmt::format(
              "the cover does not hold its {}: {} is {}, and its largest face, {}, only {}",
              layer.name, slot == nullptr || slot->material.empty() ? layer.slot : slot->material,
              size_text(*shorter, *longer), largest->name, size_text(largest->width, cover.height)),
          "make the cover larger, or take something smaller with --use"}});
}

} // namespace

void check_contents(Desk& desk) {
    if (!desk.design.block || !desk.worked.cover) return;
    for (const LayerSpec& layer : desk.design.block->layers)
        if (!layer.slot.empty())
            desk.attempt(layer.place, [&] { check_layer(desk, *desk.worked.cover, layer); });
}

} // namespace barrow::design
