#pragma once

#include "workshop/selling/fairs.hpp"

#include <string>

namespace barrow::print {

/// A fair for a person: what was taken along and sold, what it brought, what it cost.
std::string screen(const workshop::FairView& fair);
/// Fairs, a line each.
std::string screen(const workshop::Fairs& fairs);

/// The same as JSON documents: "fair" and "fairs".
std::string document(const workshop::FairView& fair);
std::string document(const workshop::Fairs& fairs);

/// As CSV: the journals of a fair, and fairs with their sums.
std::string csv(const workshop::FairView& fair);
std::string csv(const workshop::Fairs& fairs);

} // namespace barrow::print
