#pragma once

#include "layout/table/large_pages.hpp"
#include "layout/table/raster.hpp"
#include "layout/tree/block.hpp"

#include <algorithm>
#include <cstdint>
#include <vector>

namespace barrow::layout {

/// Best value of every rectangle of a grid with unlimited guillotine cuts and copies (Gilmore &
/// Gomory, Oper. Res. 13 (1965), over normal patterns). Exact: values are whole numbers, of type
/// std::int32_t or, up to 2^52, double (sums are exact there, and the processor adds them in
/// vectors).
template <typename Value>
class GuillotineTable {
public:
    /// Greatest value of a rectangle: sums of two must not overflow.
    static constexpr Value most = sizeof(Value) == 4 ? Value(1 << 30) : Value(1LL << 52);

    /// Grid and instance must outlive the table.
    GuillotineTable(const Instance& instance, const Grid& grid);

    /// Fills the table. Values of kinds are at least 0; 0 leaves a kind out. Requires that no
    /// rectangle is worth more than `most` (see safe_scale).
    void run(const std::vector<Value>& values);

    /// Largest factor, at most `wanted`, by which prices may be multiplied without any rectangle
    /// becoming worth more than `most`.
    double safe_scale(const std::vector<double>& prices, double wanted) const;

    const Grid& grid() const { return grid_; }
    Value at(std::int32_t x, std::int32_t y) const { return row(x)[y]; }
    Value best(const Sheet& sheet) const {
        return at(grid_.x.below(sheet.width), grid_.y.below(sheet.height));
    }

    /// Lowers the value of a rectangle for a reason outside the table; patterns cannot be asked for
    /// afterwards.
    void lower(std::int32_t x, std::int32_t y, Value value) {
        row(x)[y] = std::min(at(x, y), value);
    }

    /// A pattern of that value; requires best(sheet) > 0.
    Block block(const Sheet& sheet) const {
        return block_at(grid_.x.below(sheet.width), grid_.y.below(sheet.height));
    }

    /// Steps that the last run took (see Meter).
    std::int64_t steps() const { return steps_; }

private:
    struct Corner {
        std::int32_t x = 0;
        std::int32_t y = 0;
        std::int32_t item = 0;
        bool turned = false;
    };

    Value* row(std::int32_t x) { return cells_.data() + std::size_t(x) * stride_; }
    const Value* row(std::int32_t x) const { return cells_.data() + std::size_t(x) * stride_; }
    void run_strip(std::int32_t from, std::int32_t to);
    void cuts_across(std::int32_t x, std::int32_t from, std::int32_t to);
    void find_useful_cuts(const Value* cells, std::int32_t end);
    void cuts_up(std::int32_t x, std::int32_t from, std::int32_t to);
    void cuts_up_dense(std::int32_t x, std::int32_t from, std::int32_t to);
    Block block_at(std::int32_t x, std::int32_t y) const;
    bool item_at(std::int32_t x, std::int32_t y, Block& block) const;

    const Instance& instance_;
    const Grid& grid_;
    std::size_t stride_ = 0;
    std::vector<Value, LargePages<Value>> cells_;
    std::vector<Value> values_;
    std::vector<Corner> corners_;           ///< items, at the least rectangle that holds each
    std::vector<std::int32_t> rest_y_;      ///< for y and cut b: index of the remainder
    std::vector<std::size_t> rest_y_start_; ///< where the row of y begins in it
    std::vector<std::int32_t> useful_rows_; ///< rows that differ from the one before
    std::vector<std::int32_t> useful_cuts_; ///< cuts of one row at which its value changes
    std::int64_t steps_ = 0;
};

extern template class GuillotineTable<std::int32_t>;
extern template class GuillotineTable<double>;

} // namespace barrow::layout
