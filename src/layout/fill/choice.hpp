#pragma once

#include "layout/search/meter.hpp"
#include "layout/tree/block.hpp"

#include <optional>
#include <vector>

namespace barrow::layout {

/// The best choice of items for one sheet known so far, and how to better it from any pattern.
/// A pattern that takes more than allowed of some kinds is offered all the same: what is too much
/// is taken out, and the most valued items that still find a place go in.
class Choice {
public:
    Choice(const Instance& instance, Meter& meter);

    /// Offers a pattern; true when it (or what was made of it) is better than all before.
    bool offer(const Block& block);

    const std::optional<Block>& block() const { return block_; }
    Cost value() const { return value_; }

    /// Value of the items of a block that may be counted (no more of a kind than allowed).
    Cost value_of(const Block& block) const;

private:
    const Instance& instance_;
    Meter& meter_;
    std::vector<std::int32_t> by_value_; ///< kinds, most valued for their area first
    std::optional<Block> block_;
    Cost value_ = 0;
};

} // namespace barrow::layout
