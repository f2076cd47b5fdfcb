#pragma once

#include "book/shop.hpp"

namespace barrow::test {

/// A shop with a wage, overheads and a margin, supplies with a grain, a trimmed edge, a hazard and
/// a reorder level, and a design "sail" in which every form of material has a part.
void keep_stall(Shop& shop);

/// A design "letter" with fillers of paper and ribbon besides, of which its parts leave little
/// over.
void keep_fillers(Shop& shop);

/// The options with which the shop is made.
std::vector<std::string> stall_options();

} // namespace barrow::test
