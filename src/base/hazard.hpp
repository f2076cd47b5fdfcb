#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::base {

/// What can hurt someone who works with a material. Each has a short caution; these are the usual
/// ones, no legal advice: the label of the product and local rules come first.
enum class Hazard {
    blade,       ///< anything cut with a knife, scalpel or trimmer
    solvent,     ///< alcohol inks, blending solutions: flammable vapour
    spray,       ///< spray adhesive or sealant: a pressurised can
    small_parts, ///< beads, brads, charms: choking
    magnet,      ///< loose magnets: swallowed ones injure
    wire_ends,   ///< cut ends of binding wire
    cord,        ///< long ribbon or cord: loops and young children
};

/// "blade", "solvent", "spray", "small-parts", "magnet", "wire-ends", "cord".
std::string_view name_of(Hazard hazard);
std::optional<Hazard> read_hazard(std::string_view text);
std::vector<std::string> hazard_names();

/// One or two sentences for the bench.
std::string_view caution(Hazard hazard);

} // namespace barrow::base
