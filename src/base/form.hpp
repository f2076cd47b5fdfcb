#pragma once

#include "base/wide.hpp"

#include <compare>
#include <cstdint>
#include <optional>
#include <string_view>

namespace barrow::base {

/// How a material is measured and used up.
enum class Form {
    sheet,  ///< rectangles cut from rectangles
    length, ///< ribbon, lace, cord, tape
    wire,   ///< binding wire: loops on a strip
    count,  ///< envelopes, tags, buttons, clasps
    bulk,   ///< glue, ink: millilitres or grams
};

/// "sheet", "length", "wire", "count", "bulk".
std::string_view name_of(Form form);
std::optional<Form> read_form(std::string_view text);

/// True for the forms that are cut from units (sheets, rolls, strips) and leave remnants.
bool is_cut(Form form);

/// Size of one unit of stock, or of a remnant, in the smallest whole measure of its form:
/// sheet width and height in length units (1/8000 mm); length in length units; wire in loops;
/// count 1; bulk 1 (a thousandth of a millilitre or gram). Height is 1 for all but sheets.
struct StockSize {
    std::int64_t width = 1;
    std::int64_t height = 1;
    friend auto operator<=>(const StockSize&, const StockSize&) = default;

    /// Quantity of the form's measure in one unit: area, length, loops, 1, 1.
    Wide measure() const { return Wide{width} * height; }
};

/// Thousandths in a millilitre or gram, the measure of bulk.
inline constexpr std::int64_t bulk_per_unit = 1'000;

/// Largest quantity of one lot in its measure: keeps every sum over a lot inside 64 bits
/// (1.5 million sheets of 12 x 12 in).
inline constexpr std::int64_t most_measure = 9'000'000'000'000'000'000;

} // namespace barrow::base
