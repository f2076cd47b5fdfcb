#include "design/cover/cover_names.hpp"
#include "design/work/desk.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

// Names the cover gives to formulas:
//   cover.<panel>           width of a panel, as it measures once folded
//   cover.height            of all panels
//   cover.fold              what one fold takes up, unless a panel says otherwise (usual: nothing)
//   cover.folds             how many folds there are
//   cover.length            of the board to cut: panels and folds
//   cover.finished          panels alone
//   cover.open              faces and bases: lying open with the flaps turned in
//   cover.closed_width      the widest face and one board for each base it is folded over, two at
//   most cover.closed_thickness  the widest base (or the block, where there is none), a board on
//   either
//                           side, and one more under a flap
//
// A fold takes board up: the outside of the bend is longer than its inside. One board thickness for
// each fold is common practice, no source; a design says fold = "board.caliper". The allowance lies
// half on each side of the score.

namespace barrow::design {
namespace {

using base::Length;
using base::Rational;

constexpr std::array<std::string_view, 8> own_names = {
    "length", "height", "fold", "folds", "finished", "open", "closed_width", "closed_thickness"};

Quantity a_length_of(Desk& desk, const Formula& formula) {
    const Quantity value = desk.names.value(formula);
    if (value.dimension != a_length) Desk::refuse(formula, value, "a length");
    return value;
}

/// Allowance of the fold behind a panel; zero behind the last.
Quantity allowance(Desk& desk, const CoverSpec& cover, std::size_t panel) {
    if (panel + 1 >= cover.panels.size()) return {Rational(0), a_length};
    const Formula& own = cover.panels[panel].fold;
    if (!own.empty()) return a_length_of(desk, own);
    if (!cover.fold.empty()) return a_length_of(desk, cover.fold);
    return {Rational(0), a_length};
}

template <typename Choose>
Quantity sum(Desk& desk, const CoverSpec& cover, Choose choose) {
    Quantity total{Rational(0), a_length};
    for (const Panel& panel : cover.panels)
        if (choose(panel)) total.number = total.number + a_length_of(desk, panel.width).number;
    return total;
}

Quantity cut_length(Desk& desk, const CoverSpec& cover) {
    Quantity total = sum(desk, cover, [](const Panel&) { return true; });
    for (std::size_t i = 0; i < cover.panels.size(); ++i)
        total.number = total.number + allowance(desk, cover, i).number;
    return total;
}

Quantity widest(Desk& desk, const CoverSpec& cover, Role role) {
    Quantity most{Rational(0), a_length};
    for (const Panel& panel : cover.panels)
        if (panel.role == role)
            most.number = std::max(most.number, a_length_of(desk, panel.width).number);
    return most;
}

std::int64_t how_many(const CoverSpec& cover, Role role) {
    return std::count_if(cover.panels.begin(), cover.panels.end(),
                         [role](const Panel& panel) { return panel.role == role; });
}

Quantity board_caliper(Desk& desk, const CoverSpec& cover, const std::string& where) {
    if (cover.board.empty())
        throw NotToBeHad({where, "how large the journal is when closed is not known",
                          "name the board: [cover] board = \"...\""});
    return desk.names.value(cover.board + ".caliper", where);
}

Quantity closed_width(Desk& desk, const CoverSpec& cover, const std::string& where) {
    const std::int64_t boards = std::min<std::int64_t>(how_many(cover, Role::base), 2);
    Quantity width = widest(desk, cover, Role::face);
    if (boards > 0)
        width.number = width.number + Rational(boards) * board_caliper(desk, cover, where).number;
    return width;
}

Quantity closed_thickness(Desk& desk, const CoverSpec& cover, const std::string& where) {
    const std::int64_t boards = how_many(cover, Role::flap) > 0 ? 3 : 2;
    const Quantity inside = how_many(cover, Role::base) > 0
                                ? widest(desk, cover, Role::base)
                                : desk.names.value("block.thickness", where);
    return {inside.number + Rational(boards) * board_caliper(desk, cover, where).number, a_length};
}

Length length_on_grid(const Quantity& value, const Place& place) {
    const auto length = as_length(value);
    if (!length)
        throw base::bad_input(place.at(), fmt::format("comes to {}", to_text(value)),
                              "a cover is between zero and 100 km long");
    return *length;
}

void explain_cover(Desk& desk, const CoverSpec& cover) {
    std::string spelled;
    std::string folds;
    for (std::size_t i = 0; i < cover.panels.size(); ++i) {
        const Panel& panel = cover.panels[i];
        desk.explain("cover", "cover." + panel.name, panel.width);
        spelled += (spelled.empty() ? "" : " + ") + to_text(desk.names.value(panel.width));
        const Quantity fold = allowance(desk, cover, i);
        if (fold.number != Rational(0)) folds += " + " + to_text(fold);
    }
    desk.explain("cover", "cover.length", folds.empty() ? "sum of the panels" : "panels and folds",
                 spelled + folds, desk.names.value("cover.length", cover.place.at()));
    desk.explain("cover", "cover.height", cover.height);
    if (!folds.empty())
        desk.explain("cover", "cover.finished", "sum of the panels", spelled,
                     desk.names.value("cover.finished", cover.place.at()));
}

/// Panels and folds where they lie, from the left edge. Sums are exact and put on the grid last.
void lay_flat(Desk& desk, const CoverSpec& spec, WorkedCover& cover) {
    Quantity at{Rational(0), a_length};
    for (std::size_t i = 0; i < spec.panels.size(); ++i) {
        const Panel& panel = spec.panels[i];
        const Quantity width = a_length_of(desk, panel.width);
        if (desk.length_of(panel.width).is_zero()) continue; // length_of has thrown already
        cover.panels.push_back({panel.name, length_on_grid(at, spec.place),
                                length_on_grid(width, spec.place), panel.role});
        at.number = at.number + width.number;
        if (i + 1 == spec.panels.size()) break;
        const Quantity fold = allowance(desk, spec, i);
        const Quantity score{at.number + fold.number / Rational(2), a_length};
        at.number = at.number + fold.number;
        const Length from_left = length_on_grid(score, spec.place);
        cover.folds.push_back(from_left);
        cover.scores.push_back({from_left, cover.length - from_left,
                                length_on_grid(fold, spec.place), panel.fold_out, panel.name,
                                spec.panels[i + 1].name});
    }
    std::stable_sort(cover.scores.begin(), cover.scores.end(),
                     [](const Score& a, const Score& b) { return !a.fold_out && b.fold_out; });
}

/// The sizes a maker hands over with the journal, as far as they are known.
void work_sizes(Desk& desk, const CoverSpec& spec, WorkedCover& cover) {
    const std::string where = spec.place.at();
    const auto length = [&](const char* name) {
        return length_on_grid(desk.names.value(name, where), spec.place);
    };
    cover.finished = length("cover.finished");
    cover.open = length("cover.open");
    const auto closed = [&](const char* name, const std::string& how, const std::string& spelled) {
        return desk.if_known([&] {
            const Length value = length(name);
            desk.explain("cover", name, how, spelled, desk.names.value(name, where));
            return value;
        });
    };
    cover.closed_width =
        closed("cover.closed_width", "widest face, and a board for each base beside it", "");
    cover.closed_thickness =
        closed("cover.closed_thickness", "widest base or the block, and the boards over it", "");
}

} // namespace

bool is_cover_name(std::string_view name) {
    return std::find(own_names.begin(), own_names.end(), name) != own_names.end();
}

std::string cover_name_list() {
    return fmt::format("{}", fmt::join(own_names, ", "));
}

void name_cover(Desk& desk) {
    if (!desk.design.cover) return;
    const CoverSpec& cover = *desk.design.cover;
    for (const Panel& panel : cover.panels) desk.names.define("cover." + panel.name, &panel.width);
    desk.names.define("cover.height", &cover.height);
    const auto define = [&desk](const char* name, auto work) {
        desk.names.define(name, [work](const std::string& where) { return work(where); });
    };
    define("cover.folds", [&cover](const std::string&) {
        return Quantity{Rational(static_cast<std::int64_t>(cover.panels.size()) - 1), plain};
    });
    define("cover.fold", [&desk, &cover](const std::string&) {
        return cover.fold.empty() ? Quantity{Rational(0), a_length} : a_length_of(desk, cover.fold);
    });
    define("cover.length", [&](const std::string&) { return cut_length(desk, cover); });
    define("cover.finished", [&desk, &cover](const std::string&) {
        return sum(desk, cover, [](const Panel&) { return true; });
    });
    define("cover.open", [&desk, &cover](const std::string&) {
        return sum(desk, cover, [](const Panel& panel) { return panel.role != Role::flap; });
    });
    define("cover.closed_width",
           [&](const std::string& where) { return closed_width(desk, cover, where); });
    define("cover.closed_thickness",
           [&](const std::string& where) { return closed_thickness(desk, cover, where); });
}

void work_cover(Desk& desk) {
    if (!desk.design.cover) return;
    const CoverSpec& spec = *desk.design.cover;
    desk.attempt(spec.place, [&] {
        // Each panel on its own first, so that every one that is wrong is told.
        bool sound = true;
        for (const Panel& panel : spec.panels) {
            sound = false;
            desk.attempt(panel.place, [&] {
                desk.length_of(panel.width);
                sound = true;
            });
        }
        WorkedCover cover;
        cover.height = desk.length_of(spec.height);
        cover.length =
            length_on_grid(desk.names.value("cover.length", spec.place.at()), spec.place);
        if (sound) explain_cover(desk, spec);
        lay_flat(desk, spec, cover);
        work_sizes(desk, spec, cover);
        desk.worked.cover = std::move(cover);
    });
}

} // namespace barrow::design
