#pragma once

#include "layout/table/large_pages.hpp"
#include "layout/table/raster.hpp"
#include "layout/tree/block.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace barrow::layout {

/// Best filling of one sheet with unlimited copies when hardly anything is wasted: a rectangle is
/// kept only while its waste (its area at the best value for area of all kinds, less what its
/// content is worth) stays within an allowance, since a part never wastes more than the whole
/// (after Wang, Oper. Res. 31 (1983) 573-586). Within the allowance it is exact, and far quicker
/// than GuillotineTable on large sheets that fill well.
class ThriftyTable {
public:
    /// Requires demands that cannot bind and a sheet worth less than 2^31.
    ThriftyTable(const Instance& instance, const Grid& grid);

    /// The best filling when it wastes at most one `share`-th of the sheet, found within so many
    /// steps; nothing otherwise.
    std::optional<Block> fill(std::int64_t share, std::int64_t steps);

    std::int64_t steps() const { return steps_; }

private:
    using Value = std::int32_t;

    /// A rectangle of one line (or column) that is worth more than every shorter one in it.
    struct Part {
        Length size = 0;
        Value value = 0;
    };
    /// What has been found in a line so far. A prime is no row of shorter parts; every row is
    /// then a shorter row and a prime.
    struct Parts {
        std::vector<Part> all;
        std::vector<Part> primes;
    };

    std::int64_t waste(std::int32_t x, std::int32_t y, Value value) const;
    std::int64_t waste_outside(std::int32_t x, std::int32_t y) const;
    std::size_t cell(std::int32_t x, std::int32_t y) const {
        return std::size_t(y) * std::size_t(grid_.x.size()) + std::size_t(x);
    }
    void lay_items();
    bool run(std::int64_t steps);
    void visit(std::int32_t x, std::int32_t y, Value item);
    std::int32_t next_to_visit(std::int32_t x, std::int32_t y, std::int32_t end) const;
    void join_across(std::int32_t y, const Part& part, const std::vector<Part>& others);
    void join_up(std::int32_t x, const Part& part, const std::vector<Part>& others);
    Block block_at(std::int32_t x, std::int32_t y) const;

    const Instance& instance_;
    const Grid& grid_;
    std::vector<std::int32_t> index_x_; ///< of each length, -1 when no raster point
    std::vector<std::int32_t> index_y_;
    std::vector<Length> gap_x_; ///< beside a part: what no sum of sides can fill
    std::vector<Length> gap_y_;
    std::vector<Value, LargePages<Value>>
        cells_;                 ///< best value (before its line is visited: of columns of parts)
    std::vector<Value> across_; ///< best value of rows of parts in the line at hand
    std::vector<std::vector<std::pair<std::int32_t, Value>>> items_; ///< of each line: x and value
    Parts line_;
    std::vector<Parts> columns_;
    Value value_ = 0; ///< of the best kind for its area
    std::int64_t area_ = 1;
    std::int64_t allowance_ = 0;
    std::int64_t steps_ = 0;
};

} // namespace barrow::layout
