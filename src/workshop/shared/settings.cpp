#include "workshop/shared/settings.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "store/file/settings.hpp"
#include "store/ledger/decisions.hpp"
#include "store/ledger/transaction.hpp"
#include "workshop/shared/fields.hpp"

#include <fmt/format.h>

#include <array>

namespace barrow::workshop {
namespace {

using base::Rational;

/// What a setting shows, and is kept as, that has no value yet.
constexpr std::string_view not_set = "not set";

struct Setting {
    std::string_view name;
    std::string_view about;
    std::string (*show)(const Settings&);
    void (*apply)(Settings&, const std::string& value, const std::string& where);
};

std::string exact_percent(const Rational& share) {
    return base::to_text(share * Rational(100)) + "%";
}

base::Unit read_shop_unit(const std::string& value, const std::string& where) {
    const auto unit = base::read_unit(value);
    if (!unit)
        throw base::bad_input(where, fmt::format("\"{}\" is not a unit of length", value),
                              "expected mm, cm, m, in, ft or yd");
    return *unit;
}

costing::Rates::Base read_base(const std::string& value, const std::string& where) {
    if (value == "labour") return costing::Rates::Base::labour;
    if (value == "materials-and-labour") return costing::Rates::Base::materials_and_labour;
    throw base::bad_input(where, fmt::format("\"{}\" is not understood", value),
                          "expected labour or materials-and-labour");
}

CostOrder read_cost_order(const std::string& value, const std::string& where) {
    for (const CostOrder order :
         {CostOrder::first_in_first_out, CostOrder::moving_average, CostOrder::pick_the_lot})
        if (value == name_of(order)) return order;
    throw base::bad_input(where, fmt::format("\"{}\" is not understood", value),
                          "expected first-in-first-out, moving-average or pick-the-lot");
}

Rational read_share(const std::string& value, const std::string& where, bool below_one) {
    const Rational share = read_percent(value, where);
    if (below_one ? share >= Rational(1) : share > Rational(1))
        throw base::bad_input(where, fmt::format("\"{}\" is too much", value),
                              below_one ? "expected from 0% to below 100%"
                                        : "expected from 0% to 100%");
    return share;
}

const std::array<Setting, 12>& all() {
    static const std::array<Setting, 12> settings = {{
        {"maker", "who keeps this book; noted beside every entry",
         [](const Settings& s) { return s.maker; },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.maker = plain_text(v, w);
         }},
        {"currency", "ISO 4217 code of the money used (fixed once stock is booked)",
         [](const Settings& s) { return s.currency.code; },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.currency = base::read_currency(v, w);
         }},
        {"unit", "unit in which lengths are shown: mm, cm, m, in, ft, yd",
         [](const Settings& s) { return std::string(base::symbol(s.unit)); },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.unit = read_shop_unit(v, w);
         }},
        {"bare-unit", "unit of lengths written without one; none: they are refused",
         [](const Settings& s) {
             return std::string(s.bare_unit ? base::symbol(*s.bare_unit) : "none");
         },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.bare_unit.reset();
             if (v != "none") s.bare_unit = read_shop_unit(v, w);
         }},
        {"hourly-rate", "what an hour of your work costs; until it is set there are no prices",
         [](const Settings& s) {
             return s.per_hour ? base::to_text(*s.per_hour, s.currency) : std::string(not_set);
         },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.per_hour.reset();
             if (v != not_set) s.per_hour = base::read_money(v, s.currency, w);
         }},
        {"overheads", "rent, light, tools: percent added to the cost",
         [](const Settings& s) { return exact_percent(s.overheads); },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.overheads = read_percent(v, w);
         }},
        {"overheads-on", "what they are a percentage of: labour, or materials-and-labour",
         [](const Settings& s) {
             return std::string(s.overheads_on == costing::Rates::Base::labour
                                    ? "labour"
                                    : "materials-and-labour");
         },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.overheads_on = read_base(v, w);
         }},
        {"margin", "wanted profit as a percentage of the price (not of the cost)",
         [](const Settings& s) { return exact_percent(s.margin); },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.margin = read_share(v, w, true);
         }},
        {"price-step", "prices are rounded up to a multiple of this",
         [](const Settings& s) { return base::to_text(s.price_points.step, s.currency); },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.price_points.step = base::read_money(v, s.currency, w);
             if (s.price_points.step.minor() == 0)
                 throw base::bad_input(w, "the step is zero", "expected an amount above zero");
         }},
        {"price-below", "less this: step 1.00 and below 0.05 give 11.95, 12.95",
         [](const Settings& s) { return base::to_text(s.price_points.below, s.currency); },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.price_points.below = base::read_money(v, s.currency, w);
         }},
        {"offcut-share", "how much of its fair share by area an offcut carries: 0% to 100%",
         [](const Settings& s) { return exact_percent(s.offcut_share); },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.offcut_share = read_share(v, w, false);
         }},
        {"cost-order", "first-in-first-out, moving-average or pick-the-lot",
         [](const Settings& s) { return std::string(name_of(s.cost_order)); },
         [](Settings& s, const std::string& v, const std::string& w) {
             s.cost_order = read_cost_order(v, w);
         }},
    }};
    return settings;
}

} // namespace

