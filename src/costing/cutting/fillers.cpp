#include "costing/cutting/fillers.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "costing/bill/cut_wants.hpp"
#include "costing/cutting/cutting_job.hpp"
#include "costing/cutting/filling.hpp"
#include "design/work/slot_choice.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::costing {
namespace {

using design::WorkedPart;
using layout::Cut;
using layout::Plan;
using layout::Rectangle;

Wide area_of(const Rectangle& place) {
    return Wide{place.width} * place.height;
}

/// What the cuts leave of a sheet, pieces among it.
std::vector<Rectangle> parts_of(const layout::Job& job, const Plan& plan) {
    const layout::Stock& stock = job.stock[plan.stock];
    std::vector<Rectangle> parts = {{stock.margin.left, stock.margin.bottom,
                                     stock.width - stock.margin.left - stock.margin.right,
                                     stock.height - stock.margin.top - stock.margin.bottom}};
    for (const Cut& cut : plan.cuts) {
        const auto part = std::find_if(parts.begin(), parts.end(), [&cut](const Rectangle& p) {
            return cut.axis == Cut::Axis::x ? p.y == cut.from && p.y + p.height == cut.to
                                                  && p.x < cut.at && cut.at < p.x + p.width
                                            : p.x == cut.from && p.x + p.width == cut.to
                                                  && p.y < cut.at && cut.at < p.y + p.height;
        });
        if (part == parts.end()) throw base::broken("a cut that crosses no part of its sheet");
        Rectangle rest = *part;
        if (cut.axis == Cut::Axis::x) {
            const layout::Measure from = std::min(cut.at + job.kerf, part->x + part->width);
            rest.width = part->x + part->width - from;
            rest.x = from;
            part->width = cut.at - part->x;
        } else {
            const layout::Measure from = std::min(cut.at + job.kerf, part->y + part->height);
            rest.height = part->y + part->height - from;
            rest.y = from;
            part->height = cut.at - part->y;
        }
        if (rest.width > 0 && rest.height > 0) parts.push_back(rest);
    }
    return parts;
}

/// Of those, what no piece lies on, the largest first.
std::vector<Rectangle> left_over(const layout::Job& job, const Plan& plan) {
    std::vector<Rectangle> left;
    for (const Rectangle& part : parts_of(job, plan))
        if (std::none_of(plan.pieces.begin(), plan.pieces.end(),
                         [&part](const layout::Placed& placed) { return placed.place == part; }))
            left.push_back(part);
    std::stable_sort(left.begin(), left.end(), [](const Rectangle& a, const Rectangle& b) {
        return area_of(a) > area_of(b);
    });
    return left;
}

class Filling {
public:
    Filling(CutPlan& plan, std::vector<FillerWant>& fillers, const base::Rational& per_measure)
        : plan_(plan), fillers_(fillers), per_measure_(per_measure), placed_(fillers.size(), 0) {
        first_ = plan.job.pieces.size();
        for (std::size_t i = 0; i < fillers.size(); ++i) {
            pieces_.push_back(layout_piece(fillers[i].want, first_ + i));
        }
    }

    void run() {
        std::vector<Plan> plans;
        for (const Plan& plan : plan_.outcome.plans) fill(plan, plans);
        plan_.outcome.plans = std::move(plans);
        take_up_placed();
    }

private:
    /// As many copies as can be are filled alike, the rest again with what is still wanted.
    void fill(const Plan& plan, std::vector<Plan>& plans) {
        std::int64_t copies = plan.copies;
        while (copies > 0) {
            Plan one = plan;
            std::vector<std::int64_t> used(fillers_.size(), 0);
            for (const Rectangle& place : left_over(plan_.job, plan)) fill_place(place, one, used);
            std::int64_t alike = copies;
            for (std::size_t i = 0; i < used.size(); ++i)
                if (used[i] > 0) alike = std::min(alike, fillers_[i].want.count / used[i]);
            for (std::size_t i = 0; i < used.size(); ++i) {
                fillers_[i].want.count -= used[i] * alike;
                placed_[i] += used[i] * alike;
            }
            one.copies = alike;
            plans.push_back(std::move(one));
            copies -= alike;
        }
    }

    void fill_place(const Rectangle& place, Plan& plan, std::vector<std::int64_t>& used) {
        const auto kept = std::find(plan.offcuts.begin(), plan.offcuts.end(), place);
        const bool keepable = kept != plan.offcuts.end();
        std::vector<layout::Piece> pieces = pieces_;
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            pieces[i].count = fillers_[i].want.count - used[i];
            pieces[i].value = gain(i, keepable);
        }
        const Filled filled =
            fill_rectangle(plan_.job, {place.width, place.height}, pieces, layout::Effort::quick);
        if (filled.plan() == nullptr) return;
        if (keepable) plan.offcuts.erase(kept);
        splice(place, *filled.plan(), filled.which, plan, used);
    }

