#include "layout/corner/corner.hpp"

#include "base/wide.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace barrow::layout {
namespace {

/// Non-basic columns on one path. Answers need few; sums that cost nothing could go on for ever.
constexpr std::size_t most_taken = 60;

// Found by trial on the published instances.
constexpr int walks_each = 200;        // random paths for each cost tried
constexpr std::int64_t looked_at = 12; // at most: columns compared at each step of a walk
constexpr std::int32_t onward = 800;   // per mille: steps of a walk that prefer a shorter path
constexpr std::int64_t steps_each = 5'000'000; // for listing all paths

} // namespace

Corner::Corner(std::vector<std::int64_t> demand, std::int64_t step, Meter& meter)
    : demand_(std::move(demand)), step_(step), meter_(meter) {}

std::size_t Corner::add(Column column) {
    columns_.push_back(std::move(column));
    return rows() + columns_.size() - 1;
}

std::vector<std::pair<std::int32_t, std::int64_t>> Corner::counts(std::size_t number) const {
    if (number >= rows()) return columns_[number - rows()].counts;
    return {{static_cast<std::int32_t>(number), -1}};
}

std::int64_t Corner::cost(std::size_t number) const {
    return number >= rows() ? columns_[number - rows()].cost : 0;
}

WholeBasis::Column Corner::dense(std::size_t number) const {
    WholeBasis::Column column(rows(), 0);
    for (const auto& [row, count] : counts(number)) column[static_cast<std::size_t>(row)] = count;
    return column;
}

bool Corner::choose_basis(const std::vector<std::size_t>& order, std::int64_t most_elements) {
    std::vector<WholeBasis::Column> possible;
    possible.reserve(order.size());
    for (const std::size_t number : order) possible.push_back(dense(number));
    std::vector<WholeBasis::Column> columns;
    chosen_.clear();
    for (const std::size_t index : independent(possible, rows())) {
        chosen_.push_back(order[index]);
        columns.push_back(std::move(possible[index]));
    }
    meter_.spend(static_cast<std::int64_t>(order.size() * rows() * rows()));
    if (chosen_.size() < rows()) return false;
    basis_ = WholeBasis::of(std::move(columns));
    meter_.spend(static_cast<std::int64_t>(rows() * rows() * rows()) * 20);
    if (!basis_ || basis_->determinant() > most_elements) return false;
    group_.emplace(*basis_);
    return find_prices();
}

/// Costs of the basis times its inverse.
bool Corner::find_prices() {
    prices_.clear();
    base::Wide least = 0;
    for (std::size_t row = 0; row < rows(); ++row) {
        base::Wide price = 0;
        for (std::size_t i = 0; i < rows(); ++i)
            price += base::Wide(cost(chosen_[i])) * basis_->inverse()[i][row];
        const auto narrowed = base::narrow(price);
        if (!narrowed || *narrowed < 0)
            return false; // below 0: overproduction would save something
        prices_.push_back(*narrowed);
        least += price * demand_[row];
    }
    const auto narrowed = base::narrow(least);
    if (!narrowed) return false;
    least_ = *narrowed;
    const base::Wide whole = base::Wide(step_) * basis_->determinant();
    bound_ = static_cast<std::int64_t>(base::divide_up(least, whole)) * step_;
    return true;
}

bool Corner::find_others() {
    others_.clear();
    wanted_ = group_->element(demand_);
    std::vector<bool> in_basis(columns_.size() + rows(), false);
    for (const std::size_t number : chosen_) in_basis[number] = true;
    for (std::size_t number = 0; number < in_basis.size(); ++number) {
        if (in_basis[number]) continue;
        const auto of_column = counts(number);
        base::Wide beyond = base::Wide(cost(number)) * basis_->determinant();
        std::vector<base::Wide> replaced(rows(), 0);
        for (const auto& [row, count] : of_column) {
            beyond -= base::Wide(prices_[static_cast<std::size_t>(row)]) * count;
            for (std::size_t i = 0; i < rows(); ++i)
                replaced[i] +=
                    base::Wide(basis_->inverse()[i][static_cast<std::size_t>(row)]) * count;
        }
        const auto narrowed = base::narrow(beyond);
        if (!narrowed || *narrowed < 0) return false;
        Other other{*narrowed, group_->element(of_column), number, {}};
        for (const base::Wide times : replaced) {
            const auto fits = base::narrow(times * 2 * static_cast<std::int64_t>(most_taken));
            if (!fits) return false; // sums of this many stay within half the range
            other.replaces.push_back(static_cast<std::int64_t>(times));
        }
        others_.push_back(std::move(other));
    }
    std::sort(others_.begin(), others_.end());
    meter_.spend(static_cast<std::int64_t>(others_.size() * (100 + 10 * rows())));
    return true;
}

std::optional<std::int64_t> Corner::room(std::int64_t cost) const {
    return base::narrow(base::Wide(cost) * basis_->determinant() - least_);
}

/// Uses of the basis without other columns.
bool Corner::begin() {
    first_times_.clear();
    for (std::size_t i = 0; i < rows(); ++i) {
        base::Wide times = 0;
        for (std::size_t row = 0; row < rows(); ++row)
            times += base::Wide(basis_->inverse()[i][row]) * demand_[row];
        if (!base::narrow(times * 2)) return false;
        first_times_.push_back(static_cast<std::int64_t>(times));
    }
    std::vector<ResidueGroup::Element> left;
    for (const Other& other : others_) left.push_back(group_->negative(other.element));
    without_.emplace(*group_, left);
    return true;
}