std::string_view name_of(CostOrder order) {
    switch (order) {
    case CostOrder::first_in_first_out: return "first-in-first-out";
    case CostOrder::moving_average: return "moving-average";
    case CostOrder::pick_the_lot: return "pick-the-lot";
    }
    throw base::broken("a cost order without a name");
}

costing::CostOrder costing_order(CostOrder order) {
    return order == CostOrder::moving_average ? costing::CostOrder::moving_average
                                              : costing::CostOrder::first_in_first_out;
}

std::vector<SettingLine> describe(const Settings& settings) {
    std::vector<SettingLine> lines;
    for (const Setting& setting : all())
        lines.push_back(
            {std::string(setting.name), std::string(setting.about), setting.show(settings)});
    return lines;
}

Settings read_settings(store::Database& database) {
    Settings settings;
    std::map<std::string, std::string> values;
    store::read(database, [&] {
        values = store::all_settings(database);
        // The cost order is no plain setting but a decision with a date, kept in the ledger.
        values.erase("cost-order");
        if (const auto order = store::cost_order(database)) values["cost-order"] = *order;
    });
    // In the order of the list: money can only be read once the currency is known.
    for (const Setting& setting : all()) {
        const auto value = values.find(std::string(setting.name));
        if (value != values.end()) setting.apply(settings, value->second, "setting");
    }
    return settings;
}

void apply_setting(Settings& settings, const std::string& name, const std::string& value) {
    std::vector<std::string> names;
    for (const Setting& setting : all()) {
        names.emplace_back(setting.name);
        if (setting.name != name) continue;
        setting.apply(settings, value, name);
        if (settings.price_points.below >= settings.price_points.step)
            throw base::bad_input(name,
                                  "what prices lie below their step is not less than the step",
                                  "set price-step and price-below so that it is");
        return;
    }
    std::string hint = base::did_you_mean(name, names);
    if (hint.empty()) hint = fmt::format("settings: {}", fmt::join(names, ", "));
    throw base::Error(base::Kind::usage, fmt::format("there is no setting \"{}\"", name), hint);
}

Rational read_percent(const std::string& text, const std::string& where) {
    std::string_view plain = base::trimmed(text);
    if (!plain.empty() && plain.back() == '%')
        plain = base::trimmed(plain.substr(0, plain.size() - 1));
    const auto value = base::read_rational(plain);
    if (!value || *value < Rational(0) || *value > Rational(10'000))
        throw base::bad_input(where, fmt::format("\"{}\" is not a percentage", text),
                              "expected for example 15% or 33.3%");
    return *value / Rational(100);
}

} // namespace barrow::workshop
