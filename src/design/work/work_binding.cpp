#include "design/binding/binding.hpp"
#include "design/work/desk.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

using base::Length;
using base::Rational;

constexpr std::string_view prefix = "binding.";

/// `text` with $key replaced by the slot given for that key, and $panel by the panel.
std::string with_slots(std::string_view text, const BindingSpec& spec) {
    std::string result(text);
    const auto put = [&result](const std::string& mark, const std::string& value) {
        for (std::size_t at = result.find(mark); at != std::string::npos;
             at = result.find(mark, at + value.size()))
            result.replace(at, mark.size(), value);
    };
    for (const auto& [key, slot] : spec.slots) put("$" + key, slot);
    put("$panel", spec.panel);
    return result;
}

/// Names behind "binding." that a formula uses.
std::vector<std::string> own_names_in(const Formula& formula) {
    std::vector<std::string> names;
    for (const std::string& name : names_in(formula))
        if (name.substr(0, prefix.size()) == prefix) names.push_back(name.substr(prefix.size()));
    return names;
}

/// One number of the binding: a key or a name that follows.
struct Number {
    std::string name;
    std::string about;
    const Formula* formula = nullptr;
    bool if_known = false;
    bool whole = false;
};

class BindingWork {
public:
    explicit BindingWork(Desk& desk)
        : desk_(desk), spec_(*desk.design.binding), kind_(*spec_.kind) {}

    /// Keys and names in the order of the kind; a name that needs a key nobody gave is left out.
    std::vector<Number> numbers() {
        std::vector<Number> all;
        for (const BindingKey& key : kind_.keys)
            if (key.is == BindingKey::Is::formula)
                if (const Formula* formula = formula_of(key))
                    all.push_back({std::string(key.name), std::string(key.about), formula,
                                   key.if_known && spec_.given.count(std::string(key.name)) == 0,
                                   key.whole});
        for (const BindingName& name : kind_.names)
            all.push_back({std::string(name.name), std::string(name.about),
                           own(name.formula, name.name), name.if_known, false});
        leave_out(all);
        return all;
    }

    void work() {
        WorkedBinding binding;
        binding.kind = kind_.name;
        for (const Number& number : numbers())
            desk_.attempt(number.formula->place(), [&] { work_number(number, binding); });
        for (const BindingRow& row : kind_.row)
            desk_.attempt(spec_.place, [&] { mark(row, binding); });
        for (const std::string_view note : kind_.notes)
            desk_.attempt(spec_.place, [&] {
                auto text = desk_.if_known(
                    [&] { return desk_.names.filled_in(std::string(note), spec_.place.at()); });
                if (text) binding.notes.push_back(std::move(*text));
            });
        for (const BindingCheck& check : kind_.checks) work_check(check);
        desk_.worked.binding = std::move(binding);
    }

private:
    const Formula* own(std::string_view text, std::string_view name) {
        Place place = spec_.place;
        place.field += fmt::format(" {}", name);
        return &desk_.own_formula(with_slots(text, spec_), place);
    }

    const Formula* formula_of(const BindingKey& key) {
        const auto given = spec_.given.find(std::string(key.name));
        if (given != spec_.given.end()) return &given->second;
        return key.otherwise.empty() ? nullptr : own(key.otherwise, key.name);
    }

    /// Takes out, again and again, what uses a name of the binding that is not there.
    static void leave_out(std::vector<Number>& all) {
        const auto there = [&all](const std::string& name) {
            return std::any_of(all.begin(), all.end(),
                               [&](const Number& number) { return number.name == name; });
        };
        for (bool changed = true; changed;) {
            const auto lacking = std::find_if(all.begin(), all.end(), [&](const Number& number) {
                const auto names = own_names_in(*number.formula);
                return !std::all_of(names.begin(), names.end(), there);
            });
            changed = lacking != all.end();
            if (changed) all.erase(lacking);
        }
    }

    void work_number(const Number& number, WorkedBinding& binding) {
        const std::string name = std::string(prefix) + number.name;
        const auto work = [&] {
            const Quantity value = desk_.names.value(name, number.formula->place().at());
            if (number.whole && (!value.number.is_whole() || value.number < Rational(1)))
                Desk::refuse(*number.formula, value, "a whole number above zero");
            if (value.number < Rational(0))
                Desk::refuse(*number.formula, value, "a value of zero or more");
            desk_.explain("binding", name, *number.formula);
            binding.numbers.push_back({number.name, number.about, value});
            return true;
        };
        if (number.if_known) {
            desk_.if_known(work);
        } else {
            work();
        }
    }

