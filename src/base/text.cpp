#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <optional>
#include <utility>

namespace barrow::base {
namespace {

bool is_space(char c) {
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

char lower(char c) {
    return (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
}
char upper(char c) {
    return (c >= 'a' && c <= 'z') ? static_cast<char>(c - 'a' + 'A') : c;
}

/// Takes one code point off the front; nothing when the bytes there are not well-formed UTF-8.
std::optional<char32_t> take_code_point(std::string_view& text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char first = byte(0);
    std::size_t length = 0;
    char32_t value = 0;
    char32_t least = 0;
    if (first < 0x80) {
        text.remove_prefix(1);
        return first;
    }
    if ((first & 0xE0U) == 0xC0) {
        length = 2, value = first & 0x1FU, least = 0x80;
    } else if ((first & 0xF0U) == 0xE0) {
        length = 3, value = first & 0x0FU, least = 0x800;
    } else if ((first & 0xF8U) == 0xF0) {
        length = 4, value = first & 0x07U, least = 0x10000;
    } else {
        return std::nullopt;
    }
    if (text.size() < length) return std::nullopt;
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xC0U) != 0x80) return std::nullopt;
        value = (value << 6U) | (byte(i) & 0x3FU);
    }
    if (value < least || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF))
        return std::nullopt;
    text.remove_prefix(length);
    return value;
}

bool is_combining(char32_t c) {
    return (c >= 0x300 && c <= 0x36F) || (c >= 0x200B && c <= 0x200F)
           || (c >= 0xFE00 && c <= 0xFE0F) || (c >= 0x20D0 && c <= 0x20FF);
}

bool is_wide(char32_t c) {
    return (c >= 0x1100 && c <= 0x115F) || (c >= 0x2E80 && c <= 0xA4CF)
           || (c >= 0xAC00 && c <= 0xD7A3) || (c >= 0xF900 && c <= 0xFAFF)
           || (c >= 0xFE30 && c <= 0xFE6F) || (c >= 0xFF00 && c <= 0xFF60)
           || (c >= 0xFFE0 && c <= 0xFFE6) || (c >= 0x1F300 && c <= 0x1FAFF)
           || (c >= 0x20000 && c <= 0x3FFFD);
}

} // namespace

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
    return text;
}

std::string lowered(std::string_view text) {
    std::string result(text);
    std::transform(result.begin(), result.end(), result.begin(), lower);
    return result;
}

std::string raised(std::string_view text) {
    std::string result(text);
    std::transform(result.begin(), result.end(), result.begin(), upper);
    return result;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
    // Three rows of the usual table: a swap of neighbours looks two rows up.
    std::vector<std::size_t> before(b.size() + 1);
    std::vector<std::size_t> above(b.size() + 1);
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) above[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const bool same = lower(a[i - 1]) == lower(b[j - 1]);
            row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + (same ? 0U : 1U)});
            if (i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2])
                && lower(a[i - 2]) == lower(b[j - 1]))
                row[j] = std::min(row[j], before[j - 2] + 1);
        }
        std::swap(before, above);
        std::swap(above, row);
    }
    return above[b.size()];
}

std::vector<std::string> nearest(std::string_view given, const std::vector<std::string>& candidates,
                                 std::size_t most) {
    const std::size_t cutoff = std::min<std::size_t>(3, (given.size() + 1) / 2);
    std::vector<std::pair<std::size_t, std::string>> scored;
    for (const std::string& candidate : candidates) {
        std::size_t distance = edit_distance(given, candidate);
        const bool begins = given.size() >= 2 && candidate.size() > given.size()
                            && lowered(candidate.substr(0, given.size())) == lowered(given);
        if (begins) distance = std::min<std::size_t>(distance, 1);
        if (distance <= cutoff) scored.emplace_back(distance, candidate);
    }
    std::stable_sort(scored.begin(), scored.end(),
                     [](const auto& x, const auto& y) { return x.first < y.first; });
    std::vector<std::string> result;
    for (const auto& [distance, candidate] : scored) {
        if (result.size() == most) break;
        result.push_back(candidate);
    }
    return result;
}

std::string did_you_mean(std::string_view given, const std::vector<std::string>& candidates) {
    const auto near = nearest(given, candidates);
    if (near.empty()) return {};
    std::string list = near.front();
    for (std::size_t i = 1; i < near.size(); ++i)
        list += (i + 1 == near.size() ? " or " : ", ") + near[i];
    return "did you mean " + list + "?";
}

std::size_t display_width(std::string_view text) {
    // Most text is plain: each of its signs is one column wide.
    if (std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; }))
        return text.size();
    std::size_t width = 0;
    while (!text.empty()) {
        const auto code_point = take_code_point(text);
        if (!code_point) {
            text.remove_prefix(1);
            ++width;
        } else if (is_wide(*code_point)) {
            width += 2;
        } else if (!is_combining(*code_point)) {
            ++width;
        }
    }
    return width;
}

bool is_utf8(std::string_view text) {
    while (!text.empty())
        if (!take_code_point(text)) return false;
    return true;
}

std::string counted(long long number, std::string_view singular, std::string_view plural) {
    if (number == 1) return fmt::format("1 {}", singular);
    if (plural.empty()) return fmt::format("{} {}s", number, singular);
    return fmt::format("{} {}", number, plural);
}

} // namespace barrow::base
