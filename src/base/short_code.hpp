#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace barrow::base {

/// Short codes for labels: easy to read aloud, hard to mistake.
///
/// The 31 signs are the digits 2-9 and the capitals without I, L and O, so nothing can be taken
/// for 0/O or 1/I/L. A code is the number in base 31 (at least two signs) followed by a dash and
/// one check sign, the weighted sum 2*d1 + 3*d2 + ... modulo 31 counted from the right. 31 is
/// prime and no two neighbouring weights are equal or multiples of 31, so every single wrong sign
/// and every swap of two different neighbours (the check sign among them) is caught for codes of
/// up to 28 signs. Numbers are shuffled by a fixed bijection within each length, so that codes
/// written one after the other do not look alike.
std::string short_code(std::int64_t number);

/// The number behind a code as a person may type it: any case, the dash optional, spaces ignored.
/// Nothing when a sign is not of the 31 or the check sign does not fit.
std::optional<std::int64_t> read_short_code(std::string_view text);

} // namespace barrow::base
