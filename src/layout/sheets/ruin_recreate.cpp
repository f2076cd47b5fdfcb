#include "layout/sheets/ruin_recreate.hpp"

#include "layout/bound/stock_sums.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

// Found by trial on the published instances.
constexpr std::size_t history_length = 500; // rounds that late acceptance looks back
constexpr std::int32_t most_removals = 8;   // parts taken out of one sheet
constexpr std::int32_t skip = 20;           // per mille: a sheet passed over for an item
constexpr std::int32_t two_sheets = 900;    // per mille: two sheets ruined, not one
constexpr std::int32_t leaves_only = 500;   // per mille: single items are taken out, not subtrees
constexpr std::int32_t whole_sheets =
    250; // per mille: with several kinds, whole sheets are given back
constexpr std::int32_t most_given_back = 3;
constexpr std::int32_t other_kind = 300; // per mille: the rest of a sheet moves to another kind
constexpr std::int64_t waiting_dearer = 2000; // per mille of the average cost of area
constexpr std::int64_t price_unit = std::int64_t{1}
                                    << 40; // prices of area are in units of 1 / price_unit
constexpr std::int32_t noise = 300;        // in the order of items, against 1000
constexpr std::size_t weigh_every = 500;   // rounds
constexpr std::int64_t heavier = 20;       // per mille added to kinds that wait
constexpr std::int64_t lighter = 10;       // per mille of that taken off kinds that do not
constexpr std::int64_t light = 1000;
constexpr std::int64_t heaviest = 100 * light;

} // namespace

RuinRecreate::RuinRecreate(const Instance& instance, std::uint64_t seed, Meter& meter)
    : instance_(instance), random_(seed), meter_(meter) {}

void RuinRecreate::start(const Solution& solution) {
    bins_.clear();
    copies_.clear();
    for (const Sheet& sheet : instance_.sheets) copies_.push_back(sheet.copies);
    cost_ = 0;
    for (const Pattern& pattern : solution.patterns) {
        const Sheet& sheet = instance_.sheets[pattern.sheet];
        for (std::int64_t n = 0; n < pattern.copies; ++n)
            bins_.push_back(
                {pattern.sheet, SlicingTree::of(pattern.block, sheet.width, sheet.height), {}});
        cost_ += sheet.cost * pattern.copies;
        copies_[pattern.sheet] -= pattern.copies;
    }
    pool_ = solution.unplaced;
}

void RuinRecreate::weigh_alike() {
    weight_.assign(instance_.items.size(), light);
    sum_waiting();
}

/// Raises the weight of kinds that wait; lowers raised weights of kinds that do not.
void RuinRecreate::weigh_again() {
    for (std::size_t i = 0; i < pool_.size(); ++i) {
        std::int64_t& weight = weight_[i];
        if (pool_[i] > 0)
            weight = std::min(weight + weight * heavier / 1000, heaviest);
        else
            weight -= (weight - light) * lighter / 1000;
    }
    meter_.spend(static_cast<std::int64_t>(pool_.size()) * 2);
    sum_waiting();
}

void RuinRecreate::sum_waiting() {
    burden_of_.resize(pool_.size());
    waiting_ = 0;
    for (std::size_t i = 0; i < pool_.size(); ++i) {
        burden_of_[i] = base::Wide(instance_.items[i].area()) * weight_[i];
        waiting_ += burden_of_[i] * pool_[i];
    }
}

std::int64_t RuinRecreate::free_area(const Bin& bin) const {
    if (bin.kind == none) return 0;
    return instance_.sheets[bin.kind].area() - bin.tree.filled();
}

void RuinRecreate::put_in_pool() {
    for (const std::int32_t item : removed_) {
        ++pool_[static_cast<std::size_t>(item)];
        waiting_ += burden_of_[static_cast<std::size_t>(item)];
    }
}

