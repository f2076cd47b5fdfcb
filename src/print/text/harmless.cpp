#include "print/text/harmless.hpp"

#include <cstddef>
#include <cstdint>

namespace barrow::print {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD"; // U+FFFD

struct Symbol {
    std::uint32_t code = 0;
    std::size_t bytes = 1;
    bool valid = false;
};

std::size_t length_from(unsigned char first) {
    if (first < 0x80) return 1;
    if (first >= 0xC2 && first < 0xE0) return 2;
    if (first >= 0xE0 && first < 0xF0) return 3;
    return first >= 0xF0 && first < 0xF5 ? 4 : 0;
}

/// The code point at the start of a text that is not empty; one byte where it is not UTF-8.
Symbol first_of(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const std::size_t bytes = length_from(byte(0));
    if (bytes == 0 || bytes > text.size()) return {};
    std::uint32_t code = bytes == 1 ? byte(0) : byte(0) & (0xFFU >> (bytes + 1));
    for (std::size_t i = 1; i < bytes; ++i) {
        if ((byte(i) & 0xC0U) != 0x80) return {};
        code = code << 6U | (byte(i) & 0x3FU);
    }
    const bool overlong = (bytes == 3 && code < 0x800) || (bytes == 4 && code < 0x10000);
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    if (overlong || surrogate || code > 0x10FFFF) return {};
    return {code, bytes, true};
}

bool is_space(std::uint32_t code) {
    return (code >= 0x09 && code <= 0x0D) || code == 0x85 || code == 0x2028 || code == 0x2029;
}

bool is_control(std::uint32_t code) {
    const bool c0_or_c1 = code < 0x20 || (code >= 0x7F && code <= 0x9F);
    const bool turns = code == 0x61C || code == 0x200E || code == 0x200F
                       || (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
    return c0_or_c1 || turns || (code & 0xFFFFU) >= 0xFFFE;
}

} // namespace

std::string harmless(std::string_view text) {
    std::string result;
    result.reserve(text.size());
    while (!text.empty()) {
        Symbol symbol = first_of(text);
        if (text.substr(0, 2) == "\r\n") symbol.bytes = 2;
        if (symbol.valid && is_space(symbol.code)) {
            result += ' ';
        } else if (!symbol.valid || is_control(symbol.code)) {
            result += replacement;
        } else {
            result += text.substr(0, symbol.bytes);
        }
        text.remove_prefix(symbol.bytes);
    }
    return result;
}

} // namespace barrow::print
