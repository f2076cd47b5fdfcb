#include "print/making/design_numbers.hpp"

#include "print/making/design_drawing.hpp"
#include "print/making/warnings.hpp"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <vector>

namespace barrow::print {
namespace {

using base::Length;

/// Groups of explanations, with what stands over each.
struct Group {
    std::string_view name;
    std::string_view heading;
};
constexpr std::array<Group, 8> groups = {{{"parameter", "Given"},
                                          {"let", "Follows"},
                                          {"material", "Materials"},
                                          {"cover", "Cover"},
                                          {"block", "Thickness"},
                                          {"binding", "Binding"},
                                          {"part", "Parts"},
                                          {"filler", "Fillers"}}};

std::string how(const design::Explanation& explanation) {
    if (explanation.formula == explanation.value) return {};
    if (explanation.spelled.empty() || explanation.spelled == explanation.formula)
        return explanation.formula;
    // A name alone is enough: its value is in the column before.
    if (explanation.spelled == explanation.value) return explanation.formula;
    return explanation.formula + " = " + explanation.spelled;
}

void add_explanations(Blocks& blocks, const design::Worked& worked) {
    for (const Group& group : groups) {
        Facts facts{std::string(group.heading), "Value", {{}}};
        for (const design::Explanation& explanation : worked.explanations)
            if (explanation.group == group.name)
                facts.groups[0].facts.push_back(
                    {explanation.name, explanation.value, how(explanation), false});
        if (!facts.groups[0].facts.empty()) blocks.add(facts);
    }
}

std::string list_of(const std::vector<Length>& lengths, base::Unit unit) {
    std::string text;
    for (const Length length : lengths)
        text += (text.empty() ? "" : ", ") + base::show(length, unit, true);
    return text + " " + std::string(base::symbol(unit));
}

Steps scores_of(const design::WorkedCover& cover, base::Unit unit) {
    std::vector<Length> inwards;
    std::vector<Length> outwards;
    for (const design::Score& score : cover.scores)
        (score.fold_out ? outwards : inwards).push_back(score.from_left);
    Steps steps;
    if (!inwards.empty())
        steps.steps.push_back(
            fmt::format("Score at {} from the left edge.", list_of(inwards, unit)));
    if (!outwards.empty())
        steps.steps.push_back(
            fmt::format("Turn the board over head to tail, and score at {} from the same edge.",
                        list_of(outwards, unit)));
    return steps;
}

void add_cover(Blocks& blocks, const design::WorkedCover& cover, base::Unit unit) {
    blocks.add(
        Heading{fmt::format("Cover, lying flat: {} long, {} high", base::show(cover.length, unit),
                            base::show(cover.height, unit))});
    Table panels({{"Panel"}, {"from the left edge", Kind::length}, {"width", Kind::length}});
    for (const design::WorkedPanel& panel : cover.panels)
        panels.row({panel.name, Cell(base::show(panel.start, unit), Kind::length),
                    Cell(base::show(panel.width, unit), Kind::length)});
    blocks.under(panels);
    blocks.under(scores_of(cover, unit));
    if (cover.open != cover.length)
        blocks.under(
            Text{fmt::format("Open, flaps turned in: {} long.", base::show(cover.open, unit))});
    if (cover.closed_width && cover.closed_thickness)
        blocks.under(Text{fmt::format(
            "Closed: {} x {} x {} thick.", base::show(*cover.closed_width, unit),
            base::show(cover.height, unit), base::show(*cover.closed_thickness, unit))});
}

void add_binding(Blocks& blocks, const design::WorkedBinding& binding, base::Unit unit) {
    bool first = true;
    const auto add = [&](const std::string& text) {
        if (first)
            blocks.add(Text{text, 2});
        else
            blocks.under(Text{text, 2});
        first = false;
    };
    for (const std::string& own : binding.notes) add(own);
    if (!binding.marks.empty())
        add(fmt::format("The {}s stand at {} from the end of the edge{}.", binding.mark,
                        list_of(binding.marks, unit),
                        binding.setback
                            ? fmt::format(", {} in from it", base::show(*binding.setback, unit))
                            : std::string()));
}

} // namespace

void add_numbers(Blocks& blocks, const design::Worked& worked, base::Unit unit) {
    add_explanations(blocks, worked);
    if (worked.cover) {
        add_cover(blocks, *worked.cover, unit);
        blocks.add(Drawing{cover_drawing(worked, unit)});
    }
    if (worked.block)
        blocks.add(Text{fmt::format("Between the covers: {} empty, {} filled.",
                                    base::show(worked.block->empty, unit),
                                    base::show(worked.block->thickness, unit))});
    if (worked.binding) add_binding(blocks, *worked.binding, unit);
}

void add_warnings(Blocks& blocks, const design::Worked& worked) {
    bool first = true;
    const auto add = [&](const Text& text) {
        if (first)
            blocks.add(text);
        else
            blocks.under(text);
        first = false;
    };
    for (const design::Warning& warning : worked.warnings) add(warning_text(warning, "."));
    for (const std::string& missing : worked.not_known) add(Text{"Not known: " + missing + ".", 2});
}

} // namespace barrow::print