/// Gives the sheet back: its cost is free again. The bin stays, so that the others keep their
/// numbers.
void RuinRecreate::give_back(std::size_t index) {
    Bin& bin = bins_[index];
    if (bin.kind == none) return;
    removed_.clear();
    if (!bin.tree.empty()) bin.tree.remove(bin.tree.root(), removed_);
    put_in_pool();
    cost_ -= instance_.sheets[bin.kind].cost;
    ++copies_[bin.kind];
    bin.kind = none;
}

void RuinRecreate::close(std::size_t bin) {
    give_back(bin);
    if (bin + 1 != bins_.size()) std::swap(bins_[bin], bins_.back());
    bins_.pop_back();
}

void RuinRecreate::keep_below(Cost limit) {
    limit_ = limit;
    while (cost_ > limit_) {
        // A sheet that alone costs too much must go, whatever is on it.
        const auto rank = [&](const Bin& bin) {
            return std::pair(bin.kind != none && instance_.sheets[bin.kind].cost > limit_,
                             free_area(bin));
        };
        std::size_t worst = 0;
        for (std::size_t i = 1; i < bins_.size(); ++i)
            if (rank(bins_[i]) > rank(bins_[worst])) worst = i;
        close(worst);
    }
}

void RuinRecreate::save(std::size_t bin) {
    for (std::size_t i = 0; i < saved_count_; ++i)
        if (saved_[i].first == bin) return;
    if (bin >= bins_before_) return;
    if (saved_count_ == saved_.size()) saved_.emplace_back();
    saved_[saved_count_].first = bin;
    saved_[saved_count_].second = bins_[bin];
    ++saved_count_;
}

void RuinRecreate::restore() {
    while (bins_.size() > bins_before_) {
        if (bins_.back().kind != none) ++copies_[bins_.back().kind];
        bins_.pop_back();
    }
    for (std::size_t i = 0; i < saved_count_; ++i) {
        Bin& bin = bins_[saved_[i].first];
        --copies_[saved_[i].second.kind];
        if (bin.kind != none) ++copies_[bin.kind];
        std::swap(bin, saved_[i].second);
    }
    pool_ = pool_before_;
    waiting_ = waiting_before_;
    cost_ = cost_before_;
}

void RuinRecreate::ruin_bin(std::size_t index, std::int32_t removals) {
    if (bins_[index].kind == none) return;
    save(index);
    SlicingTree& tree = bins_[index].tree;
    removed_.clear();
    for (std::int32_t n = 0; n < removals && !tree.empty(); ++n) {
        std::int32_t node = 0;
        const bool leaf = random_.chance(leaves_only);
        do {
            node = random_.below(tree.slots());
        } while (!tree.node(node).alive || (leaf && !tree.node(node).leaf()));
        tree.remove(node, removed_);
    }
    tree.settle();
    bins_[index].barred.clear();
    meter_.spend(std::int64_t{20} * tree.slots() + 100);
    put_in_pool();
    if (several_kinds() && random_.chance(other_kind)) exchange_at_random(index);
}

/// Whether such a sheet is available, and affordable in place of the bin's own.
bool RuinRecreate::affords(std::size_t kind, const Bin& bin) const {
    const Sheet& sheet = instance_.sheets[kind];
    if (copies_[kind] == 0 || bin.tree.empty()) return false;
    if (cost_ - instance_.sheets[bin.kind].cost + sheet.cost > limit_) return false;
    const SlicingTree::Node& root = bin.tree.node(bin.tree.root());
    return root.size[0] <= sheet.width && root.size[1] <= sheet.height;
}

void RuinRecreate::exchange(std::size_t index, std::size_t kind) {
    Bin& bin = bins_[index];
    const Sheet& sheet = instance_.sheets[kind];
    ++copies_[bin.kind];
    --copies_[kind];
    cost_ += sheet.cost - instance_.sheets[bin.kind].cost;
    bin.kind = kind;
    bin.tree.move_to(sheet.width, sheet.height);
    bin.barred.clear();
}

