#include "layout/checker.hpp"

#include "base/wide.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <list>

// Everything here is computed from the job alone, so that an error in the search cannot hide
// itself.
namespace barrow::layout {
namespace {

using base::Wide;

Wide area(const Rectangle& r) {
    return Wide(r.width) * r.height;
}

std::string text(const Rectangle& r) {
    return fmt::format("{} x {} at ({}, {})", r.width, r.height, r.x, r.y);
}

bool is_useful(const Job& job, const Rectangle& r) {
    if (job.one_dimensional) return r.width >= job.useful.longer;
    return std::min(r.width, r.height) >= job.useful.shorter
           && std::max(r.width, r.height) >= job.useful.longer;
}

/// The parts of one sheet after each of its cuts.
class Replay {
public:
    Replay(const Job& job, const Rectangle& usable) : job_(job), parts_{usable} {}

    /// Makes the cut; returns the fault, or nothing.
    std::string make(const Cut& cut) {
        const bool across_x = cut.axis == Cut::Axis::x;
        for (auto part = parts_.begin(); part != parts_.end(); ++part) {
            const Measure start = across_x ? part->x : part->y;
            const Measure end = start + (across_x ? part->width : part->height);
            const Measure from = across_x ? part->y : part->x;
            const Measure to = from + (across_x ? part->height : part->width);
            if (from != cut.from || to != cut.to || cut.at <= start || cut.at >= end) continue;
            if (cut.stop != cut.at - start && cut.stop != end - cut.at - job_.kerf)
                return fmt::format("its stop is {}, which neither edge of {} is away from it",
                                   cut.stop, text(*part));
            divide(part, cut.at, across_x);
            return {};
        }
        return "it runs from edge to edge of no part";
    }

    /// Removes the part that is exactly this rectangle; false when there is none.
    bool take(const Rectangle& wanted) {
        const auto part = std::find(parts_.begin(), parts_.end(), wanted);
        if (part == parts_.end()) return false;
        parts_.erase(part);
        return true;
    }

    const std::list<Rectangle>& parts() const { return parts_; }
    Wide kerf_area() const { return kerf_area_; }

private:
    void divide(std::list<Rectangle>::iterator part, Measure at, bool across_x) {
        Rectangle far = *part;
        const Measure reach = across_x ? part->x + part->width : part->y + part->height;
        // The kerf may exceed what is left beyond the cut; then only that is lost.
        const Measure lost = std::min(job_.kerf, reach - at);
        if (across_x) {
            part->width = at - part->x;
            far.x = at + lost;
            far.width = reach - far.x;
            kerf_area_ += Wide(lost) * part->height;
        } else {
            part->height = at - part->y;
            far.y = at + lost;
            far.height = reach - far.y;
            kerf_area_ += Wide(lost) * part->width;
        }
        if (far.width > 0 && far.height > 0) parts_.insert(std::next(part), far);
    }

    const Job& job_;
    std::list<Rectangle> parts_;
    Wide kerf_area_ = 0;
};

class Checker {
public:
    Checker(const Job& job, const Outcome& outcome) : job_(job), outcome_(outcome) {}

    std::vector<std::string> run() {
        placed_.assign(job_.pieces.size(), 0);
        used_.assign(job_.stock.size(), 0);
        for (std::size_t i = 0; i < outcome_.plans.size(); ++i) plan(i);
        if (!wrong_.empty()) return std::move(wrong_); // totals of faulty plans mean nothing
        stock_limits();
        if (job_.goal == Goal::least_cost)
            demand();
        else
            choice();
        totals();
        verdict();
        return std::move(wrong_);
    }

private:
    template <typename... Args>
    void report(fmt::format_string<Args...> form, Args&&... args) {
        wrong_.push_back(fmt::format(form, std::forward<Args>(args)...));
    }

