#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace barrow::layout {

/// A square matrix of whole numbers, by columns, and its inverse in whole numbers: what B is
/// multiplied by to give its determinant times the unit matrix.
class WholeBasis {
public:
    using Column = std::vector<std::int64_t>;

    /// Nothing when the columns depend on each other, or when a number on the way has no place in
    /// 64 bits. Exact all through (fraction-free elimination: Bareiss, Math. of Computation 22
    /// (1968) 565-578).
    static std::optional<WholeBasis> of(std::vector<Column> columns);

    const std::vector<Column>& columns() const { return columns_; }
    /// Above 0.
    std::int64_t determinant() const { return determinant_; }
    /// Row by row; determinant() times the inverse.
    const std::vector<std::vector<std::int64_t>>& inverse() const { return inverse_; }

private:
    std::vector<Column> columns_;
    std::int64_t determinant_ = 1;
    std::vector<std::vector<std::int64_t>> inverse_;
};

/// Of these columns, in their order, those that do not depend on the ones before; as many as there
/// are rows, or fewer. Indices.
std::vector<std::size_t> independent(const std::vector<WholeBasis::Column>& columns,
                                     std::size_t rows);

} // namespace barrow::layout
