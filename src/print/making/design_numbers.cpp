#include "print/making/design_screens.hpp"

#include "base/text.hpp"
#include "print/making/warnings.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <sstream>
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
    // A name alone says all: its value stands beside it.
    if (explanation.spelled == explanation.value) return explanation.formula;
    return explanation.formula + " = " + explanation.spelled;
}

std::string spaces_to(std::size_t width, const std::string& text) {
    const std::size_t own = base::display_width(text);
    return std::string(width > own ? width - own : 0, ' ');
}

/// "cover.length  372 mm  = 130 mm + ...": values one under the other, and how each came about
/// beside it, broken into lines.
std::string lines_of(const std::vector<const design::Explanation*>& explanations,
                     const std::string& heading) {
    std::size_t names = heading.size();
    std::size_t values = 5;
    for (const design::Explanation* explanation : explanations) {
        names = std::max(names, base::display_width(explanation->name));
        values = std::max(values, base::display_width(explanation->value));
    }
    const std::size_t indent = names + values + 4;
    const std::size_t room = std::max(page_width, indent + 40) - indent;
    std::string text = heading + spaces_to(names + values - 3, heading) + "Value\n";
    for (const design::Explanation* explanation : explanations) {
        text += explanation->name + spaces_to(names, explanation->name) + "  "
                + spaces_to(values, explanation->value) + explanation->value;
        std::istringstream came(wrapped(how(*explanation), room, 2));
        std::string gap = "  ";
        for (std::string line; std::getline(came, line);) {
            text += gap + line;
            gap = "\n" + std::string(indent, ' ');
        }
        text += "\n";
    }
    return text;
}

std::string explanations_text(const design::Worked& worked) {
    std::string text;
    for (const Group& group : groups) {
        std::vector<const design::Explanation*> explanations;
        for (const design::Explanation& explanation : worked.explanations)
            if (explanation.group == group.name) explanations.push_back(&explanation);
        if (!explanations.empty())
            text += lines_of(explanations, std::string(group.heading)) + "\n";
    }
    return text;
}

std::string list_of(const std::vector<Length>& lengths, base::Unit unit) {
    std::string text;
    for (const Length length : lengths)
        text += (text.empty() ? "" : ", ") + base::show(length, unit, true);
    return text + " " + std::string(base::symbol(unit));
}

std::string scores_text(const design::WorkedCover& cover, base::Unit unit) {
    std::vector<Length> inwards;
    std::vector<Length> outwards;
    for (const design::Score& score : cover.scores)
        (score.fold_out ? outwards : inwards).push_back(score.from_left);
    std::string text;
    if (!inwards.empty())
        text += fmt::format("Score at {} from the left edge.\n", list_of(inwards, unit));
    if (!outwards.empty())
        text +=
            fmt::format("Turn the board over head to tail, and score at {} from the same edge.\n",
                        list_of(outwards, unit));
    return text;
}

std::string cover_text(const design::WorkedCover& cover, base::Unit unit) {
    std::string text = fmt::format("Cover, lying flat: {} long, {} high\n",
                                   base::show(cover.length, unit), base::show(cover.height, unit));
    Table panels({{"Panel"}, {"from the left edge", Align::right}, {"width", Align::right}});
    for (const design::WorkedPanel& panel : cover.panels)
        panels.row({panel.name, base::show(panel.start, unit), base::show(panel.width, unit)});
    text += panels.text() + scores_text(cover, unit);
    if (cover.open != cover.length)
        text += fmt::format("Open, flaps turned in: {} long.\n", base::show(cover.open, unit));
    if (cover.closed_width && cover.closed_thickness)
        text +=
            fmt::format("Closed: {} x {} x {} thick.\n", base::show(*cover.closed_width, unit),
                        base::show(cover.height, unit), base::show(*cover.closed_thickness, unit));
    return text + "\n";
}

std::string block_text(const design::WorkedBlock& block, base::Unit unit) {
    return fmt::format("Between the covers: {} empty, {} filled.\n\n",
                       base::show(block.empty, unit), base::show(block.thickness, unit));
}

std::string binding_text(const design::WorkedBinding& binding, base::Unit unit) {
    std::string text;
    for (const std::string& note : binding.notes) text += wrapped(note, page_width, 2) + "\n";
    if (!binding.marks.empty())
        text += wrapped(fmt::format("The {}s stand at {} from the end of the edge{}.", binding.mark,
                                    list_of(binding.marks, unit),
                                    binding.setback ? fmt::format(
                                        ", {} in from it", base::show(*binding.setback, unit))
                                                    : std::string()),
                        page_width, 2)
                + "\n";
    return text.empty() ? text : text + "\n";
}

} // namespace

std::string numbers_text(const design::Worked& worked, base::Unit unit) {
    std::string text = explanations_text(worked);
    if (worked.cover) text += cover_text(*worked.cover, unit);
    if (worked.block) text += block_text(*worked.block, unit);
    if (worked.binding) text += binding_text(*worked.binding, unit);
    return text;
}

std::string warnings_text(const design::Worked& worked) {
    std::string text;
    for (const design::Warning& warning : worked.warnings) text += warning_text(warning, ".");
    for (const std::string& missing : worked.not_known)
        text += wrapped("Not known: " + missing + ".", page_width, 2) + "\n";
    return text;
}

std::string calculation_screen(const design::Worked& worked, base::Unit unit) {
    return worked.name + "\n\n" + numbers_text(worked, unit) + warnings_text(worked);
}

} // namespace barrow::print
