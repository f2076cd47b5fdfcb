#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <unistd.h>

namespace barrow::test {

/// Where tests keep their files: in memory where the machine offers it, since a shop waits for the
/// disk at every commit and a test makes thousands.
inline std::filesystem::path scratch_place() {
    std::filesystem::path memory = "/dev/shm";
    if (access(memory.c_str(), W_OK | X_OK) == 0) return memory;
    return std::filesystem::temp_directory_path();
}

/// An empty folder of its own for one test, gone again at its end.
class ScratchFolder {
public:
    ScratchFolder() {
        std::string name = (scratch_place() / "barrow-test-XXXXXX").string();
        if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no scratch folder");
        path_ = name;
    }
    ~ScratchFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;

    std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
    const std::filesystem::path& path() const { return path_; }

    /// How many files are in it.
    long files() const {
        return static_cast<long>(std::distance(std::filesystem::directory_iterator(path_),
                                               std::filesystem::directory_iterator()));
    }

private:
    std::filesystem::path path_;
};

inline std::string bytes_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

inline void write_bytes(const std::filesystem::path& path, const std::string& bytes) {
    std::ofstream file(path, std::ios::binary | std::ios::trunc);
    file << bytes;
}

} // namespace barrow::test
