#include "layout/corner/residue_group.hpp"

#include <numeric>
#include <utility>

namespace barrow::layout {
namespace {

/// The basis modulo its determinant during diagonalisation, and the same row operations applied to
/// the unit matrix.
class Diagonal {
public:
    explicit Diagonal(const WholeBasis& basis)
        : modulus_(basis.determinant()), size_(basis.columns().size()) {
        for (std::size_t i = 0; i < size_; ++i) {
            rows_.emplace_back(size_);
            done_.emplace_back(size_, 0);
            done_[i][i] = 1 % modulus_;
            for (std::size_t j = 0; j < size_; ++j) rows_[i][j] = within(basis.columns()[j][i]);
        }
        for (std::size_t k = 0; k < size_; ++k) clear(k);
    }

    std::int64_t length(std::size_t k) const { return std::gcd(rows_[k][k], modulus_); }
    const std::vector<std::int64_t>& weights(std::size_t k) const { return done_[k]; }

private:
    using Row = std::vector<std::int64_t>;

    std::int64_t within(std::int64_t number) const {
        return (number % modulus_ + modulus_) % modulus_;
    }

    /// Moves an entry that shares few divisors with the modulus to the corner.
    bool bring_pivot(std::size_t k) {
        std::int64_t least = modulus_;
        std::size_t row = k;
        std::size_t column = k;
        for (std::size_t i = k; i < size_; ++i)
            for (std::size_t j = k; j < size_; ++j)
                if (const std::int64_t g = std::gcd(rows_[i][j], modulus_); g < least) {
                    least = g;
                    row = i;
                    column = j;
                }
        std::swap(rows_[k], rows_[row]);
        std::swap(done_[k], done_[row]);
        for (Row& r : rows_) std::swap(r[k], r[column]);
        return least < modulus_;
    }

    /// Multiplies the row by a unit, so that the corner divides the modulus.
    void make_divisor(std::size_t k) {
        const std::int64_t g = std::gcd(rows_[k][k], modulus_);
        std::int64_t unit = inverse(rows_[k][k] / g, modulus_ / g);
        while (std::gcd(unit, modulus_) != 1) unit += modulus_ / g;
        for (std::int64_t& entry : rows_[k]) entry = entry * (unit % modulus_) % modulus_;
        for (std::int64_t& entry : done_[k]) entry = entry * (unit % modulus_) % modulus_;
    }

    static std::int64_t inverse(std::int64_t number, std::int64_t modulus) {
        std::int64_t a = number % modulus;
        std::int64_t b = modulus;
        std::int64_t x = 1;
        std::int64_t y = 0;
        while (b != 0) {
            x -= a / b * y;
            a %= b;
            std::swap(a, b);
            std::swap(x, y);
        }
        return (x % modulus + modulus) % modulus;
    }

    void subtract(Row& from, const Row& row, std::int64_t times) const {
        for (std::size_t j = 0; j < size_; ++j)
            from[j] = within(from[j] - times * row[j] % modulus_);
    }

    /// A corner that divides the modulus and everything beside and below it clears them. Where it
    /// does not divide an entry, a smaller remainder is left there and becomes the corner.
    void clear(std::size_t k) {
        while (bring_pivot(k)) {
            make_divisor(k);
            const std::int64_t corner = rows_[k][k];
            bool clean = true;
            for (std::size_t i = k + 1; i < size_; ++i) {
                const std::int64_t times = rows_[i][k] / corner;
                subtract(rows_[i], rows_[k], times);
                subtract(done_[i], done_[k], times);
                clean = clean && rows_[i][k] == 0;
            }
            for (std::size_t j = k + 1; j < size_; ++j) {
                const std::int64_t times = rows_[k][j] / corner;
                for (std::size_t i = k; i < size_; ++i)
                    rows_[i][j] = within(rows_[i][j] - times * rows_[i][k] % modulus_);
                clean = clean && rows_[k][j] == 0;
            }
            if (clean) return;
        }
    }

    std::int64_t modulus_;
    std::size_t size_;
    std::vector<Row> rows_;
    std::vector<Row> done_;
};

} // namespace

ResidueGroup::ResidueGroup(const WholeBasis& basis)
    : size_(static_cast<Element>(basis.determinant())) {
    const Diagonal diagonal(basis);
    Element unit = 1;
    for (std::size_t k = 0; k < basis.columns().size(); ++k) {
        const std::int64_t length = diagonal.length(k);
        if (length == 1) continue;
        lengths_.push_back(static_cast<Element>(length));
        units_.push_back(unit);
        unit = static_cast<Element>(unit * length);
        weights_.push_back(diagonal.weights(k));
        for (std::int64_t& weight : weights_.back()) weight %= length;
    }
}

ResidueGroup::Element
ResidueGroup::element(const std::vector<std::pair<std::int32_t, std::int64_t>>& vector) const {
    Element number = 0;
    for (std::size_t c = 0; c < lengths_.size(); ++c) {
        const std::int64_t length = lengths_[c];
        std::int64_t digit = 0;
        for (const auto& [row, count] : vector)
            digit += weights_[c][static_cast<std::size_t>(row)] * (count % length) % length;
        digit = (digit % length + length) % length;
        number = static_cast<Element>(number + units_[c] * digit);
    }
    return number;
}

ResidueGroup::Element ResidueGroup::element(const WholeBasis::Column& vector) const {
    std::vector<std::pair<std::int32_t, std::int64_t>> pairs;
    for (std::size_t row = 0; row < vector.size(); ++row)
        pairs.emplace_back(static_cast<std::int32_t>(row), vector[row]);
    return element(pairs);
}

ResidueGroup::Digits ResidueGroup::digits(Element element) const {
    Digits digits;
    for (const std::int32_t length : lengths_) {
        digits.push_back(element % length);
        element /= length;
    }
    return digits;
}

ResidueGroup::Element ResidueGroup::negative(Element element) const {
    Element number = 0;
    const Digits digits = this->digits(element);
    for (std::size_t c = 0; c < lengths_.size(); ++c)
        number += units_[c] * ((lengths_[c] - digits[c]) % lengths_[c]);
    return number;
}

ResidueGroup::Element ResidueGroup::sum(Element a, Element b) const {
    return Translations(*this, {b}).to(digits(a), 0);
}

Translations::Translations(const ResidueGroup& group, const std::vector<ResidueGroup::Element>& by)
    : left_(group.lengths()), units_(group.units()) {
    for (const ResidueGroup::Element element : by) add(group.digits(element));
}

} // namespace barrow::layout
