#include "csv.hpp"

#include <fstream>
#include <stdexcept>

namespace barrow::bench {
namespace {

std::vector<std::string> split(const std::string& line) {
    std::vector<std::string> fields(1);
    for (const char c : line) {
        if (c == ',')
            fields.emplace_back();
        else if (c != '\r')
            fields.back() += c;
    }
    return fields;
}

} // namespace

Csv::Csv(const std::string& path) : path_(path) {
    std::ifstream file(path);
    if (!file) throw std::runtime_error("cannot read " + path);
    std::string line;
    while (std::getline(file, line)) {
        if (line.empty() || line.front() == '#') continue;
        std::vector<std::string> fields = split(line);
        if (columns_.empty()) {
            for (std::size_t i = 0; i < fields.size(); ++i) columns_.emplace(fields[i], i);
            continue;
        }
        if (fields.size() < columns_.size()) fields.resize(columns_.size());
        rows_.push_back(std::move(fields));
    }
}

const std::string& Csv::text(std::size_t row, const std::string& column) const {
    const auto found = columns_.find(column);
    if (found == columns_.end()) throw std::runtime_error(path_ + " has no column " + column);
    return rows_[row][found->second];
}

std::optional<std::int64_t> Csv::number(std::size_t row, const std::string& column) const {
    const std::string& field = text(row, column);
    if (field.empty()) return std::nullopt;
    return std::stoll(field);
}

} // namespace barrow::bench
