#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>

/// Design texts that come with the program. A base is a whole design to begin one's own from; a
/// calculator is a design made only to be worked out, which needs neither a shop nor materials.
/// All are ordinary design files (design-file.md), so that whatever a design can do they can.
namespace barrow::design {

struct ReadyDesign {
    std::string_view name;
    std::string_view about; ///< one line for people
    std::string_view text;
};

/// wire, ribbon, sewn, case, pamphlet, rings, cloth, square.
std::span<const ReadyDesign> ready_bases();

/// cover, thickness, wire, ribbon, sewn, rings, paper, pounds, envelope.
std::span<const ReadyDesign> calculators();

/// The one of that name; null when there is none.
const ReadyDesign* find_ready(std::span<const ReadyDesign> among, std::string_view name);

/// The text of a base as a design of one's own: with another code and name, and other usual values
/// for some of its parameters, and `materials` (codes) in some of its slots; everything else,
/// comments too, stays as it is. Throws base::Error (Kind::bad_input) for a code or name that
/// cannot be one, for a parameter or slot the base does not have (with the nearest) and for a value
/// that does not fit.
std::string own_design(const ReadyDesign& base, const std::string& code, const std::string& name,
                       const std::map<std::string, std::string>& usual = {},
                       const std::map<std::string, std::string>& materials = {});

} // namespace barrow::design
