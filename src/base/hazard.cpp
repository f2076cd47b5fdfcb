#include "base/hazard.hpp"

#include "base/error.hpp"

#include <array>

namespace barrow::base {
namespace {

struct Entry {
    Hazard hazard;
    std::string_view name;
    std::string_view caution;
};

// Wording follows, in our own short form: NSEAD guidance on cutting tools (blade); the NIOSH
// Pocket Guide on isopropyl and ethyl alcohol (solvent); 16 CFR 1500.130 (spray); 16 CFR 1501
// (small parts); 16 CFR 1262 (magnet). Wire ends and cords: common practice, no source.
constexpr std::array<Entry, 7> entries = {{
    {Hazard::blade, "blade",
     "Blades: cut on a mat along a safety ruler, holding hand behind the blade; a sharp blade "
     "needs less force."},
    {Hazard::solvent, "solvent",
     "Solvent ink: flammable. Keep from flame and sparks, air the room, keep off eyes and skin "
     "and out of reach of children."},
    {Hazard::spray, "spray",
     "Spray can: under pressure. Do not puncture, burn or heat it; no flame or spark; spray with "
     "fresh air and out of reach of children."},
    {Hazard::small_parts, "small-parts",
     "Small parts: choking hazard, not for children under 3. Say so on the stall."},
    {Hazard::magnet, "magnet",
     "Magnets: swallowed magnets cause serious injury. Fix them for good and keep loose ones from "
     "children."},
    {Hazard::wire_ends, "wire-ends",
     "Wire: cut ends are sharp. Turn them to the inside of the cover."},
    {Hazard::cord, "cord", "Long ribbon and cord: keep loops away from young children."},
}};

const Entry& entry_of(Hazard hazard) {
    for (const Entry& entry : entries)
        if (entry.hazard == hazard) return entry;
    throw broken("a hazard without a caution");
}

} // namespace

std::string_view name_of(Hazard hazard) {
    return entry_of(hazard).name;
}

std::string_view caution(Hazard hazard) {
    return entry_of(hazard).caution;
}

std::optional<Hazard> read_hazard(std::string_view text) {
    for (const Entry& entry : entries)
        if (entry.name == text) return entry.hazard;
    return std::nullopt;
}

std::vector<std::string> hazard_names() {
    std::vector<std::string> names;
    names.reserve(entries.size());
    for (const Entry& entry : entries) names.emplace_back(entry.name);
    return names;
}

} // namespace barrow::base
