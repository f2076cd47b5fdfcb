#include "layout/table/thrifty_table.hpp"

#include <algorithm>
#include <utility>

namespace barrow::layout {
namespace {

std::vector<std::int32_t> points_below(const Raster& raster, Length limit) {
    std::vector<std::int32_t> below;
    std::int32_t point = 0;
    for (Length length = 0; length <= limit; ++length) {
        if (point + 1 < raster.size() && raster.at(point + 1) == length) ++point;
        below.push_back(point);
    }
    return below;
}

} // namespace

ThriftyTable::ThriftyTable(const Instance& instance, const Grid& grid)
    : grid_(grid), sheet_(instance.sheets.front()), parts_(instance, grid),
      below_x_(points_below(grid.x, sheet_.width)), below_y_(points_below(grid.y, sheet_.height)) {}

std::int64_t ThriftyTable::waste_outside(Length width, Length height, Value outside) const {
    return parts_.waste(sheet_.area() - std::int64_t{width} * height, outside);
}

void ThriftyTable::consider(Value outside, Value inside, const State& state) {
    const Cost value = Cost{outside} + inside;
    if (value <= best_) return;
    best_ = value;
    best_inside_ = inside;
    best_state_ = state;
    all_ = std::min(all_, parts_.waste(sheet_.area(), best_ + 1));
}

/// Cuts a known part off a row, and remembers the remainder to be visited; where no more waste is
/// allowed outside the remainder, that must be a known part too.
void ThriftyTable::cut_across(std::int32_t y, std::int32_t state, Value outside,
                              std::int64_t wasted) {
    const auto [width, height, cut_before] = states_[static_cast<std::size_t>(state)];
    const std::vector<Part>& row = parts_.line(y);
    const std::int64_t lighter = (all_ - wasted) / 2;
    for (const Part& part : row) {
        if (part.size >= width) break;
        if (parts_.waste(std::int64_t{part.size} * height, part.value) > lighter) continue;
        const std::int32_t rest = below_x_[static_cast<std::size_t>(width - part.size)];
        if (rest == 0) break;
        const Value more = outside + part.value;
        const Cut cut{state, part.size, Along::x};
        if (waste_outside(grid_.x.at(rest), height, more) >= all_ - each_) {
            const Part inside = ThriftyParts::best(row, grid_.x.at(rest));
            consider(more, inside.value, {inside.size, height, cut});
            steps_ += 10;
        } else if (more_[static_cast<std::size_t>(rest)] <= more) {
            more_[static_cast<std::size_t>(rest)] = more + 1;
            cuts_[static_cast<std::size_t>(rest)] = cut;
        }
        steps_ += 5;
    }
    steps_ += static_cast<std::int64_t>(row.size());
}

void ThriftyTable::cut_up(std::int32_t x, std::int32_t state, Value outside, std::int64_t wasted) {
    const auto [width, height, cut_before] = states_[static_cast<std::size_t>(state)];
    const std::vector<Part>& column = parts_.column(x);
    const std::int64_t lighter = (all_ - wasted) / 2;
    for (const Part& part : column) {
        if (part.size >= height) break;
        if (parts_.waste(std::int64_t{part.size} * width, part.value) > lighter) continue;
        const std::int32_t rest = below_y_[static_cast<std::size_t>(height - part.size)];
        if (rest == 0) break;
        const Value more = outside + part.value;
        const Cut cut{state, part.size, Along::y};
        if (waste_outside(width, grid_.y.at(rest), more) >= all_ - each_) {
            const Part inside = ThriftyParts::best(column, grid_.y.at(rest));
            consider(more, inside.value, {width, inside.size, cut});
            steps_ += 10;
        } else {
            found_[static_cast<std::size_t>(rest)].push_back({x, {more + 1, cut}});
        }
        steps_ += 5;
    }
    steps_ += static_cast<std::int64_t>(column.size());
}

/// False when the rectangle cannot lead to anything better, however it is cut.
bool ThriftyTable::visit(std::int32_t x, std::int32_t y, const Outside& outside) {
    const Length width = grid_.x.at(x);
    const Length height = grid_.y.at(y);
    const Value value = outside.more - 1;
    const Part inside = ThriftyParts::best(parts_.line(y), width);
    const State state{width, height, outside.cut};
    consider(value, inside.value, state);
    steps_ += 20;
    if (parts_.waste(std::int64_t{width} * height, inside.value) <= each_) return false; // known
    const std::int64_t wasted = waste_outside(width, height, value);
    if (wasted >= all_ - each_) return false;
    consider(value, parts_.item(x, y), state); // it may waste more than the known contents
    const auto number = static_cast<std::int32_t>(states_.size());
    states_.push_back(state);
    cut_across(y, number, value, wasted);
    cut_up(x, number, value, wasted);
    return true;
}

void ThriftyTable::run_line(std::int32_t y) {
    for (const Found& found : found_[static_cast<std::size_t>(y)]) {
        const auto here = static_cast<std::size_t>(found.x);
        if (more_[here] >= found.outside.more) continue;
        more_[here] = found.outside.more;
        cuts_[here] = found.outside.cut;
    }
    found_[static_cast<std::size_t>(y)] = {};
    const Value* more = more_.data();
    for (std::int32_t x = grid_.x.size() - 1; x > 0; --x) {
        for (; x >= 8; x -= 8) {
            Value any = 0;
            for (std::int32_t k = x - 7; k <= x; ++k) any |= more[k];
            if (any != 0) break;
        }
        const auto here = static_cast<std::size_t>(x);
        if (x == 0 || more_[here] == 0) continue;
        if (!visit(x, y, {more_[here], cuts_[here]})) {
            more_[here] = 0;
        } else if (more_[here - 1] < more_[here]) {
            more_[here - 1] = more_[here];
            cuts_[here - 1] = cuts_[here];
        }
    }
    steps_ += grid_.x.size() / 4;
}

bool ThriftyTable::run(std::int64_t steps) {
    const std::int32_t right = grid_.x.size() - 1;
    const std::int32_t top = grid_.y.size() - 1;
    more_.assign(static_cast<std::size_t>(right) + 1, 0);
    cuts_.assign(static_cast<std::size_t>(right) + 1, {});
    found_.assign(static_cast<std::size_t>(top) + 1, {});
    states_.clear();
    more_[static_cast<std::size_t>(right)] = 1;
    for (std::int32_t y = top; y > 0 && steps_ <= steps; --y) run_line(y);
    return steps_ <= steps;
}

Block ThriftyTable::block() const {
    Block block;
    if (best_inside_ > 0) block = parts_.block(best_state_.width, best_state_.height, best_inside_);
    for (Cut cut = best_state_.cut; cut.from >= 0;) {
        const State& state = states_[static_cast<std::size_t>(cut.from)];
        const bool across = cut.axis == Along::x;
        Block off = parts_.block(across ? cut.off : state.width, across ? state.height : cut.off);
        block =
            block.width == 0 ? std::move(off) : joined(cut.axis, std::move(block), std::move(off));
        cut = state.cut;
    }
    return block;
}

ThriftyTable::Answer ThriftyTable::fill(Cost known, std::int64_t share, std::int64_t steps) {
    best_ = known;
    // A filling worth more than the best known wastes no more than one that is worth 1 more.
    const std::int64_t allowed = parts_.waste(sheet_.area(), 0) / share;
    all_ = std::min(allowed, parts_.waste(sheet_.area(), best_ + 1));
    each_ = (std::max<std::int64_t>(all_, 0) + 1) / 2;
    Answer answer;
    answer.complete = parts_.find(each_, all_, steps);
    steps_ = parts_.steps();
    if (answer.complete) answer.complete = run(steps);
    answer.proven = answer.complete && parts_.waste(sheet_.area(), best_ + 1) <= allowed;
    if (best_ > known) answer.block = block();
    return answer;
}

} // namespace barrow::layout
