#pragma once

#include "layout/table/thrifty_parts.hpp"

#include <optional>

namespace barrow::layout {

/// Best filling of one sheet with unlimited copies when very little is wasted: exact within an
/// allowance of waste, and far quicker than GuillotineTable on large sheets that fill well. Works
/// from both ends: contents that waste at most half the allowance are built up from items, and
/// everything else is cut down from the sheet, where less than half is left to be wasted outside.
/// Of the two parts of any cut one wastes at most half; so it is a known content, and only the
/// other part need be cut further.
class ThriftyTable {
public:
    /// Requires demands that cannot bind and ThriftyParts::suits(instance).
    ThriftyTable(const Instance& instance, const Grid& grid);

    struct Answer {
        bool complete = false; ///< false: out of steps
        bool proven = false;   ///< nothing is worth more than `block` (without one: than `known`)
        std::optional<Block> block; ///< worth more than `known`
    };
    /// The best filling that wastes at most a `share`-th of the sheet and is worth more than
    /// `known`, searched for within so many steps.
    Answer fill(Cost known, std::int64_t share, std::int64_t steps);

    std::int64_t steps() const { return steps_; }

private:
    using Value = ThriftyParts::Value;
    using Part = ThriftyParts::Part;

    /// The origin of a rectangle of the sheet: a part of this length was cut off another rectangle.
    struct Cut {
        std::int32_t from = -1; ///< which state; -1: it is the sheet
        Length off = 0;         ///< 0: waste only
        Along axis = Along::x;
    };
    /// The best value known outside a rectangle, plus 1; 0: none.
    struct Outside {
        Value more = 0;
        Cut cut;
    };
    struct State {
        Length width = 0;
        Length height = 0;
        Cut cut;
    };
    struct Found {
        std::int32_t x = 0;
        Outside outside;
    };

    std::int64_t waste_outside(Length width, Length height, Value outside) const;
    bool run(std::int64_t steps);
    void run_line(std::int32_t y);
    bool visit(std::int32_t x, std::int32_t y, const Outside& outside);
    void cut_across(std::int32_t y, std::int32_t state, Value outside, std::int64_t wasted);
    void cut_up(std::int32_t x, std::int32_t state, Value outside, std::int64_t wasted);
    void consider(Value outside, Value inside, const State& state);
    Block block() const;

    const Grid& grid_;
    Sheet sheet_;
    ThriftyParts parts_;
    std::vector<std::int32_t> below_x_; ///< of each length: the raster point not above it
    std::vector<std::int32_t> below_y_;
    std::int64_t each_ = 0;   ///< greatest waste of a known content
    std::int64_t all_ = 0;    ///< greatest waste of a better filling
    std::vector<Value> more_; ///< Outside of the current line, in two arrays
    std::vector<Cut> cuts_;
    std::vector<std::vector<Found>> found_; ///< for lines to come
    std::vector<State> states_;
    Cost best_ = 0;
    State best_state_; ///< where a known content of this value completed the best filling
    Value best_inside_ = 0;
    std::int64_t steps_ = 0;
};

} // namespace barrow::layout
