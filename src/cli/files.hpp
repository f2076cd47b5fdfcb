#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace barrow::cli {

/// Writes a file, with the folders that lead to it: beside it first, then put in its place, so that
/// what was there stays whole until all of the new text is written. Throws base::Error
/// (Kind::machine), and leaves no half file behind.
void write_file(const std::filesystem::path& path, const std::string& text);

struct Drawing {
    std::string name; ///< of the file, with ".svg"
    std::string svg;
};

/// Writes drawings into a folder and removes the drawings of the same kind that this program left
/// there before. Each ends with a line that names the program, the kind and a checksum; only a
/// plain file with that line as it was written is one of ours. Throws base::Error: Kind::refused,
/// before anything is written, when another file (or a link) has the name of a drawing.
void write_drawings(const std::filesystem::path& folder, const std::string& kind,
                    const std::vector<Drawing>& drawings);

/// One drawing into a folder; other drawings there stay.
void write_drawing(const std::filesystem::path& folder, const std::string& kind,
                   const Drawing& drawing);

} // namespace barrow::cli
