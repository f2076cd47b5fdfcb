#include "design/work_out.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "design/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

using base::Length;
using base::Rational;

constexpr std::int64_t most_of_one_part = 100'000;

class WorkingOut {
public:
    WorkingOut(const Design& design, const Changes& changes) : design_(design), changes_(changes) {}

    Worked run() {
        worked_.code = design_.code;
        worked_.name = design_.name;
        refuse_unknown_changes();
        set_parameters();
        for (const Definition& definition : design_.definitions)
            names_.define(definition.name, &definition.formula);
        name_cover();
        for (const Definition& definition : design_.definitions)
            explain(definition.name, definition.formula);
        work_cover();
        for (const PartSpec& part : design_.parts) work_part(part);
        if (worked_.parts.empty())
            throw base::bad_input(design_.file, "with these values no part is left");
        for (const Operation& operation : design_.operations) work_operation(operation);
        return std::move(worked_);
    }

private:
    void refuse_unknown_changes() const {
        std::vector<std::string> parameters;
        for (const Parameter& parameter : design_.parameters) parameters.push_back(parameter.name);
        refuse_unknown("--set", "parameter", changes_.parameters, parameters);
        std::vector<std::string> slots;
        for (const Slot& slot : design_.slots) slots.push_back(slot.name);
        refuse_unknown("--use", "material", changes_.materials, slots);
    }

    void refuse_unknown(std::string_view option, std::string_view what,
                        const std::map<std::string, std::string>& changes,
                        const std::vector<std::string>& known) const {
        for (const auto& [name, value] : changes) {
            if (std::find(known.begin(), known.end(), name) != known.end()) continue;
            std::string hint = base::did_you_mean(name, known);
            if (hint.empty())
                hint = known.empty() ? std::string("it has none")
                                     : fmt::format("it has {}", fmt::join(known, ", "));
            throw base::bad_input(fmt::format("{} {}={}", option, name, value),
                                  fmt::format("the design {} has no {} \"{}\"", design_.code, what,
                                              name),
                                  hint);
        }
    }

    void set_parameters() {
        for (const Parameter& parameter : design_.parameters) {
            Quantity value = parameter.usual;
            const auto change = changes_.parameters.find(parameter.name);
            if (change != changes_.parameters.end()) value = changed(parameter, change->second);
            check_limits(parameter, value);
            names_.set(parameter.name, value);
            worked_.explanations.push_back({parameter.name, {}, {}, to_text(value)});
        }
    }

    static Quantity changed(const Parameter& parameter, const std::string& text) {
        const Place place{{}, 0, 0, fmt::format("--set {}={}", parameter.name, text)};
        const Formula formula = parse_formula(text, place);
        const Quantity value = evaluate(formula, [&](std::string_view name, std::size_t) -> Quantity {
            throw base::bad_input(place.at(), fmt::format("\"{}\" is not a value", name),
                                  "give a number, with its unit where it has one: 17cm");
        });
        if (value.dimension != parameter.usual.dimension)
            throw base::bad_input(place.at(),
                                  fmt::format("is {}, but {} is {}", describe(value.dimension),
                                              parameter.name, describe(parameter.usual.dimension)),
                                  fmt::format("it is usually {}", to_text(parameter.usual)));
        return value;
    }

    static void check_limits(const Parameter& parameter, const Quantity& value) {
        const auto refuse = [&](const std::string& what) {
            throw base::bad_input(parameter.place.at(),
                                  fmt::format("{} is {}, which is {}", parameter.name,
                                              to_text(value), what));
        };
        if (parameter.whole && !value.number.is_whole()) refuse("not a whole number");
        if (parameter.least && value.number < parameter.least->number)
            refuse("below the least, " + to_text(*parameter.least));
        if (parameter.most && value.number > parameter.most->number)
            refuse("above the most, " + to_text(*parameter.most));
    }

    void name_cover() {
        if (!design_.cover) return;
        std::vector<const Formula*> widths;
        for (const Panel& panel : design_.cover->panels) {
            widths.push_back(&panel.width);
            names_.define("cover." + panel.name, &panel.width);
        }
        names_.define_sum("cover.length", widths);
        names_.define("cover.height", &design_.cover->height);
    }

    void explain(const std::string& name, const Formula& formula) {
        const Quantity value = names_.value(formula);
        worked_.explanations.push_back(
            {name, formula.text(), names_.spelled(formula), to_text(value)});
    }