void RuinRecreate::exchange_at_random(std::size_t index) {
    std::int32_t options = 0;
    std::size_t chosen = none;
    for (std::size_t s = 0; s < instance_.sheets.size(); ++s)
        if (s != bins_[index].kind && affords(s, bins_[index]) && random_.below(++options) == 0)
            chosen = s;
    meter_.spend(static_cast<std::int64_t>(instance_.sheets.size()) * 4);
    if (chosen != none) exchange(index, chosen);
}

/// The cheapest sheet that holds the content.
void RuinRecreate::make_cheap(std::size_t index) {
    if (bins_[index].kind == none) return;
    std::size_t cheapest = bins_[index].kind;
    for (std::size_t s = 0; s < instance_.sheets.size(); ++s)
        if (instance_.sheets[s].cost < instance_.sheets[cheapest].cost && affords(s, bins_[index]))
            cheapest = s;
    meter_.spend(static_cast<std::int64_t>(instance_.sheets.size()) * 4);
    if (cheapest != bins_[index].kind) exchange(index, cheapest);
}

void RuinRecreate::ruin() {
    if (bins_.empty()) return;
    const auto count = static_cast<std::int64_t>(bins_.size());
    if (several_kinds() && random_.chance(whole_sheets)) {
        for (std::int32_t n = 1 + random_.below(most_given_back); n > 0; --n) {
            const auto bin = static_cast<std::size_t>(random_.below(count));
            save(bin);
            give_back(bin);
        }
        return;
    }
    const int bins = random_.chance(two_sheets) ? 2 : 1;
    for (int n = 0; n < bins; ++n)
        ruin_bin(static_cast<std::size_t>(random_.below(count)), 1 + random_.below(most_removals));
}

bool RuinRecreate::place(std::int32_t kind) {
    const Item& item = instance_.items[static_cast<std::size_t>(kind)];
    Spot best;
    std::size_t best_bin = 0;
    meter_.spend(2 * static_cast<std::int64_t>(bins_.size()));
    const std::int64_t area = item.area();
    for (std::size_t i = 0; i < bins_.size(); ++i) {
        if (free_[i] < area || bins_[i].bars(kind)) continue;
        Bin& bin = bins_[i];
        if (random_.chance(skip)) continue;
        const Spot spot = best_spot(bin.tree, item, fit_);
        meter_.spend(std::int64_t{8} * bin.tree.slots());
        if (!spot.found()) bin.bar(kind, instance_.items.size());
        if (spot.score < best.score) {
            best = spot;
            best_bin = i;
        }
    }
    if (!best.found()) return open_for(kind);
    save(best_bin);
    insert_at(bins_[best_bin].tree, best, item, kind);
    free_[best_bin] -= area;
    meter_.spend(std::int64_t{20} * bins_[best_bin].tree.slots());
    return true;
}

bool RuinRecreate::open_for(std::int32_t kind) {
    const Item& item = instance_.items[static_cast<std::size_t>(kind)];
    std::int32_t options = 0;
    std::size_t chosen = 0;
    meter_.spend(static_cast<std::int64_t>(instance_.sheets.size()) * 4);
    for (std::size_t s = 0; s < instance_.sheets.size(); ++s) {
        const Sheet& sheet = instance_.sheets[s];
        if (copies_[s] == 0 || cost_ + sheet.cost > limit_ || !instance_.holds(sheet, item))
            continue;
        ++options;
        if (random_.below(options) == 0) chosen = s;
    }
    if (options == 0) return false;
    const Sheet& sheet = instance_.sheets[chosen];
    bins_.push_back({chosen, SlicingTree(sheet.width, sheet.height), {}});
    --copies_[chosen];
    cost_ += sheet.cost;
    insert_at(bins_.back().tree, best_spot(bins_.back().tree, item, fit_), item, kind);
    free_.push_back(sheet.area() - item.area());
    return true;
}

