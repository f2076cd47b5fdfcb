#include "print/making/layout.hpp"

#include "base/text.hpp"
#include "print/write/terminal.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

Cell size_of_list(std::size_t size) {
    return count(static_cast<std::int64_t>(size));
}

} // namespace

Blocks layout_blocks(const layout::Job& job, const layout::Outcome& outcome,
                     const LayoutNumbers& numbers) {
    Table table({{"Plan", Kind::count},
                 {"Stock"},
                 {"Copies", Kind::count},
                 {"Pieces", Kind::count},
                 {"Cuts", Kind::count},
                 {"Offcuts", Kind::count}});
    for (std::size_t i = 0; i < outcome.plans.size(); ++i) {
        const layout::Plan& plan = outcome.plans[i];
        table.row({size_of_list(i + 1), job.stock[plan.stock].id, count(plan.copies),
                   size_of_list(plan.pieces.size()), size_of_list(plan.cuts.size()),
                   size_of_list(plan.offcuts.size())});
    }
    const std::string total =
        job.goal == layout::Goal::most_value
            ? "Value " + numbers.cost(outcome.value)
            : base::counted(outcome.sheets, "sheet") + ", cost " + numbers.cost(outcome.cost);
    Blocks blocks("Layout");
    blocks.add(table);
    blocks.add(
        Text{outcome.status == layout::Status::optimal
                 ? total + ": proven best."
                 : fmt::format("{}; the proven bound is {}.", total, numbers.cost(outcome.bound))});
    return blocks;
}

std::string layout_screen(const layout::Job& job, const layout::Outcome& outcome,
                          const LayoutNumbers& numbers) {
    return terminal(layout_blocks(job, outcome, numbers));
}

} // namespace barrow::print
