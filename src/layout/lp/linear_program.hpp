#pragma once

#include <cstdint>
#include <memory>
#include <vector>

namespace barrow::layout {

/// Values of an LP answer closer than this count as equal.
inline constexpr double nearly = 1e-6;

/// One nonzero of a column.
struct Entry {
    std::int32_t row = 0;
    double value = 0;
};

/// A linear program that grows by columns: minimise cost over columns x >= 0, each row at least or
/// at most its right side. Answers are floating point: guidance, never a proof. (Uses COIN-OR Clp,
/// which only linear_program.cpp sees.)
class LinearProgram {
public:
    struct Row {
        double least = 0;
        double most = 0;
    };
    static constexpr double infinite = 1e30;

    explicit LinearProgram(const std::vector<Row>& rows);
    ~LinearProgram();
    LinearProgram(const LinearProgram&) = delete;
    LinearProgram& operator=(const LinearProgram&) = delete;

    /// Answers the index of the new column.
    std::int32_t add_column(double cost, const std::vector<Entry>& entries);

    /// Bounds of a column (0 to infinite at first).
    void limit_column(std::int32_t column, double least, double most);

    void limit_row(std::int32_t row, const Row& limits);

    /// False when there is no feasible answer or the solver gave up. Starts from the last basis.
    bool solve();

    /// Simplex iterations of all solves so far.
    std::int64_t iterations() const;

    double cost() const;
    double dual(std::int32_t row) const;
    double column(std::int32_t column) const;
    std::int32_t columns() const;
    /// Reduced cost of the column at the last answer.
    double reduced_cost(std::int32_t column) const;

    /// Whole numbers for these columns, all others 0, by branch and cut started afresh: searches at
    /// most this many nodes, stops within `gap` (a fraction) of its own bound, and ignores answers
    /// dearer than `most`. Empty when none was found. An answer, not a proof. (Uses COIN-OR Cbc.)
    std::vector<std::int64_t> in_whole_numbers(const std::vector<std::int32_t>& columns, int nodes,
                                               double gap, double most = infinite) const;

private:
    struct Solver;
    std::unique_ptr<Solver> solver_;
};

} // namespace barrow::layout
