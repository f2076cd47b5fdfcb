#include "design/ready/ready.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "design/file/design_file.hpp"
#include "design/work/work_out.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace barrow::design {
namespace {

/// Text as a TOML string, quotation marks and all.
std::string quoted(const std::string& text) {
    std::string result = "\"";
    for (const char c : text) {
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
            throw base::bad_input("--name", "holds a control character or a line break");
        if (c == '"' || c == '\\') result += '\\';
        result += c;
    }
    return result + "\"";
}

/// Puts `value` in the place of the first quoted text or number at or behind `from` on the line.
void put_value(std::string& line, std::size_t from, const std::string& value) {
    const std::size_t start = line.find_first_not_of(" =", from);
    std::size_t end = line.find_first_of(" ,}", start);
    if (line[start] == '"') end = line.find('"', start + 1) + 1;
    line.replace(start, end - start, value);
}

/// The name a line of [parameters] begins with; empty when it begins with none.
std::string name_on(const std::string& line) {
    const std::size_t equals = line.find('=');
    if (equals == std::string::npos || line[0] == '#' || line[0] == '[') return {};
    return std::string(base::trimmed(std::string_view(line).substr(0, equals)));
}

/// The bases are the program's own, one parameter a line, so that lines may be told apart simply;
/// the result is read again as any design is.
std::string with_changes(std::string_view text, const std::string& code, const std::string& name,
                         const std::map<std::string, std::string>& usual,
                         const std::map<std::string, std::string>& materials) {
    std::string result;
    std::string table;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        std::string line(text.substr(0, end));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
        if (!line.empty() && line[0] == '[') table = line;
        const std::string key = name_on(line);
        if (table == "[design]" && key == "code") line = "code = " + quoted(code);
        if (table == "[design]" && key == "name") line = "name = " + quoted(name);
        const auto change = usual.find(key);
        if (table == "[parameters]" && change != usual.end()) {
            const std::size_t detail = line.find("usual");
            put_value(line, detail == std::string::npos ? key.size() : detail + 5,
                      quoted(change->second));
        }
        const auto material = materials.find(key);
        if (table == "[materials]" && material != materials.end()) {
            const std::size_t detail = line.find("code =");
            put_value(line, detail == std::string::npos ? key.size() : detail + 4,
                      quoted(material->second));
        }
        result += line + "\n";
    }
    return result;
}

} // namespace

const ReadyDesign* find_ready(std::span<const ReadyDesign> among, std::string_view name) {
    for (const ReadyDesign& ready : among)
        if (ready.name == name) return &ready;
    return nullptr;
}

std::string own_design(const ReadyDesign& base, const std::string& code, const std::string& name,
                       const std::map<std::string, std::string>& usual,
                       const std::map<std::string, std::string>& materials) {
    // Working the base out with the changes refuses those that do not fit, in the maker's words.
    const std::string file = fmt::format("base {}", base.name);
    work_out(read_design(base.text, file), {usual, materials});
    std::string text = with_changes(base.text, code, name, usual, materials);
    read_design(text, fmt::format("{}.toml", code));
    return text;
}

} // namespace barrow::design
