#include "print/golden.hpp"

#include "store/scratch_folder.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>

namespace barrow::test {

void matches_golden(const std::string& name, const std::string& text) {
    const auto path = std::filesystem::path(BARROW_SOURCE_DIR) / "tests/print/golden" / name;
    const std::string golden = bytes_of(path);
    if (text == golden) {
        SUCCEED();
        return;
    }
    if (std::getenv("BARROW_ACCEPT") != nullptr) write_bytes(path, text);
    INFO(name << ": see tests/README.md for how to accept a changed screen");
    CHECK(text == golden);
}

} // namespace barrow::test
