#include "layout/corner/whole_basis.hpp"

#include "base/wide.hpp"

#include <algorithm>
#include <utility>

namespace barrow::layout {
namespace {

using Rows = std::vector<std::vector<std::int64_t>>;

/// The columns with the unit matrix beside them.
Rows beside_unit(const std::vector<WholeBasis::Column>& columns) {
    const std::size_t size = columns.size();
    Rows rows(size, std::vector<std::int64_t>(2 * size, 0));
    for (std::size_t i = 0; i < size; ++i) {
        for (std::size_t j = 0; j < size; ++j) rows[i][j] = columns[j][i];
        rows[i][size + i] = 1;
    }
    return rows;
}

/// Clears the column in all other rows; false when a number would overflow.
bool clear(Rows& rows, std::size_t pivot, std::int64_t before) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (i == pivot) continue;
        const std::int64_t factor = rows[i][pivot];
        for (std::size_t j = 0; j < rows[i].size(); ++j) {
            // Two products of 63 bits each; the division is exact (Bareiss).
            const base::Wide crossed =
                base::Wide(rows[pivot][pivot]) * rows[i][j] - base::Wide(factor) * rows[pivot][j];
            const auto entry = base::narrow(crossed / before);
            if (!entry) return false;
            rows[i][j] = *entry;
        }
    }
    return true;
}

/// Only to test independence: what is independent modulo this prime is so in whole numbers too.
constexpr std::int64_t prime = 1'000'000'007;

std::int64_t power(std::int64_t base, std::int64_t exponent) {
    std::int64_t result = 1;
    for (; exponent > 0; exponent /= 2) {
        if (exponent % 2 == 1) result = result * base % prime;
        base = base * base % prime;
    }
    return result;
}

} // namespace

std::optional<WholeBasis> WholeBasis::of(std::vector<Column> columns) {
    const std::size_t size = columns.size();
    Rows rows = beside_unit(columns);
    std::int64_t before = 1;
    for (std::size_t k = 0; k < size; ++k) {
        std::size_t pivot = k;
        while (pivot < size && rows[pivot][k] == 0) ++pivot;
        if (pivot == size) return {};
        std::swap(rows[k], rows[pivot]);
        if (!clear(rows, k, before)) return {};
        before = rows[k][k];
    }
    WholeBasis basis;
    const std::int64_t sign = before < 0 ? -1 : 1;
    basis.columns_ = std::move(columns);
    basis.determinant_ = sign * before;
    for (const auto& row : rows) {
        basis.inverse_.emplace_back(row.begin() + static_cast<std::ptrdiff_t>(size), row.end());
        for (std::int64_t& entry : basis.inverse_.back()) entry *= sign;
    }
    return basis;
}

std::vector<std::size_t> independent(const std::vector<WholeBasis::Column>& columns,
                                     std::size_t rows) {
    std::vector<std::size_t> chosen;
    std::vector<std::pair<std::size_t, WholeBasis::Column>> reduced; // with the row each is 1 in
    for (std::size_t c = 0; c < columns.size() && chosen.size() < rows; ++c) {
        WholeBasis::Column column = columns[c];
        for (std::int64_t& entry : column) entry = (entry % prime + prime) % prime;
        for (const auto& [row, other] : reduced) {
            const std::int64_t factor = column[row];
            if (factor == 0) continue;
            for (std::size_t i = 0; i < rows; ++i)
                column[i] = (column[i] + (prime - factor) * other[i]) % prime;
        }
        const auto first = std::find_if(column.begin(), column.end(),
                                        [](std::int64_t entry) { return entry != 0; });
        if (first == column.end()) continue;
        const std::int64_t inverse = power(*first, prime - 2);
        const auto row = static_cast<std::size_t>(first - column.begin());
        for (std::int64_t& entry : column) entry = entry * inverse % prime;
        reduced.emplace_back(row, std::move(column));
        chosen.push_back(c);
    }
    return chosen;
}

} // namespace barrow::layout
