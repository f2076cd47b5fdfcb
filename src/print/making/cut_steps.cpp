#include "print/making/cut_steps.hpp"

#include "base/text.hpp"
#include "print/text/words.hpp"

#include <fmt/format.h>

namespace barrow::print {

using base::Form;

namespace {

std::string trim_text(Form form, const layout::Margin& margin, base::Unit unit) {
    std::string text;
    const auto side = [&](const char* name, layout::Measure value) {
        if (value > 0)
            text += fmt::format("{}{} {}", text.empty() ? "" : ", ", name,
                                cut_measure(form, value, unit));
    };
    side("left", margin.left);
    side("right", margin.right);
    side("top", margin.top);
    side("bottom", margin.bottom);
    return text;
}

} // namespace

std::string cut_measure(Form form, layout::Measure value, base::Unit unit) {
    return form == Form::wire ? base::counted(value, "loop")
                              : base::show(base::Length::of_units(value), unit);
}

Content cut_steps(Form form, const layout::Plan& plan, const layout::Stock& stock,
                  base::Unit unit) {
    const auto measure = [&](layout::Measure value) { return cut_measure(form, value, unit); };
    if (form != Form::sheet) {
        std::string text;
        for (const layout::Placed& placed : plan.pieces)
            text += (text.empty() ? "cut " : ", ") + measure(placed.place.width);
        return Text{text, 4};
    }
    Table table({{"cut", Kind::count},
                 {"", Kind::text, false, "direction"},
                 {"set to", Kind::length},
                 {"where"}});
    const layout::Margin& margin = stock.margin;
    if (margin.left + margin.right + margin.top + margin.bottom > 0)
        table.row(
            {"first", "trim", trim_text(form, margin, unit), "the edges that cannot be used"});
    std::int64_t n = 0;
    for (const layout::Cut& cut : plan.cuts) {
        const bool up = cut.axis == layout::Cut::Axis::x;
        table.row({count(++n), up ? "up" : "across", Cell(measure(cut.stop), Kind::length),
                   fmt::format("at {} from the {}, over {}{}", measure(cut.at),
                               up ? "left" : "bottom", measure(cut.to - cut.from),
                               cut.beyond_trimmer ? " (longer than the trimmer)" : "")});
    }
    return table;
}

std::string kept_sizes(Form form, const layout::Plan& plan, base::Unit unit) {
    std::string text;
    for (const layout::Rectangle& place : plan.offcuts)
        text += (text.empty() ? "" : ", ") + size_text(form, {place.width, place.height}, unit);
    return text;
}

void add_how_to_read(Blocks& blocks) {
    blocks.add(Text{"Cuts across run along the width, cuts up along the height, with the pattern "
                    "upright."});
    blocks.under(Text{"\"Set to\" is the measure from the edge that lies against the stop."});
}

} // namespace barrow::print
