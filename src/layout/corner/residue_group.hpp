#pragma once

#include "layout/corner/whole_basis.hpp"

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace barrow::layout {

/// The residues of whole vectors modulo the multiples of a basis: a finite group with as many
/// elements as the determinant, a product of cycles (the Smith normal form of the basis, computed
/// modulo its determinant: Cohen, A Course in Computational Algebraic Number Theory, 1993, 2.4).
/// Elements are numbered from 0, the element of the basis itself; the digits of a number are the
/// positions in the cycles.
class ResidueGroup {
public:
    using Element = std::int32_t;
    using Digits = std::vector<std::int32_t>;

    /// Requires a determinant below 2^31.
    explicit ResidueGroup(const WholeBasis& basis);

    Element size() const { return size_; }
    /// The element of a vector given as rows and numbers.
    Element element(const std::vector<std::pair<std::int32_t, std::int64_t>>& vector) const;
    Element element(const WholeBasis::Column& vector) const;

    Digits digits(Element element) const;
    Element negative(Element element) const;
    Element sum(Element a, Element b) const;

    /// Lengths of the cycles, and the weight of one position in each.
    const Digits& lengths() const { return lengths_; }
    const Digits& units() const { return units_; }

private:
    Element size_ = 1;
    Digits lengths_;
    Digits units_;
    std::vector<std::vector<std::int64_t>>
        weights_; ///< weight of each row, modulo the cycle's length
};

/// Repeated sums with a fixed list of elements.
class Translations {
public:
    Translations(const ResidueGroup& group, const std::vector<ResidueGroup::Element>& by);

    /// Appends an element to the list.
    void add(const ResidueGroup::Digits& by) { by_.insert(by_.end(), by.begin(), by.end()); }

    /// The sum of the element with these digits and an element of the list.
    ResidueGroup::Element to(const ResidueGroup::Digits& from, std::size_t place) const {
        const std::size_t cycles = from.size();
        const std::int32_t* by = by_.data() + place * cycles;
        ResidueGroup::Element number = 0;
        for (std::size_t c = 0; c < cycles; ++c) {
            const std::int32_t digit = from[c] - left_[c] + by[c]; // below 0 while within the cycle
            number += units_[c] * (digit < 0 ? digit + left_[c] : digit);
        }
        return number;
    }

private:
    ResidueGroup::Digits left_; ///< lengths of the cycles
    ResidueGroup::Digits units_;
    ResidueGroup::Digits by_; ///< digits of each element, one after the other
};

} // namespace barrow::layout
