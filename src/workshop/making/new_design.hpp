#pragma once

#include "design/work/work_out.hpp"
#include "store/stock/catalogue.hpp"
#include "workshop/making/designs.hpp"

#include <map>
#include <string>
#include <vector>

namespace barrow::workshop {

/// A design to be begun from a base (design/ready.hpp).
struct NewDesign {
    std::string base;
    std::string code;
    std::string name;
    std::map<std::string, std::string> usual;     ///< parameter to its usual value
    std::map<std::string, std::string> materials; ///< slot to a material's code
};

/// The text of a new design; see design::own_design.
std::string text_of(const NewDesign& wanted);

/// A slot of a new design that nobody has filled yet.
struct OpenSlot {
    std::string name;
    std::string about;
    std::string need; ///< how much and of what size one journal needs: "1 x 401.6 x 195 mm"
    std::vector<store::Material> fitting; ///< materials of the shop that would do, by code
};

/// The slots that `wanted` leaves open, each with what of the shop fits it: the form that its parts
/// use up, and, for pieces, sheets they can be cut from, joined at folds where the base allows.
/// Throws base::Error as own_design; Kind::bad_input for a code the shop does not have, with the
/// nearest.
std::vector<OpenSlot> open_slots(store::Database& database, const NewDesign& wanted);

/// Why a base of the cover is as wide as it is, for each panel that stands beside the block:
/// "base 30 mm = max(base, base_for_block) = max(30 mm, 18 mm)".
std::vector<std::string> bases_explained(const design::Worked& worked);

} // namespace barrow::workshop
