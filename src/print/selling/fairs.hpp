#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/selling/fairs.hpp"

#include <string>

namespace barrow::print {

/// A fair: the journals taken along and sold, the takings, what it cost.
Blocks blocks(const workshop::FairView& fair);
std::string screen(const workshop::FairView& fair);
/// JSON: "fair".
std::string document(const workshop::FairView& fair);
/// A row for each journal of the fair.
std::string csv(const workshop::FairView& fair);

/// Fairs, a line each.
Blocks blocks(const workshop::Fairs& fairs);
std::string screen(const workshop::Fairs& fairs);
/// JSON: "fairs".
std::string document(const workshop::Fairs& fairs);
/// A row for each fair, with its sums.
std::string csv(const workshop::Fairs& fairs);

} // namespace barrow::print
