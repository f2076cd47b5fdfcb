#pragma once

#include "layout/fill/counted_parts.hpp"

#include <cstdint>
#include <vector>

namespace barrow::layout {

/// A content of a rectangle in LabelSearch.
struct Label {
    std::int64_t worth = 0;   ///< watched items in full, others less their price
    std::int64_t reduced = 0; ///< all items less their price
    Packed counts = 0;        ///< of watched kinds, each in a field of its own
    std::int32_t item = -1;   ///< a leaf (turned: bit 30), or
    std::int32_t cut = -1;    ///< where one stands (up: bit 30),
    std::int32_t first = 0;   ///< and which labels of the two parts
    std::int32_t second = 0;
};

/// Collects contents of one rectangle and returns the undominated ones: no other has as few of
/// every watched kind and as much worth. Of equal counts only the best is kept, so that few are
/// compared in the end.
class LabelSet {
public:
    void add(const Label& label);

    /// Moves the best out of the set, most reduced value first. `guards`: the top bit of each field
    /// of counts.
    std::vector<Label> take_best(Packed guards);

    /// Steps taken since last asked (see Meter).
    std::int64_t steps();

private:
    std::size_t slot_of(Packed counts) const;
    void grow();

    std::vector<Label> labels_;
    std::vector<std::int32_t> slots_; ///< by counts: index of a label, -1 when free
    std::vector<Packed> kept_;        ///< counts of those returned
    std::int64_t steps_ = 0;
};

} // namespace barrow::layout
