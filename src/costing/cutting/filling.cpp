#include "costing/cutting/filling.hpp"

#include "costing/cutting/proof.hpp"

#include <algorithm>
#include <optional>

namespace barrow::costing {
namespace {

/// With more pieces than this, laying them out again and again takes longer than it is worth.
constexpr std::size_t most_laid_again = 500;

using layout::Cut;
using layout::Measure;
using layout::Rectangle;

const char* const choice_of_pieces = "a choice of pieces";

/// The job, not solved yet.
Filled asked(const layout::Job& like, const StockSize& size,
             const std::vector<layout::Piece>& pieces) {
    Filled filled;
    layout::Job& job = filled.job;
    job.goal = layout::Goal::most_value;
    job.one_dimensional = like.one_dimensional;
    job.kerf = like.kerf;
    job.useful = like.useful;
    layout::Stock stock;
    stock.id = "left";
    stock.width = size.width;
    stock.height = size.height;
    job.stock.push_back(stock);
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if ((pieces[i].count && *pieces[i].count <= 0) || pieces[i].value <= 0) continue;
        job.pieces.push_back(pieces[i]);
        filled.which.push_back(i);
    }
    return filled;
}

bool is_useful(const layout::Useful& useful, const Rectangle& part) {
    return std::min(part.width, part.height) >= useful.shorter
           && std::max(part.width, part.height) >= useful.longer;
}

Wide kept_of(const layout::Plan& plan) {
    Wide kept = 0;
    for (const Rectangle& offcut : plan.offcuts) kept += Wide{offcut.width} * offcut.height;
    return kept;
}

/// A choice laid once more into parts of its rectangle.
class Sparing {
public:
    Sparing(const Filled& whole, const StockSize& size) : whole_(whole), size_(size) {
        pieces_ = whole.job.pieces;
        for (layout::Piece& piece : pieces_) piece.count = 0;
        for (const layout::Placed& placed : whole.plan()->pieces) ++*pieces_[placed.piece].count;
        for (const layout::Placed& placed : whole.plan()->pieces)
            area_ += Wide{placed.place.width} * placed.place.height;
    }

    /// Whether what is left over could be one more remnant worth keeping.
    bool may_keep_more() const {
        const layout::Useful& useful = whole_.job.useful;
        return size_.measure() - area_ - kept_of(*whole_.plan())
               >= std::max<Wide>(1, Wide{useful.shorter} * useful.longer);
    }

    /// The choice in the least part of the rectangle, cut off by one cut along the axis; nothing
    /// where that leaves nothing to keep.
    std::optional<layout::Plan> along(Cut::Axis axis) const {
        const bool upright = axis == Cut::Axis::x;
        const Measure across = upright ? size_.height : size_.width;
        Measure high = upright ? size_.width : size_.height;
        const Measure all = high;
        auto low = static_cast<Measure>(base::divide_up(area_, across));
        std::optional<Filled> best;
        while (low < high) {
            const Measure middle = low + (high - low) / 2;
            Filled part = fill_rectangle(
                whole_.job, upright ? StockSize{middle, across} : StockSize{across, middle},
                pieces_, layout::Effort::quick);
            if (part.outcome.value == whole_.outcome.value) {
                high = middle;
                best = std::move(part);
            } else {
                low = middle + 1;
            }
        }
        if (!best || high + whole_.job.kerf >= all) return std::nullopt;
        return cut_off(*best, axis, high);
    }

private:
    std::optional<layout::Plan> cut_off(const Filled& part, Cut::Axis axis, Measure at) const {
        const bool upright = axis == Cut::Axis::x;
        const Measure rest = at + whole_.job.kerf;
        const Rectangle left = upright ? Rectangle{rest, 0, size_.width - rest, size_.height}
                                       : Rectangle{0, rest, size_.width, size_.height - rest};
        if (!is_useful(whole_.job.useful, left)) return std::nullopt;
        layout::Plan plan = *part.plan();
        Cut first;
        first.axis = axis;
        first.at = first.stop = at;
        first.to = upright ? size_.height : size_.width;
        plan.cuts.insert(plan.cuts.begin(), first);
        for (layout::Placed& placed : plan.pieces) placed.piece = part.which[placed.piece];
        plan.offcuts.push_back(left);
        std::stable_sort(plan.offcuts.begin(), plan.offcuts.end(),
                         [](const auto& a, const auto& b) {
                             return Wide{a.width} * a.height > Wide{b.width} * b.height;
                         });
        return plan;
    }

    const Filled& whole_;
    const StockSize& size_;
    std::vector<layout::Piece> pieces_; ///< beside the pieces of the whole, as many as are chosen
    Wide area_ = 0;                     ///< of the pieces chosen
};

} // namespace

const layout::Plan* Filled::plan() const {
    if (outcome.plans.empty() || outcome.plans.front().pieces.empty()) return nullptr;
    return &outcome.plans.front();
}

layout::Job bare_job(const ShelfMaterial& material) {
    layout::Job job;
    job.one_dimensional = material.form != Form::sheet;
    job.kerf = material.kerf.units();
    job.useful = {material.least_useful.width, material.least_useful.height};
    return job;
}

Filled fill_rectangle(const layout::Job& like, const StockSize& size,
                      const std::vector<layout::Piece>& pieces, layout::Effort effort) {
    Filled filled = asked(like, size, pieces);
    if (filled.job.pieces.empty()) return filled;
    filled.outcome = layout::solve(filled.job, {effort});
    prove(filled.job, filled.outcome, choice_of_pieces);
    return filled;
}

std::int64_t number_from(const layout::Job& like, const StockSize& size, layout::Piece piece) {
    piece.value = 1;
    const Filled filled = asked(like, size, {piece});
    if (!layout::examine(filled.job).empty()) return 0;
    const layout::Outcome outcome = layout::solve(filled.job, {layout::Effort::quick});
    prove(filled.job, outcome, choice_of_pieces);
    return outcome.value;
}

Filled fill_sparingly(const layout::Job& like, const StockSize& size,
                      const std::vector<layout::Piece>& pieces, layout::Effort effort) {
    Filled filled = fill_rectangle(like, size, pieces, effort);
    // What is left of a length is one piece anyway.
    if (filled.plan() == nullptr || like.one_dimensional
        || filled.plan()->pieces.size() > most_laid_again)
        return filled;
    const Sparing sparing(filled, size);
    if (!sparing.may_keep_more()) return filled;
    layout::Plan best = *filled.plan();
    for (const Cut::Axis axis : {Cut::Axis::x, Cut::Axis::y})
        if (auto plan = sparing.along(axis); plan && kept_of(*plan) > kept_of(best))
            best = std::move(*plan);
    filled.outcome.plans.front() = std::move(best);
    prove(filled.job, filled.outcome, choice_of_pieces);
    return filled;
}

} // namespace barrow::costing
