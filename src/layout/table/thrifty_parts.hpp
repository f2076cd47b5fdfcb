#pragma once

#include "layout/table/raster.hpp"
#include "layout/tree/block.hpp"

#include <cstdint>
#include <utility>
#include <vector>

namespace barrow::layout {

/// Best contents, with unlimited copies, of all rectangles that waste little. Waste is the area of
/// a rectangle at the best value per area of all kinds, less the value of its content. A part never
/// wastes more than the whole, so only parts that waste little are combined (after Wang, Oper. Res.
/// 31 (1983) 573-586). Waste is counted in units of 1/unit(), so that it is a whole number.
class ThriftyParts {
public:
    using Value = std::int32_t;

    /// A rectangle of a line (or column) that is worth more than every shorter one in it.
    struct Part {
        Length size = 0;
        Value value = 0;
    };

    /// Whether all values and wastes of the instance fit the types used here.
    static bool suits(const Instance& instance);

    /// Requires demands that cannot bind and suits(instance). Grid and instance must outlive it.
    ThriftyParts(const Instance& instance, const Grid& grid);

    /// Finds every rectangle that wastes at most `each`, except those that fit no sheet wasting at
    /// most `all`. False when that takes more steps than allowed.
    bool find(std::int64_t each, std::int64_t all, std::int64_t steps);

    /// The best rectangles of a raster height, narrowest first, or of a raster width, lowest first.
    const std::vector<Part>& line(std::int32_t y) const {
        return lines_[static_cast<std::size_t>(y)];
    }
    const std::vector<Part>& column(std::int32_t x) const {
        return columns_[static_cast<std::size_t>(x)].all;
    }
    /// The best part no longer than `room`; size 0 when there is none.
    static Part best(const std::vector<Part>& parts, Length room);
    /// Value of the best item that fills a raster rectangle, -1 when none does.
    Value item(std::int32_t x, std::int32_t y) const;

    std::int64_t waste(std::int64_t area, std::int64_t value) const {
        return std::int64_t{value_} * area - value * area_;
    }
    std::int64_t unit() const { return area_; }

    /// The best content found for a rectangle; width 0 when there is none.
    Block block(Length width, Length height) const;
    /// A content of this value: the best found, or one item that fills the rectangle.
    Block block(Length width, Length height, Value value) const;

    std::int64_t steps() const { return steps_; }

private:
    /// Findings of a line so far. A prime is not a row of shorter parts; every row is a shorter row
    /// and a prime.
    struct Parts {
        std::vector<Part> all;
        std::vector<Part> primes;
    };
    struct Found {
        std::int32_t x = 0;
        Value value = 0;
    };

    std::int64_t waste_outside(std::int32_t x, std::int32_t y) const;
    void lay_items();
    Block leaf(Length width, Length height, Value value) const;
    void run_line(std::int32_t y);
    std::int32_t next_to_visit(std::int32_t x, std::int32_t end) const;
    void visit(std::int32_t x, std::int32_t y, Value item);
    void join_across(std::int32_t y, const Part& part, const std::vector<Part>& others);
    void join_up(std::int32_t x, const Part& part, const std::vector<Part>& others);

    const Instance& instance_;
    const Grid& grid_;
    std::vector<std::int32_t> index_x_; ///< of each length, -1 when no raster point
    std::vector<std::int32_t> index_y_;
    std::vector<Length> gap_x_; ///< beside a part: the length no sum of sides can fill
    std::vector<Length> gap_y_;
    std::vector<Value> below_;              ///< best of the line below, then of the current line
    std::vector<Value> across_;             ///< best rows of parts in the current line
    std::vector<Value> up_;                 ///< best columns of parts in the current line
    std::vector<std::vector<Found>> found_; ///< columns of parts, for lines to come
    std::vector<std::vector<Found>> items_; ///< of each line, leftmost and least first
    Parts row_;                             ///< the current line
    std::vector<std::vector<Part>> lines_;
    std::vector<Parts> columns_;
    Value value_ = 0; ///< of the kind with the greatest value per area
    std::int64_t area_ = 1;
    std::int64_t each_ = 0;
    std::int64_t all_ = 0;
    std::int64_t steps_ = 0;
};

} // namespace barrow::layout
