#include "page/server/http.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::page {
namespace {

const std::string nothing;

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

bool needs_no_encoding(unsigned char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-'
           || c == '.' || c == '_' || c == '~';
}

} // namespace

void Values::add(std::string name, std::string value) {
    list_.emplace_back(std::move(name), std::move(value));
}

const std::string& Values::get(std::string_view name) const {
    for (const auto& [key, value] : list_)
        if (key == name) return value;
    return nothing;
}

bool Values::has(std::string_view name) const {
    return std::any_of(list_.begin(), list_.end(),
                       [&](const auto& pair) { return pair.first == name; });
}

std::vector<std::string> Values::all(std::string_view name) const {
    std::vector<std::string> found;
    for (const auto& [key, value] : list_)
        if (key == name) found.push_back(value);
    return found;
}

std::map<std::string, std::string> Values::under(std::string_view prefix) const {
    std::map<std::string, std::string> found;
    for (const auto& [key, value] : list_)
        if (!value.empty() && key.size() > prefix.size()
            && std::string_view(key).substr(0, prefix.size()) == prefix)
            found.emplace(key.substr(prefix.size()), value);
    return found;
}

std::string decoded(std::string_view text, bool plus_is_blank) {
    std::string plain;
    plain.reserve(text.size());
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '%' && i + 2 < text.size() && hex_digit(text[i + 1]) >= 0
            && hex_digit(text[i + 2]) >= 0) {
            plain += static_cast<char>(hex_digit(text[i + 1]) * 16 + hex_digit(text[i + 2]));
            i += 2;
        } else {
            plain += plus_is_blank && text[i] == '+' ? ' ' : text[i];
        }
    }
    return plain;
}

std::string encoded(std::string_view text) {
    std::string safe;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (needs_no_encoding(byte))
            safe += c;
        else
            safe += fmt::format("%{:02X}", byte);
    }
    return safe;
}

Values read_form(std::string_view text) {
    Values values;
    while (!text.empty()) {
        const std::string_view pair = text.substr(0, text.find('&'));
        text.remove_prefix(std::min(text.size(), pair.size() + 1));
        if (pair.empty()) continue;
        const std::size_t equals = pair.find('=');
        const std::string_view value =
            equals == std::string_view::npos ? std::string_view{} : pair.substr(equals + 1);
        values.add(decoded(pair.substr(0, equals), true), decoded(value, true));
    }
    return values;
}

std::string write_form(const Values& values) {
    std::string text;
    for (const auto& [name, value] : values.list()) {
        if (!text.empty()) text += '&';
        text += encoded(name) + "=" + encoded(value);
    }
    return text;
}

const std::string& Request::header(const std::string& name) const {
    const auto found = headers.find(name);
    return found == headers.end() ? nothing : found->second;
}

Response go_to(const std::string& path) {
    Response response;
    response.status = 303;
    response.headers["Location"] = path;
    return response;
}

Response download(const std::string& name, const std::string& type, std::string body) {
    Response response;
    response.type = type;
    response.body = std::move(body);
    response.headers["Content-Disposition"] = "attachment; filename=\"" + encoded(name) + "\"";
    return response;
}

} // namespace barrow::page