    void plan(std::size_t number) {
        const Plan& plan = outcome_.plans[number];
        where_ = fmt::format("plan {}", number + 1);
        if (plan.stock >= job_.stock.size()) {
            report("{}: stock entry {} does not exist", where_, plan.stock);
            return;
        }
        if (plan.copies < 1) report("{}: {} copies; expected one or more", where_, plan.copies);
        const Stock& stock = job_.stock[plan.stock];
        const Margin& margin = stock.margin;
        const Rectangle usable{margin.left, margin.bottom, stock.width - margin.left - margin.right,
                               stock.height - margin.top - margin.bottom};
        Replay replay(job_, usable);
        for (std::size_t i = 0; i < plan.cuts.size(); ++i) cut(replay, plan.cuts[i], i + 1);
        Wide sum = replay.kerf_area() + Wide(stock.width) * stock.height - area(usable);
        for (const Placed& piece : plan.pieces) sum += this->piece(replay, piece, plan.copies);
        sum += remnants(replay, plan);
        if (wrong_.empty() && sum != Wide(stock.width) * stock.height)
            report("{}: areas do not add up to the sheet", where_);
        used_[plan.stock] += plan.copies;
    }

    void cut(Replay& replay, const Cut& cut, std::size_t number) {
        const std::string problem = replay.make(cut);
        if (!problem.empty())
            report("{}: cut {} at {} from {} to {}: {}", where_, number, cut.at, cut.from, cut.to,
                   problem);
        const bool beyond = job_.trimmer && cut.to - cut.from > *job_.trimmer;
        if (cut.beyond_trimmer != beyond)
            report("{}: cut {} is{} longer than the trimmer", where_, number, beyond ? "" : " not");
    }

    Wide piece(Replay& replay, const Placed& placed, std::int64_t copies) {
        if (placed.piece >= job_.pieces.size()) {
            report("{}: piece entry {} does not exist", where_, placed.piece);
            return 0;
        }
        const Piece& piece = job_.pieces[placed.piece];
        const Measure width = placed.turned ? piece.height : piece.width;
        const Measure height = placed.turned ? piece.width : piece.height;
        if (placed.turned && (piece.turn != Turn::quarter || job_.one_dimensional))
            report("{}: piece \"{}\" must not be turned", where_, piece.id);
        if (placed.place.width != width || placed.place.height != height)
            report("{}: piece \"{}\" is {}; expected {} x {}", where_, piece.id, text(placed.place),
                   width, height);
        if (!replay.take(placed.place))
            report("{}: piece \"{}\", {}, is not a part that the cuts leave", where_, piece.id,
                   text(placed.place));
        placed_[placed.piece] += copies;
        return area(placed.place);
    }

    /// Parts that are not pieces: exactly the useful ones must be listed. Returns their area.
    Wide remnants(Replay& replay, const Plan& plan) {
        Wide sum = 0;
        for (std::size_t i = 0; i < plan.offcuts.size(); ++i) {
            const Rectangle& offcut = plan.offcuts[i];
            if (!replay.take(offcut))
                report("{}: offcut {} is not a part that the cuts leave", where_, text(offcut));
            if (!is_useful(job_, offcut))
                report("{}: offcut {} is below the useful size", where_, text(offcut));
            if (i > 0 && area(plan.offcuts[i - 1]) < area(offcut))
                report("{}: offcut {} is larger than the one before it", where_, text(offcut));
            sum += area(offcut);
        }
        for (const Rectangle& part : replay.parts()) {
            if (is_useful(job_, part))
                report("{}: useful remnant {} is not listed", where_, text(part));
            sum += area(part);
        }
        return sum;
    }

    void stock_limits() {
        for (std::size_t i = 0; i < job_.stock.size(); ++i)
            if (job_.stock[i].count && used_[i] > *job_.stock[i].count)
                report("stock \"{}\": {} used; only {} on hand", job_.stock[i].id,
                       static_cast<std::int64_t>(used_[i]), *job_.stock[i].count);
    }

