#include "page/server/secret.hpp"

#include "base/error.hpp"

#include <fmt/format.h>

#include <array>

#include <sys/random.h>

namespace barrow::page {

std::string new_secret() {
    std::array<unsigned char, 16> bytes{};
    if (getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
        throw base::Error(base::Kind::machine, "the system gives no random numbers");
    std::string text;
    for (const unsigned char byte : bytes) text += fmt::format("{:02x}", byte);
    return text;
}

bool same_secret(const std::string& one, const std::string& other) {
    if (one.size() != other.size()) return false;
    unsigned difference = 0;
    for (std::size_t i = 0; i < one.size(); ++i)
        difference |= static_cast<unsigned char>(one[i]) ^ static_cast<unsigned char>(other[i]);
    return difference == 0;
}

} // namespace barrow::page
