#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace barrow::test {

/// A source file of ours: its path below the folder asked for, and what it holds.
struct SourceFile {
    std::string path;
    std::string text;
};

/// Every .cpp and .hpp below a folder of the project, in the order of their names.
inline std::vector<SourceFile> source_files(const std::string& folder) {
    const std::filesystem::path root = std::filesystem::path(BARROW_SOURCE_DIR) / folder;
    std::vector<SourceFile> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root)) {
        const std::string ending = entry.path().extension().string();
        if (ending != ".cpp" && ending != ".hpp") continue;
        std::ifstream file(entry.path(), std::ios::binary);
        files.push_back({std::filesystem::relative(entry.path(), root).string(),
                         {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()}});
    }
    std::sort(files.begin(), files.end(),
              [](const SourceFile& a, const SourceFile& b) { return a.path < b.path; });
    return files;
}

} // namespace barrow::test
