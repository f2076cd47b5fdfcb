#include "costing/price/price.hpp"

#include "base/error.hpp"

namespace barrow::costing {

using base::Money;
using base::Rational;
using base::Wide;

Rational margin_of_markup(const Rational& markup) {
    return markup / (Rational(1) + markup);
}

Rational markup_of_margin(const Rational& margin) {
    return margin / (Rational(1) - margin);
}

Price price_for(Money total, const Rational& wanted_margin, const PricePoints& points,
                std::int64_t number) {
    if (wanted_margin < Rational(0) || wanted_margin >= Rational(1))
        throw base::refused("the wanted margin is not from 0 % to below 100 %",
                            "a margin is profit as a share of the price; a markup may be larger");
    if (points.step.minor() <= 0 || points.below.minor() < 0 || points.below >= points.step)
        throw base::refused("the price points make no sense",
                            "the step is above zero, what is taken off below it");
    Price price;
    price.wanted_margin = wanted_margin;
    const Rational keeps = Rational(1) - wanted_margin;
    const Wide exact =
        base::divide_up(Wide{total.minor()} * keeps.divisor(), Wide{keeps.number()} * number);
    const auto exact_minor = base::narrow(exact);
    if (!exact_minor || *exact_minor > Money::most)
        throw base::refused("the price for this margin is too large", "ask for a smaller margin");
    price.exact = Money::of_minor(*exact_minor);
    const Wide steps = base::divide_up(exact + points.below.minor(), points.step.minor());
    price.asked = Money::of_minor(
        static_cast<std::int64_t>(steps * points.step.minor() - points.below.minor()));
    price.profit = price.asked - base::times(total, Rational::of(1, number));
    const Wide taken = Wide{price.asked.minor()} * number;
    if (taken != 0) price.margin = Rational::of(taken - total.minor(), taken);
    if (!total.is_zero()) price.markup = Rational::of(taken - total.minor(), total.minor());
    return price;
}

} // namespace barrow::costing