    std::int64_t gain(std::size_t i, bool keepable) const {
        if (!keepable) return fillers_[i].worth;
        const base::Rational carried =
            per_measure_
            * base::Rational(static_cast<std::int64_t>(fillers_[i].want.size.measure()));
        return fillers_[i].worth - carried.ceiling();
    }

    void splice(const Rectangle& place, const Plan& inner, const std::vector<std::size_t>& which,
                Plan& plan, std::vector<std::int64_t>& used) const {
        for (layout::Placed placed : inner.pieces) {
            const std::size_t filler = which[placed.piece];
            ++used[filler];
            placed.piece = first_ + filler;
            placed.place.x += place.x;
            placed.place.y += place.y;
            plan.pieces.push_back(placed);
        }
        for (Cut cut : inner.cuts) {
            const bool upright = cut.axis == Cut::Axis::x;
            cut.at += upright ? place.x : place.y;
            cut.from += upright ? place.y : place.x;
            cut.to += upright ? place.y : place.x;
            plan.cuts.push_back(cut);
        }
        for (Rectangle offcut : inner.offcuts) {
            offcut.x += place.x;
            offcut.y += place.y;
            plan.offcuts.push_back(offcut);
        }
        std::stable_sort(
            plan.offcuts.begin(), plan.offcuts.end(),
            [](const Rectangle& a, const Rectangle& b) { return area_of(a) > area_of(b); });
    }

    /// Fillers that found a place become pieces of the job; the others never were.
    void take_up_placed() {
        std::vector<std::size_t> index(fillers_.size(), 0);
        for (std::size_t i = 0; i < fillers_.size(); ++i) {
            if (placed_[i] == 0) continue;
            index[i] = plan_.job.pieces.size();
            layout::Piece piece = pieces_[i];
            piece.id = fmt::format("p{}", index[i]);
            piece.count = placed_[i];
            plan_.job.pieces.push_back(piece);
            plan_.wants.push_back(fillers_[i].want);
            plan_.wants.back().count = placed_[i];
        }
        for (Plan& plan : plan_.outcome.plans)
            for (layout::Placed& placed : plan.pieces)
                if (placed.piece >= first_) placed.piece = index[placed.piece - first_];
    }

    CutPlan& plan_;
    std::vector<FillerWant>& fillers_;
    base::Rational per_measure_;
    std::vector<layout::Piece> pieces_; ///< beside fillers
    std::size_t first_ = 0;
    std::vector<std::int64_t> placed_;
};

/// Whether the filler may be cut from the material. Throws base::Error (Kind::bad_input) where
/// that is the one it names, and is kept in another form; a ribbon of its collection is only none
/// of its papers.
bool may_come_from(const Run& run, const WorkedPart& filler, const Origin& origin,
                   const ShelfMaterial& material) {
    const auto is = [&](const std::string& code) {
        return base::lowered(code) == base::lowered(material.code);
    };
    const design::SlotChoice choice = design::choice_of(run.design, filler);
    const bool named =
        choice.codes.empty()
            ? !choice.collection.empty()
                  && base::lowered(choice.collection) == base::lowered(material.collection)
            : std::any_of(choice.codes.begin(), choice.codes.end(), is);
    if (!named) return false;
    if (choice.codes.size() == 1) refuse_other_form(filler, material, title_of(run, origin.part));
    return form_fits(filler, material) && !grain_is_lost(filler, material);
}

} // namespace

std::vector<FillerWant> fillers_for(const std::vector<Run>& runs,
                                    const std::vector<ShelfMaterial>& shelf, std::size_t material,
                                    std::int64_t minor_per_major) {
    std::vector<FillerWant> wants;
    for (std::size_t r = 0; r < runs.size(); ++r) {
        const design::Worked& design = runs[r].design;
        for (std::size_t f = 0; f < design.fillers.size(); ++f) {
            const WorkedPart& filler = design.fillers[f];
            const Origin origin{r, design.parts.size() + f};
            if (!may_come_from(runs[r], filler, origin, shelf[material])) continue;
            FillerWant made{want_for(filler, shelf[material], origin), 0};
            made.want.count = filler.number * runs[r].journals;
            made.worth = (filler.worth.value_or(base::Rational(0))
                          * base::Rational(minor_per_major * worth_per_minor))
                             .floor();
            wants.push_back(made);
        }
    }
    return wants;
}

void fill_in(CutPlan& plan, std::vector<FillerWant>& fillers, const base::Rational& per_measure) {
    if (!fillers.empty()) Filling(plan, fillers, per_measure).run();
}

} // namespace barrow::costing
