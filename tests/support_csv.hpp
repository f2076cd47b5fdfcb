#pragma once

#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace barrow::test {

/// Rows of a plain CSV file under tests/ (no quotes, no commas inside a field); lines that begin
/// with # and the header are left out. For check data only: the program reads CSV with a library.
inline std::vector<std::vector<std::string>> rows_of(const std::string& path_below_tests) {
    std::ifstream file(std::string(BARROW_SOURCE_DIR) + "/tests/" + path_below_tests);
    if (!file) throw std::runtime_error("cannot read tests/" + path_below_tests);
    std::vector<std::vector<std::string>> rows;
    std::string line;
    bool header = true;
    while (std::getline(file, line)) {
        if (line.empty() || line.front() == '#') continue;
        if (header) {
            header = false;
            continue;
        }
        std::vector<std::string> row(1);
        for (char c : line) {
            if (c == ',') {
                row.emplace_back();
            } else if (c != '\r') {
                row.back() += c;
            }
        }
        rows.push_back(row);
    }
    return rows;
}

} // namespace barrow::test
