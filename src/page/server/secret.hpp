#pragma once

#include <string>

namespace barrow::page {

/// 128 random bits from the system, as 32 hexadecimal digits: for the address, the cookie and the
/// keys of forms. Throws base::Error (Kind::machine) when the system gives none.
std::string new_secret();

/// Whether two texts are equal, in a time that does not tell where they differ.
bool same_secret(const std::string& one, const std::string& other);

} // namespace barrow::page
