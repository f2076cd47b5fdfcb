#pragma once

#include "base/length.hpp"
#include "base/money.hpp"
#include "costing/price/estimate.hpp"
#include "store/file/database.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::workshop {

/// In which order cost is used up. With pick-the-lot the maker names the lots (specific
/// identification), and what she names is taken as it comes.
enum class CostOrder { first_in_first_out, moving_average, pick_the_lot };

/// "first-in-first-out", "moving-average", "pick-the-lot".
std::string_view name_of(CostOrder order);

/// The order as the calculation knows it: picked lots are taken first in, first out, in the order
/// in which they were picked.
costing::CostOrder costing_order(CostOrder order);

/// The shop's choices, understood. Names and meanings are in setting_names().
struct Settings {
    base::Currency currency{"GBP", 2};
    base::Unit unit = base::Unit::mm;
    std::optional<base::Unit> bare_unit; ///< of lengths written without one; nothing: refused
    std::optional<base::Money> per_hour; ///< nothing until it is set: then work is not counted
    base::Rational overheads;
    costing::Rates::Base overheads_on = costing::Rates::Base::materials_and_labour;
    base::Rational margin = base::Rational::of(1, 2);
    costing::PricePoints price_points{base::Money::of_minor(50), base::Money()};
    base::Rational offcut_share = base::Rational(1);
    CostOrder cost_order = CostOrder::first_in_first_out;
    std::string maker; ///< who keeps the book; on every posting
};

/// One setting for a settings screen: its name, what it means, its present value.
struct SettingLine {
    std::string name;
    std::string about;
    std::string value;
};

/// All settings there are, with their meaning, in the order in which they are shown.
std::vector<SettingLine> describe(const Settings& settings);

/// The settings of a shop; what it does not say has the value of a fresh Settings.
Settings read_settings(store::Database& database);

/// Reads one setting into `settings`. Throws base::Error: Kind::usage for a name there is not
/// (with the nearest), Kind::bad_input for a value that does not fit.
void apply_setting(Settings& settings, const std::string& name, const std::string& value);

/// Value of a percentage: "15", "15%" or "33 1/3 %" as a share. Throws base::Error (bad_input).
base::Rational read_percent(const std::string& text, const std::string& where);

} // namespace barrow::workshop
