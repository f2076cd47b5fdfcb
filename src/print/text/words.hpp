#pragma once

#include "base/form.hpp"
#include "base/length.hpp"
#include "base/money.hpp"
#include "base/rational.hpp"

#include <string>

namespace barrow::print {

/// "304.8 x 304.8 mm", "10 m", "34 loops"; nothing for counted and poured forms.
std::string size_text(base::Form form, const base::StockSize& size, base::Unit unit);

/// A quantity in the form's measure for people: "0.42 m2", "3.2 m", "18 loops", "16", "12.5 ml".
/// Lengths of a metre or more are shown in metres when the shop's unit is metric.
std::string measure_text(base::Form form, bool bulk_is_mass, std::int64_t quantity,
                         base::Unit unit);

/// A length as it is on a ribbon: metres from one metre on for metric shops, else the shop's unit.
std::string run_text(std::int64_t units, base::Unit unit);

/// "3 days", "2 months", "1 year": whole units, rounded down.
std::string age_text(long days);

/// Minutes as hours and minutes: "1 h 25 min", "40 min".
std::string minutes_text(const base::Rational& minutes);

/// "49.4 %".
std::string percent_text(const base::Rational& share);

/// Money with its currency code: "12.40 GBP".
std::string with_currency(base::Money amount, const base::Currency& currency);

} // namespace barrow::print