    void work_cover() {
        if (!design_.cover) return;
        WorkedCover cover;
        std::string spelled;
        for (const Panel& panel : design_.cover->panels) {
            const Length width = length_of(panel.width);
            if (!cover.panels.empty()) cover.folds.push_back(cover.length);
            cover.panels.push_back({panel.name, cover.length, width});
            cover.length = cover.length + width;
            spelled += (spelled.empty() ? "" : " + ") + to_text(names_.value(panel.width));
            explain("cover." + panel.name, panel.width);
        }
        cover.height = length_of(design_.cover->height);
        worked_.explanations.push_back({"cover.length", "sum of the panels", spelled,
                                        base::mm_text(cover.length) + " mm"});
        explain("cover.height", design_.cover->height);
        worked_.cover = std::move(cover);
    }

    base::Error unfit(const Formula& formula, const Quantity& value, std::string_view wanted) const {
        return base::bad_input(formula.place().at(),
                               fmt::format("\"{}\" is {} ({}); expected {}", formula.text(),
                                           describe(value.dimension), to_text(value), wanted));
    }

    /// A length above zero.
    Length length_of(const Formula& formula) {
        const Length length = length_or_zero(formula);
        if (length.is_zero()) throw unfit(formula, names_.value(formula), "a length above zero");
        return length;
    }

    Length length_or_zero(const Formula& formula) {
        const Quantity value = names_.value(formula);
        if (value.dimension != a_length) throw unfit(formula, value, "a length");
        const auto length = as_length(value);
        if (!length) throw unfit(formula, value, "a length between zero and 100 km");
        return *length;
    }

    std::int64_t count_of(const Formula& formula) {
        const Quantity value = names_.value(formula);
        if (value.dimension != plain) throw unfit(formula, value, "a plain number");
        if (!value.number.is_whole())
            throw base::bad_input(formula.place().at(),
                                  fmt::format("\"{}\" is {}; expected a whole number",
                                              formula.text(), to_text(value)),
                                  "round it: round_up(..., 1) or round_down(..., 1)");
        if (value.number < Rational(0) || value.number > Rational(most_of_one_part))
            throw unfit(formula, value, fmt::format("a number from 0 to {}", most_of_one_part));
        return value.number.number();
    }

    void work_part(const PartSpec& spec) {
        WorkedPart part;
        part.name = spec.name;
        part.slot = spec.slot;
        part.take = spec.take;
        part.turn = spec.turn;
        part.grain = spec.grain;
        part.number = spec.number.empty() ? 1 : count_of(spec.number);
        if (part.number == 0) return;
        for (const Slot& slot : design_.slots)
            if (slot.name == spec.slot) part.material = slot.code;
        const auto change = changes_.materials.find(spec.slot);
        if (change != changes_.materials.end()) part.material = change->second;
        switch (spec.take) {
        case Take::piece:
            part.width = length_of(spec.width);
            part.height = length_of(spec.height);
            if (spec.join_at_folds) work_joins(spec, part);
            break;
        case Take::length: part.length = length_of(spec.length); break;
        case Take::loops: part.loops = count_of(spec.loops); break;
        case Take::spread: work_amount(spec, part); break;
        case Take::count: break;
        }
        if (spec.take == Take::loops && part.loops == 0) return;
        worked_.parts.push_back(std::move(part));
    }

    void work_joins(const PartSpec& spec, WorkedPart& part) {
        part.overlap = length_or_zero(spec.overlap);
        const Length from = spec.from.empty() ? Length() : length_or_zero(spec.from);
        for (const Length fold : worked_.cover->folds)
            if (fold > from && fold < from + part.width) part.joins.push_back(fold - from);
    }

    void work_amount(const PartSpec& spec, WorkedPart& part) {
        const Quantity value = names_.value(spec.amount);
        if (value.dimension != a_volume && value.dimension != a_mass)
            throw unfit(spec.amount, value, "a volume (ml) or a mass (g)");
        if (value.number < Rational(0)) throw unfit(spec.amount, value, "an amount above zero");
        part.amount = value.number;
        part.amount_is_mass = value.dimension == a_mass;
    }

    void work_operation(const Operation& operation) {
        const Quantity value = names_.value(operation.minutes);
        if (value.dimension != plain || value.number < Rational(0))
            throw unfit(operation.minutes, value, "minutes as a plain number, zero or more");
        Rational& sum = operation.per_batch ? worked_.minutes_per_batch : worked_.minutes_per_journal;
        sum = sum + value.number;
    }

    const Design& design_;
    const Changes& changes_;
    Names names_;
    Worked worked_;
};

} // namespace

Worked work_out(const Design& design, const Changes& changes) {
    return WorkingOut(design, changes).run();
}

} // namespace barrow::design
