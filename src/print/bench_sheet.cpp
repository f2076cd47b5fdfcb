#include "print/screens.hpp"

#include "base/text.hpp"
#include "print/table.hpp"
#include "print/words.hpp"
#include "workshop/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace barrow::print {

using base::Form;
using base::Length;
using costing::CutPlan;
using costing::CutWant;
using costing::SheetUse;
using costing::Source;

namespace {

class BenchSheet {
public:
    BenchSheet(const workshop::Costing& costing, const CutPlan& plan)
        : costing_(costing), plan_(plan), material_(*plan.material),
          unit_(costing.settings.unit) {}

    std::string text() const {
        std::string text = fmt::format("{}  {}\n", material_.code, material_.name);
        for (std::size_t p = 0; p < plan_.outcome.plans.size(); ++p) text += one_plan(p);
        return text;
    }

private:
    std::string measure(std::int64_t value) const {
        return material_.form == Form::wire ? base::counted(value, "loop")
                                            : base::show(Length::of_units(value), unit_);
    }

    std::string source_text(const SheetUse& sheet) const {
        const std::string word = workshop::unit_word(material_.form, false);
        switch (sheet.source.kind) {
        case Source::Kind::lot: return "new " + word;
        case Source::Kind::to_buy: return word + " still to be bought";
        case Source::Kind::offcut: break;
        }
        for (const costing::ShelfOffcut& offcut : material_.offcuts)
            if (offcut.id == sheet.source.id) return "offcut " + offcut.code;
        return "offcut";
    }

    /// "2 new sheets, offcut K7M-4": what this plan is cut from.
    std::string sources(std::size_t p) const {
        std::map<std::string, int> counted;
        std::vector<std::string> order;
        for (const SheetUse& sheet : plan_.sheets) {
            if (sheet.plan != p) continue;
            const std::string name = source_text(sheet);
            if (counted[name]++ == 0) order.push_back(name);
        }
        std::string text;
        for (const std::string& name : order) {
            text += text.empty() ? "" : ", ";
            text += counted[name] > 1 ? fmt::format("{} x {}", counted[name], name) : name;
        }
        return text;
    }

    std::string part_name(const CutWant& want) const {
        std::string name = costing_.runs[want.origin.run].design.parts[want.origin.part].name;
        if (costing_.runs.size() > 1)
            name += " of " + costing_.runs[want.origin.run].design.code;
        if (want.joined_from > 1)
            name += fmt::format(" ({} of {})", want.joint + 1, want.joined_from);
        return name;
    }

    std::string one_plan(std::size_t p) const {
        const layout::Plan& plan = plan_.outcome.plans[p];
        const layout::Stock& stock = plan_.job.stock[plan.stock];
        std::string text = fmt::format(
            "\n  {}: {}, {}{}\n", letter(p), sources(p),
            size_text(material_.form, {stock.width, stock.height}, unit_),
            plan.copies > 1 ? fmt::format("; cut {} alike", plan.copies) : "");
        text += indented(cuts(plan, stock));
        text += "    gives " + wrapped(gives(plan), 84, 10) + "\n";
        if (!plan.offcuts.empty()) text += "    keep  " + wrapped(keeps(plan), 84, 10) + "\n";
        return text;
    }

    static std::string letter(std::size_t p) {
        std::string name(1, static_cast<char>('A' + p % 26));
        if (p >= 26) name += std::to_string(p / 26);
        return name;
    }

    static std::string indented(const std::string& text) {
        std::string result = "    ";
        for (std::size_t i = 0; i < text.size(); ++i) {
            result += text[i];
            if (text[i] == '\n' && i + 1 < text.size()) result += "    ";
        }
        return result;
    }

    std::string cuts(const layout::Plan& plan, const layout::Stock& stock) const {
        if (material_.form != Form::sheet) return lengths(plan);
        Table table({{"cut", Align::right}, {"", Align::left}, {"set to", Align::right}, {"where"}});
        const layout::Margin& margin = stock.margin;
        if (margin.left + margin.right + margin.top + margin.bottom > 0)
            table.row({"first", "trim", trim_text(margin), "the edges that cannot be used"});
        std::int64_t n = 0;
        for (const layout::Cut& cut : plan.cuts) {
            const bool upright = cut.axis == layout::Cut::Axis::x;
            table.row({std::to_string(++n), upright ? "upright" : "level", measure(cut.stop),
                       fmt::format("at {} from the {}, over {}{}", measure(cut.at),
                                   upright ? "left" : "bottom", measure(cut.to - cut.from),
                                   cut.beyond_trimmer ? " (longer than the trimmer)" : "")});
        }
        return table.text();
    }

    std::string trim_text(const layout::Margin& margin) const {
        std::string text;
        const auto side = [&](const char* name, layout::Measure value) {
            if (value > 0)
                text += fmt::format("{}{} {}", text.empty() ? "" : ", ", name, measure(value));
        };
        side("left", margin.left);
        side("right", margin.right);
        side("top", margin.top);
        side("bottom", margin.bottom);
        return text;
    }

    /// Lengths and loops are cut one after the other from the free end.
    std::string lengths(const layout::Plan& plan) const {
        std::string text;
        for (const layout::Placed& placed : plan.pieces)
            text += (text.empty() ? "cut " : ", ") + measure(placed.place.width);
        return text + "\n";
    }

    std::string gives(const layout::Plan& plan) const {
        std::map<std::size_t, int> counts;
        for (const layout::Placed& placed : plan.pieces) ++counts[placed.piece];
        std::string text;
        for (const auto& [piece, count] : counts) {
            const CutWant& want = plan_.wants[piece];
            if (!text.empty()) text += "; ";
            text += fmt::format("{} {}", count, part_name(want));
            if (material_.form == Form::sheet)
                text += " " + size_text(Form::sheet, want.size, unit_);
        }
        return text;
    }

    std::string keeps(const layout::Plan& plan) const {
        std::string text;
        for (const layout::Rectangle& place : plan.offcuts)
            text += (text.empty() ? "" : ", ")
                + size_text(material_.form, {place.width, place.height}, unit_);
        return text;
    }

    const workshop::Costing& costing_;
    const CutPlan& plan_;
    const costing::ShelfMaterial& material_;
    base::Unit unit_;
};

std::string proof_text(const CutPlan& plan) {
    if (plan.outcome.status == layout::Status::optimal)
        return "No plan with less stock exists; this is proven.";
    return "A plan with a little less stock may exist; none was found.";
}

} // namespace

std::string bench_sheet(const workshop::Costing& costing) {
    std::string text;
    for (const CutPlan& plan : costing.estimate.cuts) {
        text += BenchSheet(costing, plan).text();
        text += "  " + proof_text(plan) + "\n\n";
    }
    if (text.empty()) return "There is nothing to cut.\n";
    return text
        + "Level cuts run along the width, upright cuts along the height, the pattern upright.\n"
          "\"Set to\" is the measure from the edge that lies against the stop.\n\n"
        + cautions(costing.hazards);
}

} // namespace barrow::print
