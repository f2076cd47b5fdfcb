#include "design/work/desk.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::design {
namespace {

using base::Length;
using Where = JoinSpec::Where;

/// A fold of the cover with the name a design calls it by.
struct NamedFold {
    std::string name;
    Length at;
};

std::vector<NamedFold> folds_of(const WorkedCover& cover) {
    std::vector<NamedFold> folds;
    for (std::size_t i = 0; i < cover.folds.size(); ++i)
        folds.push_back({cover.panels[i].name + "/" + cover.panels[i + 1].name, cover.folds[i]});
    return folds;
}

/// Faces no join may show on, as they lie on the part.
std::vector<Span> never_on(const JoinSpec& join, const WorkedCover& cover, Length from,
                           Length width) {
    std::vector<Span> spans;
    for (const WorkedPanel& panel : cover.panels) {
        if (std::find(join.never_on.begin(), join.never_on.end(), panel.name)
            == join.never_on.end())
            continue;
        const Length start = std::max(panel.start, from) - from;
        const Length end = std::min(panel.start + panel.width, from + width) - from;
        if (start < end) spans.push_back({start, end, panel.name});
    }
    return spans;
}

bool shows_on(const std::vector<Span>& faces, Length at) {
    return std::any_of(faces.begin(), faces.end(),
                       [at](const Span& face) { return at > face.from && at < face.to; });
}

/// Fewest pieces none wider than `widest` that the rules allow, as far as a greedy division finds
/// one: each piece as wide as it will go reaches at least as far as any other choice.
bool divisible(const WorkedPart& part, Length widest) {
    const WorkedJoins& joining = part.joining;
    Length start;
    while (part.width - start > widest) {
        Length end = start;
        const Length reach = widest - joining.overlap;
        const Length last = part.width - joining.least_piece;
        if (joining.anywhere) {
            Length at = std::min(start + reach, last);
            for (const Span& face : joining.never)
                if (at > face.from && at < face.to) at = face.from;
            if (at - start >= joining.least_piece) end = std::max(end, at);
        } else {
            for (const Length at : joining.at)
                if (at > start && at - start <= reach && at - start >= joining.least_piece
                    && at <= last)
                    end = std::max(end, at);
        }
        if (end <= start) return false;
        start = end;
    }
    return true;
}

/// Whether a piece of that size fits on a sheet, upright or turned, as the part and pattern allow;
/// for a part that may be joined, whether its pieces do.
bool fits(const WorkedPart& part, Length room_width, Length room_height) {
    if (part.height > room_height) return false;
    return part.joining.allowed() ? divisible(part, room_width) : part.width <= room_width;
}

struct Fit {
    bool at_all = false;
    bool with_grain = false;
};

Fit fit_on(const WorkedPart& part, const SheetFacts& sheet) {
    const Turn turn = part.turn.value_or(sheet.turn);
    const bool upright = fits(part, sheet.width, sheet.height);
    const bool turned = turn == Turn::quarter && fits(part, sheet.height, sheet.width);
    const bool runs_upright = !part.grain || !sheet.grain || *part.grain == *sheet.grain;
    const bool runs_turned = !part.grain || !sheet.grain || *part.grain != *sheet.grain;
    return {upright || turned, (upright && runs_upright) || (turned && runs_turned)};
}

std::string sizes(const Desk& desk, const std::vector<std::string>& codes) {
    std::string text;
    for (const std::string& code : codes)
        if (const MaterialFacts* facts = desk.facts.of(code); facts != nullptr && facts->sheet)
            text += fmt::format("{}{} has sheets of {} x {} mm", text.empty() ? "" : ", ", code,
                                base::mm_text(facts->sheet->width),
                                base::mm_text(facts->sheet->height));
    return text;
}

base::Error too_large(const Desk& desk, const PartSpec& spec, const WorkedPart& part,
                      const std::vector<std::string>& codes) {
    std::string what_to_do = "choose a larger sheet or a smaller journal";
    if (!part.joining.allowed())
        what_to_do = spec.join.where == Where::nowhere
                         ? "say where it may be joined: join = \"folds\" (or \"anywhere\") and an "
                           "overlap; or "
                           "choose a larger sheet"
                         : "none of the folds it may be joined at falls inside it: join = "
                           "\"anywhere\", or choose "
                           "a larger sheet";
    return {base::Kind::refused,
            std::vector<base::Problem>{
                {spec.width.place().at(),
                 fmt::format("the piece is {} x {} mm, but {}", base::mm_text(part.width),
                             base::mm_text(part.height), sizes(desk, codes)),
                 what_to_do}}};
}

} // namespace

void settle_joins(Desk& desk, const PartSpec& spec, WorkedPart& part) {
    const JoinSpec& join = spec.join;
    const Length from = spec.from.empty() ? Length() : desk.length_or_zero(spec.from);
    if (join.where == Where::nowhere) return;
    WorkedJoins& joining = part.joining;
    joining.overlap = desk.length_or_zero(join.overlap);
    if (!join.least_piece.empty()) joining.least_piece = desk.length_or_zero(join.least_piece);
    if (join.where == Where::anywhere && joining.least_piece.is_zero())
        Desk::refuse(join.least_piece, desk.names.value(join.least_piece), "a length above zero");
    joining.anywhere = join.where == Where::anywhere;
    if (desk.worked.cover) {
        joining.never = never_on(join, *desk.worked.cover, from, part.width);
        for (const NamedFold& fold : folds_of(*desk.worked.cover)) {
            const bool meant =
                join.where == Where::folds
                || std::find(join.folds.begin(), join.folds.end(), fold.name) != join.folds.end();
            const bool inside = fold.at > from && fold.at < from + part.width;
            if (!joining.anywhere && meant && inside && !shows_on(joining.never, fold.at - from))
                joining.at.push_back(fold.at - from);
        }
    }
}

void settle_sheet(Desk& desk, const PartSpec& spec, WorkedPart& part) {
    const WorkedSlot* slot = worked_slot(desk, spec.slot);
    if (slot == nullptr) return;
    const std::optional<CoverSpec>& cover = desk.design.cover;
    if (cover && !cover->board.empty() && cover->board == spec.slot && !part.grain
        && desk.worked.cover && part.height == desk.worked.cover->height)
        part.grain = Grain::height; // the spine runs up the height, and the grain along the spine
    if (slot->offcuts_only || spec.worth) return; // never a fresh sheet
    Fit fit;
    std::vector<std::string> codes = candidates(desk, *slot);
    for (const std::string& code : codes) {
        const MaterialFacts* facts = desk.facts.of(code);
        if (facts == nullptr || !facts->sheet)
            return; // its size is not known: the layout will tell
        const Fit here = fit_on(part, *facts->sheet);
        fit.at_all = fit.at_all || here.at_all;
        fit.with_grain = fit.with_grain || here.with_grain;
    }
    if (codes.empty()) return;
    if (!fit.at_all) throw too_large(desk, spec, part, codes);
    if (fit.with_grain) return;
    const std::string side = part.grain == Grain::width ? "width" : "height";
    if (spec.grain) { // asked for by name: it stays asked for, and the sheets there are cannot give
                      // it
        desk.warn(fmt::format("{}: its grain cannot run along its {}, since {}", spec.name, side,
                              sizes(desk, codes)));
        return;
    }
    part.grain.reset();
    desk.warn(fmt::format("{}: its grain cannot run along its {}, since {}; it is cut as it fits, "
                          "and will not fold or stand as well",
                          spec.name, side, sizes(desk, codes)));
}

} // namespace barrow::design