Corner::End Corner::run(std::int64_t limit, std::int64_t steps) {
    end_ = meter_.steps() + steps;
    const auto most = room(limit);
    if (!find_others()) return End::unfit;
    if (!most || *most > ResidueCosts::most_cost || !begin()) return End::spent;
    std::vector<ResidueCosts::Step> ways;
    for (const Other& other : others_) ways.push_back({other.beyond, other.element});
    ways_.emplace(*group_, ways, *most, meter_);
    bool proven = true; // for every cost below
    std::int64_t further = step_;
    for (std::int64_t cost = bound_; cost <= limit; cost += further) {
        const std::int64_t room = *this->room(cost);
        meter_.spend(50);
        if (!ways_->settle(room, end_)) return End::spent;
        if (ways_->cost(wanted_) <= room) {
            for (int n = 0; n < walks_each && !over(); ++n)
                if (walk(room)) return End::found;
            if (proven && look_through(room)) return End::found;
            if (over()) return End::spent;
            proven = proven && all_seen_;
            if (!proven) further = std::min(2 * further, std::max(step_, limit - cost));
        }
        if (proven) bound_ = cost + step_;
    }
    return proven ? End::impossible : End::spent;
}

bool Corner::feasible() const {
    return std::all_of(times_.begin(), times_.end(), [](std::int64_t n) { return n >= 0; });
}

/// Takes one more of a column; false when that would be too many.
bool Corner::take(std::size_t other) {
    if (taken_.size() == most_taken) return false;
    taken_.push_back(other);
    for (std::size_t i = 0; i < rows(); ++i) times_[i] -= others_[other].replaces[i];
    return true;
}

/// How far the uses of the basis would fall below 0 with one more of a column.
std::int64_t Corner::short_of(std::size_t other) const {
    base::Wide sum = 0;
    for (std::size_t i = 0; i < rows(); ++i)
        sum += std::min<std::int64_t>(0, times_[i] - others_[other].replaces[i]);
    return base::narrow(-sum).value_or(INT64_MAX);
}

/// The columns from the first on that are next on some path to `rest`.
std::vector<std::size_t> Corner::possible(ResidueGroup::Element rest, std::int64_t room,
                                          std::size_t first) {
    std::vector<std::size_t> found;
    const ResidueGroup::Digits digits = group_->digits(rest);
    std::size_t at = first;
    for (; at < others_.size() && others_[at].beyond <= room; ++at)
        if (ways_->cost(without_->to(digits, at)) <= room - others_[at].beyond) found.push_back(at);
    meter_.spend(100 + static_cast<std::int64_t>(at - first) * 4);
    return found;
}

/// One random path: at each step, among a sample of the columns, the one that leaves the basis
/// least below 0, then the one with the shortest path ahead.
bool Corner::walk(std::int64_t room) {
    ResidueGroup::Element rest = wanted_;
    times_ = first_times_;
    taken_.clear();
    const std::int64_t looked = 1 + random_.below(looked_at);
    while (rest != 0 || !feasible()) {
        const std::vector<std::size_t> next = possible(rest, room, 0);
        if (next.empty()) return false;
        const ResidueGroup::Digits digits = group_->digits(rest);
        const bool on = random_.chance(onward);
        std::size_t best = 0;
        std::tuple<bool, std::int64_t, std::int64_t> least{true, INT64_MAX, INT64_MAX};
        for (std::int64_t n = 0; n < looked; ++n) {
            const auto count = static_cast<std::int64_t>(next.size());
            const std::size_t other = next[static_cast<std::size_t>(random_.below(count))];
            const std::int64_t left = ways_->length(without_->to(digits, other));
            const bool longer = on && left >= ways_->length(rest);
            const std::tuple<bool, std::int64_t, std::int64_t> worth{longer, short_of(other), left};
            if (n > 0 && worth >= least) continue;
            least = worth;
            best = other;
        }
        meter_.spend(looked * 3 * static_cast<std::int64_t>(rows()));
        if (!take(best)) return false;
        rest = without_->to(digits, best);
        room -= others_[best].beyond;
    }
    keep();
    return true;
}

/// Tries all paths that cost at most `room`, unless there are too many: all_seen_.
bool Corner::look_through(std::int64_t room) {
    times_ = first_times_;
    taken_.clear();
    all_seen_ = true;
    const std::int64_t end = std::exchange(end_, std::min(end_, meter_.steps() + steps_each));
    const bool found = search(wanted_, room, 0);
    if (!found && over()) all_seen_ = false;
    end_ = end;
    return found;
}

/// Tries all paths to `rest` by columns from the `first` on that cost at most `room`.
bool Corner::search(ResidueGroup::Element rest, std::int64_t room, std::size_t first) {
    if (rest == 0 && feasible()) {
        keep();
        return true;
    }
    for (const std::size_t other : possible(rest, room, first)) {
        if (over()) return false;
        if (!take(other)) {
            all_seen_ = false;
            return false;
        }
        const ResidueGroup::Element next = without_->to(group_->digits(rest), other);
        if (search(next, room - others_[other].beyond, other)) return true;
        for (std::size_t i = 0; i < rows(); ++i) times_[i] += others_[other].replaces[i];
        taken_.pop_back();
    }
    return false;
}

void Corner::keep() {
    uses_.assign(columns_.size(), 0);
    for (std::size_t i = 0; i < rows(); ++i)
        if (chosen_[i] >= rows()) uses_[chosen_[i] - rows()] = times_[i] / basis_->determinant();
    for (const std::size_t other : taken_)
        if (others_[other].number >= rows()) ++uses_[others_[other].number - rows()];
}

} // namespace barrow::layout