    Length length_called(std::string_view name) {
        const Quantity value =
            desk_.names.value(std::string(prefix) + std::string(name), spec_.place.at());
        const auto length = value.dimension == a_length ? as_length(value) : std::nullopt;
        if (!length)
            throw base::bad_input(spec_.place.at(), fmt::format("{} comes to {}; expected a length",
                                                                name, to_text(value)));
        return *length;
    }

    /// The row of holes or stations, each put on the grid from its exact place.
    void mark(const BindingRow& row, WorkedBinding& binding) {
        const auto value = [&](std::string_view name) {
            return desk_.names.value(std::string(prefix) + std::string(name), spec_.place.at());
        };
        const Quantity number = value(row.number);
        constexpr std::int64_t most_marks = 10'000;
        if (!number.number.is_whole() || number.number > Rational(most_marks))
            throw base::bad_input(spec_.place.at(),
                                  fmt::format("there cannot be {} {}s", to_text(number), row.mark));
        const Quantity first = value(row.first);
        const Quantity step = value(row.step);
        binding.mark = row.mark;
        binding.edge = length_called(row.edge);
        for (std::int64_t i = 0; i < number.number.number(); ++i) {
            const auto at = as_length({first.number + Rational(i) * step.number, a_length});
            if (!at || *at > binding.edge)
                throw base::bad_input(spec_.place.at(),
                                      fmt::format("{} {} lies beyond the edge", row.mark, i + 1));
            binding.marks.push_back(*at);
        }
        if (!row.hole.empty()) binding.hole = length_called(row.hole);
        if (!row.setback.empty())
            binding.setback = desk_.if_known([&] { return length_called(row.setback); });
        const Quantity rows = row.rows.empty() ? Quantity{Rational(1), {}} : value(row.rows);
        find_on_cover(binding, rows.number);
    }

    /// The row runs up the middle of its panel, its edge centred on the height of the cover;
    /// several rows stand in the middle of strips of one width.
    void find_on_cover(WorkedBinding& binding, const Rational& rows) const {
        if (!desk_.worked.cover) return;
        for (const WorkedPanel& panel : desk_.worked.cover->panels) {
            if (panel.name != spec_.panel) continue;
            binding.panel = panel.name;
            for (std::int64_t i = 0; i < rows.number(); ++i) {
                const auto at = as_length({Rational::of(panel.width.units() * (2 * i + 1), 2) / rows
                                               / Rational(Length::mm(1).units()),
                                           a_length});
                binding.panel_rows.push_back(panel.start + at.value());
            }
            const Length over = desk_.worked.cover->height - binding.edge;
            binding.panel_y = Length::of_units(over.units() / 2);
        }
    }

    void work_check(const BindingCheck& check) {
        if (check.for_panel && spec_.panel.empty()) return;
        desk_.attempt(spec_.place, [&] {
            Place place = spec_.place;
            place.column = 0;
            const Formula condition = parse_condition(with_slots(check.holds, spec_), place);
            for (const std::string& name : names_in(condition))
                if (!desk_.names.has(name)) return; // hangs on a key nobody gave
            const auto well = desk_.if_known([&] { return desk_.names.holds(condition); });
            if (well && !*well)
                desk_.warn(desk_.names.filled_in(with_slots(check.say, spec_), place.at(),
                                                 "a size that is not made"),
                           check.severity);
        });
    }

    Desk& desk_;
    const BindingSpec& spec_;
    const BindingKind& kind_;
};

} // namespace

void name_binding(Desk& desk) {
    if (!desk.design.binding) return;
    desk.attempt(desk.design.binding->place, [&] {
        for (const Number& number : BindingWork(desk).numbers())
            desk.names.define(std::string(prefix) + number.name, number.formula);
    });
}

void work_binding(Desk& desk) {
    if (!desk.design.binding) return;
    desk.attempt(desk.design.binding->place, [&] { BindingWork(desk).work(); });
}

} // namespace barrow::design
