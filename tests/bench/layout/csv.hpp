#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace barrow::bench {

/// Rows of a plain CSV file (no quotes), read by the names in its header. Lines that begin with #
/// are comments.
class Csv {
public:
    /// Throws std::runtime_error when the file cannot be read.
    explicit Csv(const std::string& path);

    std::size_t rows() const { return rows_.size(); }
    const std::string& text(std::size_t row, const std::string& column) const;
    std::optional<std::int64_t> number(std::size_t row, const std::string& column) const;

private:
    std::string path_;
    std::unordered_map<std::string, std::size_t> columns_;
    std::vector<std::vector<std::string>> rows_;
};

} // namespace barrow::bench
