#include "costing/filling.hpp"

#include "base/error.hpp"
#include "layout/checker.hpp"

#include <fmt/format.h>

namespace barrow::costing {

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
    if (job.pieces.empty()) return filled;
    filled.outcome = layout::solve(job, {effort});
    const auto faults = layout::check(job, filled.outcome);
    if (!faults.empty())
        throw base::broken(fmt::format("a choice of pieces failed its proof: {}", faults[0]));
    return filled;
}

} // namespace barrow::costing
