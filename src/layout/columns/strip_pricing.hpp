#pragma once

#include "layout/columns/pricing.hpp"

#include <vector>

namespace barrow::layout {

/// A good pattern quickly, never proven best: the sheet is cut into strips, strips into columns,
/// columns into equal items (the two- and three-stage patterns of Gilmore & Gomory, Oper. Res. 13
/// (1965) 94-120). Tries strips along x and along y. Ignores copies.
class StripPricing : public Pricing {
public:
    StripPricing(const Instance& instance, const Grid& grid);

    double scale_for(const std::vector<double>& prices) const override;
    void run(const std::vector<std::int64_t>& prices,
             const std::vector<std::int64_t>& most) override;
    bool relaxed() const override { return true; }
    std::int64_t best(std::size_t sheet) const override;
    Block block(std::size_t sheet) const override;
    std::int64_t steps() const override { return steps_; }

private:
    /// One orientation of an item: its sides along the strip and across it.
    struct Side {
        std::int32_t item = 0;
        bool turned = false;
        Length along = 0;
        Length across = 0;
        std::size_t first = 0; ///< the first point along that holds it
        std::size_t rests = 0; ///< where its remainders begin in Way::rests
    };
    /// Value of a column of one side in the current strip.
    struct Column {
        std::size_t side = 0;
        std::int64_t worth = 0;
    };
    struct Way {
        Along axis = Along::x; ///< of the strips
        const Raster* along = nullptr;
        const Raster* across = nullptr;
        std::vector<Side> sides;       ///< shortest first
        std::vector<Length> thickness; ///< of strips, each once
        /// For each length and each point along that holds it: the point of the remainder; those of
        /// a side begin at Side::rests, at its first point.
        std::vector<std::int32_t> rests;
        /// The same for each thickness: the remainder beside a strip.
        std::vector<std::vector<std::int32_t>> rests_across;
        /// For each thickness and each point along: the value of the best strip and its last
        /// column (an index into sides, -1: none).
        std::vector<std::vector<std::int64_t>> values;
        std::vector<std::vector<std::int32_t>> last;
    };
    struct Stack {
        std::int64_t value = 0;
        std::vector<std::size_t> strips; ///< indices of thickness
    };

    Way make_way(Along axis, const Grid& grid) const;
    void choose_columns(const Way& way, Length thickness, const std::vector<std::int64_t>& prices,
                        const std::vector<std::int64_t>& most);
    void fill(Way& way, const std::vector<std::int64_t>& prices,
              const std::vector<std::int64_t>& most);
    void fill_strip(Way& way, std::size_t thickness);
    Stack stack(const Way& way, const Sheet& sheet);
    Block strip(const Way& way, std::size_t thickness, Length length) const;

    const Instance& instance_;
    std::vector<Way> ways_;
    std::vector<std::vector<Stack>> stacks_; ///< of each sheet, for each way
    std::vector<Column> columns_;            ///< useful in the current strip
    std::int64_t steps_ = 0;
};

} // namespace barrow::layout
