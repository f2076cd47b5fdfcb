#pragma once

#include "base/form.hpp"
#include "base/length.hpp"
#include "base/money.hpp"
#include "base/rational.hpp"

#include <nlohmann/json.hpp>

#include <string>

namespace barrow::print {

using Json = nlohmann::ordered_json;

/// The beginning of a document: {"kind": kind, "version": 1}.
Json begin(const char* kind);

/// The document as text, two spaces to a level.
std::string finished(const Json& document);

/// A plain decimal as a JSON number: whole numbers stay whole, others are exact up to 15
/// significant digits, and beyond that rounded to the nearest double. Throws where the text is no
/// decimal.
Json number(const std::string& decimal);

/// Millimetres.
Json millimetres(std::int64_t units);

/// A quantity of a form as a number, in the unit that quantity_unit names: sheets in mm2 (to
/// 0.001), lengths in mm, loops, pieces, ml or g.
Json quantity_number(base::Form form, std::int64_t quantity);

/// Units of stock as a number: sheets, reels, pieces; ml or g of what is poured.
Json units_number(base::Form form, std::int64_t units);

/// {"width", "height"} of a sheet, {"length"}, {"loops"}, or null for counted and poured forms.
Json size_json(base::Form form, const base::StockSize& size);

/// "mm2", "mm", "loop", "piece", "ml", "g": the unit of quantity_number.
std::string quantity_unit(base::Form form, bool bulk_is_mass);

} // namespace barrow::print
