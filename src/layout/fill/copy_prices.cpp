#include "layout/fill/copy_prices.hpp"

#include "base/wide.hpp"
#include "layout/lp/linear_program.hpp"

#include <algorithm>
#include <cmath>

namespace barrow::layout {
namespace {

class PriceSearch {
public:
    PriceSearch(const Instance& instance, GuillotineTable<double>& table, Choice& choice,
                Meter& meter)
        : instance_(instance), table_(table), choice_(choice), meter_(meter), lp_(rows(instance)),
          trial_(instance.items.size(), 0.0) {
        std::vector<double> values;
        for (const Item& item : instance.items) values.push_back(static_cast<double>(item.value));
        // Prices finer than a thousandth bring nothing; a whole scale keeps them exact.
        best_.scale =
            std::max<std::int64_t>(1, static_cast<std::int64_t>(table.safe_scale(values, 1024.0)));
        best_.prices.assign(instance.items.size(), 0);
        best_.bound = INT64_MAX;
    }

    CopyPrices run(std::int64_t steps) {
        const std::int64_t end = meter_.steps() + steps;
        double step = 1; // how far to move from the best prices towards those of the LP
        for (;;) {
            const Block pattern = try_prices(step);
            if (best_.bound <= choice_.value() || meter_.over() || meter_.steps() >= end) break;
            bool better = offer_column(pattern);
            better = offer_halves() || better;
            if (!better && step == 1) break;
            step = better ? 0.5 : 1; // a stabilised step may find nothing where a full one does
            if (!better) continue;
            if (!lp_.solve()) break;
            for (std::size_t i = 0; i < trial_.size(); ++i)
                trial_[i] = std::max(0.0, -lp_.dual(static_cast<std::int32_t>(i) + 1));
        }
        // For the stages that follow; there are none when all is proven.
        if (best_.bound > choice_.value()) evaluate(best_.prices);
        return best_;
    }

private:
    static std::vector<LinearProgram::Row> rows(const Instance& instance) {
        std::vector<LinearProgram::Row> rows{{-LinearProgram::infinite, 1}};
        for (const Item& item : instance.items)
            rows.push_back({-LinearProgram::infinite, static_cast<double>(item.demand)});
        return rows;
    }

    Block try_prices(double step) {
        std::vector<std::int64_t> prices;
        for (std::size_t i = 0; i < trial_.size(); ++i) {
            const double here = static_cast<double>(best_.prices[i]);
            const double there = trial_[i] * static_cast<double>(best_.scale);
            // A price above the value of a kind is useless.
            prices.push_back(
                std::min(instance_.items[i].value * best_.scale,
                         static_cast<std::int64_t>(std::llround(here + step * (there - here)))));
        }
        return evaluate(prices);
    }

    /// Computes the bound at these prices; keeps them when it is the least so far.
    Block evaluate(const std::vector<std::int64_t>& prices) {
        std::vector<double> left;
        base::Wide all = 0;
        for (std::size_t i = 0; i < prices.size(); ++i) {
            const Item& item = instance_.items[i];
            left.push_back(
                std::max(0.0, static_cast<double>(item.value * best_.scale - prices[i])));
            all += base::Wide(prices[i]) * item.demand;
        }
        table_.run(left);
        meter_.spend(3 * table_.steps());
        const Sheet& sheet = instance_.sheets.front();
        const auto rest = static_cast<std::int64_t>(table_.best(sheet));
        const auto bound = static_cast<Cost>((all + rest) / best_.scale);
        if (bound < best_.bound || best_.bound == INT64_MAX) {
            best_.bound = bound;
            best_.prices = prices;
            best_.all_copies = static_cast<std::int64_t>(all);
        }
        return rest > 0 ? table_.block(sheet) : Block{};
    }

    /// False when the pattern would not improve the LP.
    bool offer_column(const Block& pattern) {
        if (pattern.width == 0) return false;
        choice_.offer(pattern);
        std::vector<std::int64_t> counts(instance_.items.size(), 0);
        count_items(pattern, counts);
        double value = 0;
        double priced = 0;
        std::vector<Entry> entries{{0, 1.0}};
        for (std::size_t i = 0; i < counts.size(); ++i) {
            if (counts[i] == 0) continue;
            const auto count = static_cast<double>(counts[i]);
            value += count * static_cast<double>(instance_.items[i].value);
            priced += count * trial_[i];
            entries.push_back({static_cast<std::int32_t>(i) + 1, count});
        }
        const double rent = lp_.columns() == 0 ? -1 : -lp_.dual(0);
        if (value - priced <= rent + 1e-7 * std::max(1.0, value)) return false;
        lp_.add_column(-value, entries);
        return true;
    }

    /// A first cut of the sheet, and the value of the best contents of the two parts.
    struct Halves {
        double worth = 0;
        Sheet one;
        Sheet two;
        Along axis = Along::x;
    };

    std::vector<Halves> halves() const {
        const Sheet& sheet = instance_.sheets.front();
        const Grid& grid = table_.grid();
        std::vector<Halves> all;
        const auto add = [&](Along axis, const Sheet& one, const Sheet& two) {
            const double first = table_.best(one);
            const double second = table_.best(two);
            if (first > 0 && second > 0) all.push_back({first + second, one, two, axis});
        };
        const auto part = [](Length width, Length height) {
            Sheet half;
            half.width = width;
            half.height = height;
            return half;
        };
        for (std::int32_t i = 1; i < grid.x.size() && grid.x.at(i) <= sheet.width / 2; ++i)
            add(Along::x, part(grid.x.at(i), sheet.height),
                part(sheet.width - grid.x.at(i), sheet.height));
        for (std::int32_t i = 1; i < grid.y.size() && grid.y.at(i) <= sheet.height / 2; ++i)
            add(Along::y, part(sheet.width, grid.y.at(i)),
                part(sheet.width, sheet.height - grid.y.at(i)));
        std::stable_sort(all.begin(), all.end(),
                         [](const Halves& a, const Halves& b) { return a.worth > b.worth; });
        return all;
    }

    /// One run of a table knows the best pattern for every first cut: many good columns for the
    /// price of one, so far fewer runs are needed. Small tables are quicker to run again.
    bool offer_halves() {
        const std::int64_t cuts = table_.grid().x.size() + table_.grid().y.size();
        if (3 * table_.steps() < 10 * cuts * most_looked) return false;
        int looked = 0;
        int better = 0;
        for (const Halves& half : halves()) {
            if (looked++ == most_looked || better == most_better || meter_.over()) break;
            if (offer_column(joined(half.axis, table_.block(half.one), table_.block(half.two))))
                ++better;
            meter_.spend(10 * cuts);
        }
        return better > 0;
    }

    static constexpr int most_better = 60; // found by trial
    static constexpr int most_looked = 200;

    const Instance& instance_;
    GuillotineTable<double>& table_;
    Choice& choice_;
    Meter& meter_;
    LinearProgram lp_;
    std::vector<double> trial_; ///< prices of the LP
    CopyPrices best_;
};

} // namespace

CopyPrices find_copy_prices(const Instance& instance, GuillotineTable<double>& table,
                            Choice& choice, std::int64_t steps, Meter& meter) {
    return PriceSearch(instance, table, choice, meter).run(steps);
}

} // namespace barrow::layout
