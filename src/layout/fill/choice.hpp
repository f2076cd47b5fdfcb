#pragma once

#include "layout/effort/meter.hpp"
#include "layout/tree/block.hpp"

#include <optional>
#include <vector>

namespace barrow::layout {

/// The best choice of items for one sheet so far, and how to improve it from any pattern. A pattern
/// with too many of some kinds may be offered: the surplus is taken out, and the most valuable
/// items that still fit go in.
class Choice {
public:
    Choice(const Instance& instance, Meter& meter);

    /// Offers a pattern; true when it (or what was made of it) is the best so far.
    bool offer(const Block& block);

    const std::optional<Block>& block() const { return block_; }
    Cost value() const { return value_; }

    /// Value of the items of a block, none counted more often than allowed.
    Cost value_of(const Block& block) const;

private:
    const Instance& instance_;
    Meter& meter_;
    std::vector<std::int32_t> by_value_; ///< kinds, greatest value per area first
    std::optional<Block> block_;
    Cost value_ = 0;
};

} // namespace barrow::layout
