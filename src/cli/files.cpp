#include "cli/files.hpp"

#include "base/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <system_error>

namespace barrow::cli {
namespace {

namespace fs = std::filesystem;

base::Error cannot_write(const fs::path& path) {
    return {base::Kind::machine, fmt::format("{} cannot be written", path.string()),
            "look at free space and permissions"};
}

/// A new file beside another, which nobody else has; null when there can be none.
std::FILE* begin_beside(const fs::path& path, fs::path& beside) {
    for (int attempt = 0; attempt < 100; ++attempt) {
        beside = path;
        beside += fmt::format(".new{}", attempt);
        // "x": a file that is there already, a link too, is not opened (C11, 7.21.5.3).
        if (std::FILE* file = std::fopen(beside.c_str(), "wbx")) return file;
    }
    return nullptr;
}

void write_beside(const fs::path& path, const std::string& text) {
    fs::path beside;
    std::FILE* file = begin_beside(path, beside);
    if (file == nullptr) throw cannot_write(path);
    bool whole = std::fwrite(text.data(), 1, text.size(), file) == text.size();
    whole = std::fclose(file) == 0 && whole;
    std::error_code failed;
    if (const auto old = fs::status(path, failed); whole && fs::exists(old))
        fs::permissions(beside, old.permissions(), failed);
    failed.clear();
    if (whole) fs::rename(beside, path, failed);
    if (whole && !failed) return;
    fs::remove(beside, failed);
    throw cannot_write(path);
}

std::string bytes_of(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// FNV-1a, 64 bits (Fowler, Noll, Vo): shows a change by hand, and is no protection against malice.
std::uint64_t checksum(const std::string& text) {
    std::uint64_t sum = 0xcbf29ce484222325U;
    for (const char c : text) {
        sum ^= static_cast<unsigned char>(c);
        sum *= 0x100000001b3U;
    }
    return sum;
}

std::string signed_text(const std::string& svg, const std::string& kind) {
    return fmt::format("{}<!-- drawn by barrow {} {:016x} -->\n", svg, kind, checksum(svg));
}

/// Whether a file is a drawing of ours, of that kind, as it was written.
bool is_ours(const fs::path& path, const std::string& kind) {
    std::error_code failed;
    if (!fs::is_regular_file(fs::symlink_status(path, failed)) || failed) return false;
    const std::string text = bytes_of(path);
    const std::size_t line = text.rfind("<!-- drawn by barrow ");
    return line != std::string::npos && text == signed_text(text.substr(0, line), kind);
}

bool is_there(const fs::path& path) {
    std::error_code failed;
    return fs::symlink_status(path, failed).type() != fs::file_type::not_found;
}

} // namespace

void write_file(const fs::path& path, const std::string& text) {
    std::error_code failed;
    if (path.has_parent_path()) fs::create_directories(path.parent_path(), failed);
    const auto there = fs::status(path, failed);
    if (!fs::exists(there) || fs::is_regular_file(there)) {
        // The file a link leads to is replaced, not the link.
        const fs::path target = fs::exists(there) ? fs::canonical(path, failed) : path;
        return write_beside(failed && fs::exists(there) ? path : target, text);
    }
    std::ofstream file(path, std::ios::binary); // a pipe or a device
    file << text;
    file.close();
    if (!file) throw cannot_write(path);
}

void write_drawing(const fs::path& folder, const std::string& kind, const Drawing& drawing) {
    const fs::path path = folder / drawing.name;
    if (is_there(path) && !is_ours(path, kind))
        throw base::refused(fmt::format("{} is there already, and was not drawn by barrow, or was "
                                        "changed since",
                                        path.string()),
                            "name another folder, or move the file away");
    write_file(path, signed_text(drawing.svg, kind));
}

void write_drawings(const fs::path& folder, const std::string& kind,
                    const std::vector<Drawing>& drawings) {
    std::error_code failed;
    std::vector<fs::path> old;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder, failed))
        if (entry.path().extension() == ".svg" && is_ours(entry.path(), kind))
            old.push_back(entry.path());
    const auto known = [&](const fs::path& path) {
        return std::count(old.begin(), old.end(), path) > 0;
    };
    for (const Drawing& drawing : drawings)
        if (const fs::path path = folder / drawing.name; is_there(path) && !known(path))
            write_drawing(folder, kind, drawing); // says why it is refused
    for (const Drawing& drawing : drawings) write_drawing(folder, kind, drawing);
    for (const fs::path& path : old) {
        const auto again = [&](const Drawing& drawing) { return folder / drawing.name == path; };
        if (std::none_of(drawings.begin(), drawings.end(), again)) fs::remove(path, failed);
    }
}

} // namespace barrow::cli
