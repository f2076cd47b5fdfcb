#pragma once

#include "base/money.hpp"
#include "base/rational.hpp"

namespace barrow::costing {

/// Prices a stall uses: multiples of `step`, less `below` (step 1.00, below 0.05: 11.95, 12.95).
struct PricePoints {
    base::Money step;  ///< above zero
    base::Money below; ///< zero or more, less than step
};

/// A price and what it means. Margin is profit as a share of the price, markup profit as a share
/// of the cost; the two are often confused, so both are always shown.
struct Price {
    base::Rational wanted_margin; ///< 0 to below 1
    base::Money exact;            ///< cost / (1 - margin), rounded up to the minor unit
    base::Money asked;            ///< the first price point not below the exact price
    base::Money profit;           ///< asked - cost, rounded half away from zero
    base::Rational margin;        ///< profit / asked
    base::Rational markup;        ///< profit / cost; 0 when the cost is 0
};

/// Margin of a markup: markup / (1 + markup). 50 % markup is a margin of a third (standard retail
/// arithmetic). Requires markup > -1.
base::Rational margin_of_markup(const base::Rational& markup);

/// Markup of a margin: margin / (1 - margin). Requires margin < 1.
base::Rational markup_of_margin(const base::Rational& margin);

/// Price of one of `number` journals that cost `total` together. It follows from the exact cost of
/// one, total / number, so that journals alike have one price whoever bears the odd penny. Throws
/// base::Error (Kind::refused) when the margin is not from 0 to below 1 or the price points make no
/// sense. Requires number > 0.
Price price_for(base::Money total, const base::Rational& wanted_margin, const PricePoints& points,
                std::int64_t number = 1);

} // namespace barrow::costing
