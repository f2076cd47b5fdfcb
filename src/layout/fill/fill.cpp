#include "layout/fill/fill.hpp"

#include "base/wide.hpp"
#include "layout/bound/area.hpp"
#include "layout/fill/choice.hpp"
#include "layout/fill/copy_prices.hpp"
#include "layout/fill/label_search.hpp"
#include "layout/fill/strip_search.hpp"
#include "layout/fill/value_search.hpp"
#include "layout/model/densest.hpp"
#include "layout/sets/set_shapes.hpp"
#include "layout/table/guillotine_table.hpp"
#include "layout/table/thrifty_table.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

class Filler {
public:
    Filler(const Instance& instance, const FillBudget& budget, Meter& meter)
        : instance_(instance), meter_(meter), budget_(budget), choice_(instance, meter),
          bound_(area_value_bound(instance)) {}

    Filling run() {
        for (std::size_t i = 0; i < instance_.items.size(); ++i)
            choice_.offer(leaf_of(instance_, static_cast<std::int32_t>(i),
                                  !fits_upright(instance_.items[i])));
        if (open()) try_sets(budget_.few_sets, 20'000);
        if (open()) try_tables();
        for (std::uint64_t seed = 2; seed < 2 + budget_.beginnings && open(); ++seed)
            begin_anew(seed);
        return {choice_.block(), choice_.value(), std::max(bound_, choice_.value())};
    }

private:
    bool open() const { return bound_ > choice_.value() && !meter_.over(); }

    void prove(Cost bound) {
        bound_ = std::min(bound_, bound);
        meter_.found(choice_.value());
        meter_.proved(bound_);
    }

    void try_sets(std::int64_t steps, std::size_t most_sets) {
        SetShapes shapes(instance_);
        shapes.waste_at_most(waste_to_beat());
        if (!shapes.enumerate(steps, most_sets, meter_)) return;
        for (std::size_t s = 0; s < shapes.sets().size(); ++s) {
            const SetShapes::Set& set = shapes.sets()[s];
            Cost value = 0;
            for (std::size_t kind = 0; kind < instance_.items.size(); ++kind)
                value += shapes.count(set, kind) * instance_.items[kind].value;
            if (value > choice_.value())
                choice_.offer(shapes.block(static_cast<std::int32_t>(s), 0));
        }
        prove(choice_.value());
    }

    /// The greatest waste of a choice better than the known one, in area at the best value per
    /// area.
    std::int64_t waste_to_beat() const {
        const Item& best = densest(instance_);
        if (best.value == 0) return 0;
        const base::Wide used =
            base::divide_up(base::Wide(choice_.value() + 1) * best.area(), best.value);
        return base::narrow(instance_.sheets.front().area() - used).value_or(0);
    }

    void try_tables() {
        Grid grid = grid_of(instance_, 20'000);
        if (grid.empty()) return do_without_tables();
        const auto cells =
            static_cast<std::size_t>(grid.x.size()) * static_cast<std::size_t>(grid.y.size());
        if (try_thrifty(grid)) return;
        if (cells > budget_.most_cells) return do_without_tables();
        fill_up(instance_, grid);
        if (try_plain(grid)) return;
        GuillotineTable<double> table(instance_, grid);
        std::vector<double> values;
        for (const Item& item : instance_.items) values.push_back(static_cast<double>(item.value));
        // Values too large to add exactly in the table prove nothing.
        if (table.safe_scale(values, 1.0) < 1.0) return do_without_tables();
        const bool dear = cells > 1'000'000;
        if (dear) improve(); // good patterns to start from matter more
        const CopyPrices prices =
            find_copy_prices(instance_, table, choice_, budget_.prices, meter_);
        prove(prices.bound);
        if (open()) improve();
        if (open() && dear) cut_strips(); // labels are slower still, and seldom finish
        if (open()) try_labels(grid, table, prices);
    }

    void do_without_tables() {
        improve();
        if (open()) try_sets(budget_.many_sets, 400'000);
        if (open()) cut_strips();
    }

    void cut_strips() {
        StripSearch(instance_, choice_, meter_).run(budget_.strips, bound_);
        meter_.found(choice_.value());
    }

    /// Labels and sets of items are two ways to a proof, and seldom are both slow: labels for a
    /// while, then sets, then labels again.
    void try_labels(const Grid& grid, GuillotineTable<double>& table, const CopyPrices& prices) {
        LabelSearch labels(instance_, grid, table, prices, choice_, meter_);
        prove(labels.run(budget_.labels));
        if (open()) try_sets(budget_.many_sets, 400'000);
        if (open()) prove(labels.run(meter_.left()));
    }

    void improve() {
        ValueSearch(instance_, 1, choice_, meter_).run(budget_.search, bound_);
        meter_.found(choice_.value());
    }

    /// Not proven yet: a search from another start may still improve the choice.
    void begin_anew(std::uint64_t seed) {
        Choice other(instance_, meter_);
        other.offer(leaf_of(instance_, 0, !fits_upright(instance_.items.front())));
        ValueSearch(instance_, seed, other, meter_).run(budget_.search, bound_);
        if (other.block()) choice_.offer(*other.block());
        meter_.found(choice_.value());
    }

    bool fits_upright(const Item& item) const {
        const Sheet& sheet = instance_.sheets.front();
        return item.width <= sheet.width && item.height <= sheet.height;
    }

    /// Whether each kind may be used as often as fits on a sheet.
    bool copies_to_spare() const {
        const Sheet& sheet = instance_.sheets.front();
        return std::all_of(instance_.items.begin(), instance_.items.end(), [&](const Item& item) {
            const auto in = [&](Length w, Length h) {
                return std::int64_t{sheet.width / w} * (sheet.height / h);
            };
            return item.demand >= in(item.width, item.height)
                   && (!item.turns || item.demand >= in(item.height, item.width));
        });
    }

    /// Where copies cannot bind, one table has the answer, in half the memory of the other.
    bool try_plain(const Grid& grid) {
        if (!copies_to_spare()) return false;
        GuillotineTable<std::int32_t> table(instance_, grid);
        std::vector<double> prices;
        std::vector<std::int32_t> values;
        for (const Item& item : instance_.items) prices.push_back(static_cast<double>(item.value));
        if (table.safe_scale(prices, 1.0) < 1.0) return false;
        for (const Item& item : instance_.items)
            values.push_back(static_cast<std::int32_t>(item.value));
        table.run(values);
        meter_.spend(table.steps());
        const Sheet& sheet = instance_.sheets.front();
        if (table.best(sheet) > 0) choice_.offer(table.block(sheet));
        prove(choice_.value());
        return true;
    }

    /// Where copies cannot bind and little need be wasted: allows ever more waste, in small steps
    /// where steps are slow, since the first filling found is mostly the best.
    bool try_thrifty(const Grid& grid) {
        if (!copies_to_spare() || !ThriftyParts::suits(instance_)) return false;
        ThriftyTable table(instance_, grid);
        // About the steps GuillotineTable would take.
        const auto cells = std::int64_t{grid.x.size()} * grid.y.size();
        std::int64_t steps = std::min(budget_.prices, 20 * cells + 1'000'000);
        std::int64_t first = 0;
        for (std::int64_t share = 3600; share > 0 && !meter_.over();) {
            const ThriftyTable::Answer answer = table.fill(choice_.value(), share, steps);
            meter_.spend(table.steps());
            steps -= table.steps();
            if (answer.block) choice_.offer(*answer.block);
            if (answer.proven) prove(choice_.value());
            if (answer.proven || !answer.complete) return answer.proven;
            if (first == 0) first = table.steps();
            const bool dear = table.steps() > first + first / 8;
            const bool cheap = share < 3600 && table.steps() < first + first / 64;
            share = dear ? share * 5 / 7 : share / (cheap ? 4 : 2);
        }
        return false;
    }

    const Instance& instance_;
    Meter& meter_;
    FillBudget budget_;
    Choice choice_;
    Cost bound_;
};

} // namespace

FillBudget fill_budget(Effort effort) {
    constexpr std::int64_t million = 1'000'000;
    FillBudget budget;
    switch (effort) {
    case Effort::quick:
        budget.few_sets = million / 2;
        budget.many_sets = 20 * million;
        budget.prices = 200 * million;
        budget.search = 20 * million;
        budget.labels = 50 * million;
        budget.strips = 60 * million;
        budget.most_cells = 4 * million;
        break;
    case Effort::normal:
        budget.few_sets = 2 * million;
        budget.many_sets = 2000 * million;
        budget.prices = 2000 * million;
        budget.search = 100 * million;
        budget.beginnings = 20;
        budget.labels = 200 * million;
        budget.strips = 900 * million;
        budget.most_cells = 40 * million;
        break;
    case Effort::thorough:
        budget.few_sets = 2 * million;
        budget.many_sets = 20'000 * million;
        budget.prices = 20'000 * million;
        budget.search = 2000 * million;
        budget.beginnings = 20;
        budget.labels = 5000 * million;
        budget.strips = 10'000 * million;
        budget.most_cells = 40 * million;
        break;
    }
    return budget;
}

FillBudget one_price_of_many() {
    FillBudget budget = fill_budget(Effort::quick);
    budget.search = 2'000'000;
    return budget;
}

Filling fill(const Instance& instance, const FillBudget& budget, Meter& meter) {
    if (instance.sheets.empty()) return {};
    return Filler(instance, budget, meter).run();
}

std::int64_t fill_work_limit(Effort effort) {
    switch (effort) {
    case Effort::quick: return 300'000;
    case Effort::normal: return 4'500'000;
    case Effort::thorough: return 60'000'000;
    }
    return 0;
}

} // namespace barrow::layout
