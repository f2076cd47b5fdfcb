#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace barrow::layout {

/// A square matrix of whole numbers, by columns, and its inverse times its determinant, in whole
/// numbers too.
class WholeBasis {
public:
    using Column = std::vector<std::int64_t>;

    /// Empty when the columns depend on each other, or a number on the way would overflow 64 bits.
    /// Exact throughout (fraction-free elimination: Bareiss, Math. of Computation 22 (1968)
    /// 565-578).
    static std::optional<WholeBasis> of(std::vector<Column> columns);

    const std::vector<Column>& columns() const { return columns_; }
    /// Above 0.
    std::int64_t determinant() const { return determinant_; }
    /// The inverse times determinant(), row by row.
    const std::vector<std::vector<std::int64_t>>& inverse() const { return inverse_; }

private:
    std::vector<Column> columns_;
    std::int64_t determinant_ = 1;
    std::vector<std::vector<std::int64_t>> inverse_;
};

/// Indices of the columns, in their order, that do not depend on those before; at most as many as
/// there are rows.
std::vector<std::size_t> independent(const std::vector<WholeBasis::Column>& columns,
                                     std::size_t rows);

} // namespace barrow::layout