    bool fits_some_stock(const Piece& piece) const {
        return std::any_of(job_.stock.begin(), job_.stock.end(), [&](const Stock& stock) {
            if (stock.count.value_or(1) == 0) return false;
            const Measure across = stock.width - stock.margin.left - stock.margin.right;
            const Measure up = stock.height - stock.margin.top - stock.margin.bottom;
            const bool turns = piece.turn == Turn::quarter && !job_.one_dimensional;
            return (piece.width <= across && piece.height <= up)
                   || (turns && piece.height <= across && piece.width <= up);
        });
    }

    void demand() {
        std::vector<Wide> missing(job_.pieces.size(), 0);
        for (const Unplaced& entry : outcome_.unplaced) {
            if (entry.piece >= job_.pieces.size() || entry.count < 1) {
                report("unplaced: entry {} with count {} makes no sense", entry.piece, entry.count);
                continue;
            }
            missing[entry.piece] += entry.count;
            if (entry.fits_no_stock == fits_some_stock(job_.pieces[entry.piece]))
                report("unplaced: whether \"{}\" fits any stock is told wrongly",
                       job_.pieces[entry.piece].id);
        }
        for (std::size_t i = 0; i < job_.pieces.size(); ++i)
            if (placed_[i] + missing[i] != job_.pieces[i].count.value_or(0))
                report("piece \"{}\": {} placed and {} unplaced of {} wanted", job_.pieces[i].id,
                       static_cast<std::int64_t>(placed_[i]), static_cast<std::int64_t>(missing[i]),
                       job_.pieces[i].count.value_or(0));
        if (all_placed() != outcome_.unplaced.empty())
            report("status and list of unplaced pieces contradict each other");
    }

    bool all_placed() const {
        return outcome_.status == Status::optimal || outcome_.status == Status::feasible;
    }

    void choice() {
        Wide value = 0;
        for (std::size_t i = 0; i < job_.pieces.size(); ++i) {
            value += placed_[i] * job_.pieces[i].value;
            if (job_.pieces[i].count && placed_[i] > *job_.pieces[i].count)
                report("piece \"{}\": {} placed; at most {} allowed", job_.pieces[i].id,
                       static_cast<std::int64_t>(placed_[i]), *job_.pieces[i].count);
        }
        if (value != outcome_.value) report("value is told as {}, which it is not", outcome_.value);
        if (outcome_.plans.size() > 1) report("more than one sheet is filled");
        for (const Plan& plan : outcome_.plans)
            if (plan.stock != 0 || plan.copies != 1)
                report("only one sheet of the first stock entry may be filled");
        if (!outcome_.unplaced.empty() || !all_placed())
            report("a choice of pieces leaves nothing unplaced");
    }

    void totals() {
        Wide cost = 0;
        Wide sheets = 0;
        for (const Plan& plan : outcome_.plans) {
            cost += Wide(plan.copies) * job_.stock[plan.stock].cost;
            sheets += plan.copies;
        }
        if (cost != outcome_.cost) report("cost is told as {}, which it is not", outcome_.cost);
        if (sheets != outcome_.sheets)
            report("sheets are told as {}, which they are not", outcome_.sheets);
    }

    void verdict() {
        const bool least = job_.goal == Goal::least_cost;
        const Cost reached = least ? outcome_.cost : outcome_.value;
        if (!all_placed()) return;
        if (least ? outcome_.bound > reached : outcome_.bound < reached)
            report("bound {} contradicts the answer {}", outcome_.bound, reached);
        if ((outcome_.status == Status::optimal) != (outcome_.bound == reached))
            report("status and bound contradict each other");
    }

    const Job& job_;
    const Outcome& outcome_;
    std::string where_;
    std::vector<Wide> placed_;
    std::vector<Wide> used_;
    std::vector<std::string> wrong_;
};

} // namespace

std::vector<std::string> check(const Job& job, const Outcome& outcome) {
    return Checker(job, outcome).run();
}

} // namespace barrow::layout