void RuinRecreate::recreate() {
    order_.clear();
    for (std::size_t i = 0; i < pool_.size(); ++i) {
        if (pool_[i] == 0) continue;
        const std::int64_t area = instance_.items[i].area();
        order_.emplace_back(-area * (1000 + random_.below(noise)), static_cast<std::int32_t>(i));
    }
    std::sort(order_.begin(), order_.end());
    free_.clear();
    for (const Bin& bin : bins_) free_.push_back(free_area(bin));
    fit_ = static_cast<Fit>(random_.below(3));
    for (const auto& [key, kind] : order_) {
        const auto index = static_cast<std::size_t>(kind);
        while (pool_[index] > 0 && place(kind)) {
            --pool_[index];
            waiting_ -= burden_of_[index];
        }
    }
}

/// The quantity late acceptance minimises: the weighted area that waits; with several kinds of
/// sheet, its cost and that of the sheets.
base::Wide RuinRecreate::burden() const {
    if (!several_kinds()) return waiting_;
    return waiting_ * waiting_price_ + base::Wide(cost_) * price_unit;
}

/// Area that waits costs more than area in answers of this cost, so that leaving it out does not
/// pay.
void RuinRecreate::price_waiting(Cost limit) {
    const base::Wide area = std::max<base::Wide>(area_wanted(instance_), 1);
    waiting_price_ = base::Wide(limit) * (price_unit / light) * waiting_dearer / 1000 / area;
}

/// Replaces sheets touched in this round by the cheapest that hold their content.
void RuinRecreate::save_money() {
    if (!several_kinds()) return;
    for (std::size_t i = 0; i < saved_count_; ++i) make_cheap(saved_[i].first);
    for (std::size_t i = bins_before_; i < bins_.size(); ++i) make_cheap(i);
}

void RuinRecreate::show_patterns() {
    if (patterns_ == nullptr) return;
    const auto show = [&](const Bin& bin) {
        if (bin.kind != none) meter_.spend(patterns_->add(bin.kind, bin.tree, limit_));
    };
    for (std::size_t i = 0; i < saved_count_; ++i) show(bins_[saved_[i].first]);
    for (std::size_t i = bins_before_; i < bins_.size(); ++i) show(bins_[i]);
}

void RuinRecreate::iterate() {
    saved_count_ = 0;
    bins_before_ = bins_.size();
    pool_before_ = pool_;
    waiting_before_ = waiting_;
    cost_before_ = cost_;
    const base::Wide before = burden();
    meter_.spend(200); // even when nothing can be done
    ruin();
    recreate();
    save_money();
    show_patterns();
    base::Wide& late = history_[round_ % history_.size()];
    const base::Wide after = burden();
    if (after <= before || after <= late) {
        // Empty bins are closed so that their cost is free for others.
        for (std::size_t i = bins_.size(); i-- > 0;)
            if (bins_[i].tree.empty()) close(i);
    } else {
        restore();
    }
    late = burden();
    if (++round_ % weigh_every == 0) weigh_again();
}

bool RuinRecreate::search(Cost limit, std::int64_t steps) {
    if (limit < 0) return false;
    weigh_alike();
    keep_below(limit);
    price_waiting(limit);
    const std::int64_t end = meter_.steps() + steps;
    history_.assign(history_length, burden());
    while (waiting_ > 0 && meter_.steps() < end && !meter_.over()) iterate();
    return waiting_ == 0;
}

Solution RuinRecreate::solution() const {
    Solution solution;
    for (const Bin& bin : bins_) {
        if (bin.tree.empty()) continue;
        solution.patterns.push_back({bin.kind, 1, bin.tree.block()});
        solution.cost += instance_.sheets[bin.kind].cost;
    }
    solution.unplaced = pool_;
    return solution;
}

} // namespace barrow::layout
