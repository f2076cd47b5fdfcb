#include "costing/cutting/fraction_sum.hpp"

#include "base/error.hpp"

#include <algorithm>
#include <numeric>

namespace barrow::costing {
namespace {

using base::Money;
using base::Wide;

/// A natural number of any size: digits of 32 bits, the lowest first, no zeros on top.
class Natural {
public:
    explicit Natural(std::uint64_t value) {
        for (; value != 0; value >>= 32) digits_.push_back(static_cast<std::uint32_t>(value));
    }

    void multiply(std::uint64_t factor) {
        Natural low = times_digit(static_cast<std::uint32_t>(factor));
        Natural high = times_digit(static_cast<std::uint32_t>(factor >> 32));
        if (!high.digits_.empty()) high.digits_.insert(high.digits_.begin(), 0);
        low.add(high);
        *this = std::move(low);
    }

    void add(const Natural& other) {
        if (digits_.size() < other.digits_.size()) digits_.resize(other.digits_.size());
        std::uint64_t carry = 0;
        for (std::size_t i = 0; i < digits_.size(); ++i) {
            carry += digits_[i];
            if (i < other.digits_.size()) carry += other.digits_[i];
            digits_[i] = static_cast<std::uint32_t>(carry);
            carry >>= 32;
        }
        if (carry != 0) digits_.push_back(static_cast<std::uint32_t>(carry));
    }

    bool less_than(const Natural& other) const {
        if (digits_.size() != other.digits_.size()) return digits_.size() < other.digits_.size();
        return std::lexicographical_compare(digits_.rbegin(), digits_.rend(),
                                            other.digits_.rbegin(), other.digits_.rend());
    }

private:
    Natural times_digit(std::uint32_t factor) const {
        Natural product(0);
        std::uint64_t carry = 0;
        for (const std::uint32_t digit : digits_) {
            carry += std::uint64_t{digit} * factor;
            product.digits_.push_back(static_cast<std::uint32_t>(carry));
            carry >>= 32;
        }
        if (carry != 0) product.digits_.push_back(static_cast<std::uint32_t>(carry));
        while (!product.digits_.empty() && product.digits_.back() == 0) product.digits_.pop_back();
        return product;
    }

    std::vector<std::uint32_t> digits_;
};

using Parts = std::map<std::int64_t, std::int64_t>;

/// The fractions over the product of the divisors in `all`.
Natural over_product(const Parts& parts, const std::vector<std::int64_t>& all) {
    Natural sum(0);
    for (const auto& [divisor, number] : parts) {
        Natural term(static_cast<std::uint64_t>(number));
        for (const std::int64_t other : all)
            if (other != divisor) term.multiply(static_cast<std::uint64_t>(other));
        sum.add(term);
    }
    return sum;
}

Natural product_of(const std::vector<std::int64_t>& all, std::uint64_t factor) {
    Natural product(factor);
    for (const std::int64_t one : all) product.multiply(static_cast<std::uint64_t>(one));
    return product;
}

std::vector<std::int64_t> divisors_of(const Parts& a, const Parts& b = {}) {
    std::vector<std::int64_t> all;
    for (const auto& [divisor, number] : a) all.push_back(divisor);
    for (const auto& [divisor, number] : b)
        if (a.count(divisor) == 0) all.push_back(divisor);
    return all;
}

/// Largest whole number not above the sum of the fractions, or not above it and one half.
std::int64_t whole_in(const Parts& parts, bool plus_a_half) {
    const auto all = divisors_of(parts);
    Natural sum = over_product(parts, all);
    sum.multiply(2);
    if (plus_a_half) sum.add(product_of(all, 1));
    std::int64_t whole = 0;
    while (!sum.less_than(product_of(all, 2 * static_cast<std::uint64_t>(whole + 1)))) ++whole;
    return whole;
}

} // namespace

void FractionSum::add(Wide number, Wide divisor) {
    const auto narrow_divisor = static_cast<std::int64_t>(divisor);
    whole_ += static_cast<std::int64_t>(number / divisor);
    const auto part = parts_.find(narrow_divisor);
    Wide rest = number % divisor + (part == parts_.end() ? 0 : part->second);
    if (rest >= divisor) {
        ++whole_;
        rest -= divisor;
    }
    if (rest == 0) {
        if (part != parts_.end()) parts_.erase(part);
    } else {
        parts_[narrow_divisor] = static_cast<std::int64_t>(rest);
    }
}

std::int64_t FractionSum::floor() const {
    return whole_ + whole_in(parts_, false);
}

std::int64_t FractionSum::rounded() const {
    return whole_ + whole_in(parts_, true);
}

bool FractionSum::leaves_more(const FractionSum& a, const FractionSum& b) {
    const auto all = divisors_of(a.parts_, b.parts_);
    Natural left = over_product(a.parts_, all);
    Natural right = over_product(b.parts_, all);
    left.add(product_of(all, static_cast<std::uint64_t>(whole_in(b.parts_, false))));
    right.add(product_of(all, static_cast<std::uint64_t>(whole_in(a.parts_, false))));
    return right.less_than(left);
}

std::vector<Money> round_to_total(Money total, const std::vector<FractionSum>& sums) {
    std::vector<Money> shares;
    std::int64_t left = total.minor();
    for (const FractionSum& sum : sums) {
        shares.push_back(Money::of_minor(sum.floor()));
        left -= shares.back().minor();
    }
    if (left < 0 || left > static_cast<std::int64_t>(sums.size()))
        throw base::broken("shares of an amount do not add up to it");
    std::vector<std::size_t> order(sums.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return FractionSum::leaves_more(sums[a], sums[b]);
    });
    for (std::int64_t i = 0; i < left; ++i)
        shares[order[static_cast<std::size_t>(i)]] += Money::of_minor(1);
    return shares;
}

} // namespace barrow::costing
