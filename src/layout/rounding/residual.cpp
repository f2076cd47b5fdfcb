#include "layout/rounding/residual.hpp"
#include "layout/lp/linear_program.hpp"

#include <algorithm>
#include <cmath>

namespace barrow::layout {
namespace {} // namespace

Residual::Residual(const Instance& instance, const PatternLp& lp, double less)
    : instance_(instance), rest_(instance) {
    kept_.unplaced.assign(instance.items.size(), 0);
    for (std::size_t index = 0; index < lp.columns().size(); ++index) {
        const PatternLp::Column& column = lp.columns()[index];
        Sheet& sheet = rest_.sheets[column.sheet];
        auto uses = static_cast<std::int64_t>(std::floor(lp.use(index) - less + nearly));
        if (sheet.copies != unlimited) uses = std::min(uses, sheet.copies);
        if (uses <= 0) continue;
        kept_.patterns.push_back({column.sheet, uses, column.block});
        kept_.cost += uses * sheet.cost;
        if (sheet.copies != unlimited) sheet.copies -= uses;
        for (const auto& [kind, count] : column.counts) {
            std::int64_t& demand = rest_.items[static_cast<std::size_t>(kind)].demand;
            demand = std::max<std::int64_t>(0, demand - count * uses);
        }
    }
    std::vector<Item> left;
    for (std::size_t kind = 0; kind < rest_.items.size(); ++kind) {
        if (rest_.items[kind].demand == 0) continue;
        left.push_back(rest_.items[kind]);
        kinds_.push_back(static_cast<std::int32_t>(kind));
    }
    rest_.items = std::move(left);
}

Block Residual::in_our_kinds(const Block& block) const {
    Block ours = block;
    if (block.leaf()) ours.item = kinds_[static_cast<std::size_t>(block.item)];
    for (Block& child : ours.children) child = in_our_kinds(child);
    return ours;
}

Solution Residual::whole(const Solution& rest) const {
    Solution solution = kept_;
    solution.cost += rest.cost;
    for (const Pattern& pattern : rest.patterns)
        solution.patterns.push_back({pattern.sheet, pattern.copies, in_our_kinds(pattern.block)});
    take_out_surplus(instance_, solution);
    return solution;
}

} // namespace barrow::layout
