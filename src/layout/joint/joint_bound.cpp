#include "layout/joint/joint_bound.hpp"

#include "base/wide.hpp"
#include "layout/lp/linear_program.hpp"
#include "layout/model/instance.hpp"
#include "layout/table/guillotine_table.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <optional>
#include <set>

namespace barrow::layout {
namespace {

using base::Wide;
using Prices = std::vector<std::int32_t>;
using Counts = std::vector<std::pair<std::int32_t, std::int64_t>>;

/// Sums along an axis beyond which a job's table would be too large.
constexpr std::size_t most_sums = 600;

/// One job as the bound sees it.
struct Place {
    Instance instance;
    Grid grid;
    std::unique_ptr<GuillotineTable<std::int32_t>> table;
    std::map<std::size_t, std::size_t> item_of; ///< index of a piece to that of its item
    std::size_t first_row = 0;                  ///< of the LP: items, then sheets of limited number
    std::map<std::size_t, std::size_t> sheet_rows;
    std::set<std::pair<std::size_t, Counts>> known;
};

/// An option in the terms of the places: what it asks of which item.
using Asks = std::vector<JointPiece>;

class Bounding {
public:
    Bounding(const std::vector<Job>& jobs, const std::vector<JointChoice>& choices,
             std::int64_t work)
        : steps_left_(work * 1'000) {
        for (const Job& job : jobs) add_place(job);
        for (const JointChoice& choice : choices) add_choice(choice);
    }

    Cost run() {
        if (!possible_) return 0;
        build();
        while (steps_left_ > 0) {
            const std::int64_t before = lp_->iterations();
            if (!lp_->solve()) break;
            steps_left_ -= (lp_->iterations() - before) * lp_->columns() * 20 + 50'000;
            if (!price()) break;
        }
        return bound_;
    }

private:
    void add_place(const Job& job) {
        auto place = std::make_unique<Place>();
        if (job.pieces.empty()) { // nothing is ever wanted of it
            places_.push_back(std::move(place));
            return;
        }
        place->instance = instance_of(divided(job, common_factor(job)));
        for (std::size_t i = 0; i < place->instance.items.size(); ++i)
            for (const Source& source : place->instance.items[i].sources)
                place->item_of[source.index] = i;
        place->grid = grid_of(place->instance, most_sums);
        if (place->grid.empty() && !place->instance.items.empty())
            possible_ = false;
        else if (!place->instance.items.empty())
            place->table =
                std::make_unique<GuillotineTable<std::int32_t>>(place->instance, place->grid);
        places_.push_back(std::move(place));
    }

    /// Options with a piece that fits no sheet of its job are none.
    void add_choice(const JointChoice& choice) {
        std::vector<Asks> options;
        for (const std::vector<JointPiece>& option : choice.options) {
            Asks asks;
            bool fits = true;
            for (JointPiece piece : option) {
                const auto item = places_[piece.job]->item_of.find(piece.piece);
                fits = fits && item != places_[piece.job]->item_of.end();
                if (!fits) break;
                piece.piece = item->second;
                asks.push_back(piece);
            }
            if (fits) options.push_back(std::move(asks));
        }
        if (options.empty()) possible_ = false;
        times_.push_back(choice.times);
        options_.push_back(std::move(options));
    }

    void build() {
        std::vector<LinearProgram::Row> rows;
        for (const auto& place : places_) {
            place->first_row = rows.size();
            rows.resize(rows.size() + place->instance.items.size(), {0, LinearProgram::infinite});
            for (std::size_t s = 0; s < place->instance.sheets.size(); ++s) {
                const std::int64_t copies = place->instance.sheets[s].copies;
                if (copies == unlimited) continue;
                place->sheet_rows[s] = rows.size();
                rows.push_back({-LinearProgram::infinite, static_cast<double>(copies)});
            }
        }
        const std::size_t first_choice = rows.size();
        for (const std::int64_t times : times_)
            rows.push_back({static_cast<double>(times), static_cast<double>(times)});
        lp_ = std::make_unique<LinearProgram>(rows);
        for (std::size_t c = 0; c < options_.size(); ++c)
            for (const Asks& asks : options_[c]) add_option(first_choice + c, asks);
        for (const auto& place : places_) add_single_items(*place);
    }

    void add_option(std::size_t choice_row, const Asks& asks) {
        std::map<std::int32_t, double> sums;
        for (const JointPiece& ask : asks)
            sums[static_cast<std::int32_t>(places_[ask.job]->first_row + ask.piece)] -=
                static_cast<double>(ask.count);
        sums[static_cast<std::int32_t>(choice_row)] = 1;
        std::vector<Entry> entries;
        for (const auto& [row, value] : sums) entries.push_back({row, value});
        lp_->add_column(0, entries);
    }

    /// One item on a sheet of its own: with a sheet of unlimited number, always an answer.
    void add_single_items(Place& place) {
        for (std::size_t i = 0; i < place.instance.items.size(); ++i)
            for (std::size_t s = 0; s < place.instance.sheets.size(); ++s)
                if (place.instance.holds(place.instance.sheets[s], place.instance.items[i]))
                    add_pattern(place, s, {{static_cast<std::int32_t>(i), 1}});
    }

    bool add_pattern(Place& place, std::size_t sheet, const Counts& counts) {
        if (!place.known.emplace(sheet, counts).second) return false;
        std::vector<Entry> entries;
        for (const auto& [item, count] : counts)
            entries.push_back(
                {static_cast<std::int32_t>(place.first_row) + item, static_cast<double>(count)});
        const auto row = place.sheet_rows.find(sheet);
        if (row != place.sheet_rows.end())
            entries.push_back({static_cast<std::int32_t>(row->second), 1.0});
        lp_->add_column(static_cast<double>(place.instance.sheets[sheet].cost), entries);
        return true;
    }

    /// Prices of all jobs in whole numbers of 1/unit, the same for all.
    std::vector<Prices> prices_of(double& unit) const {
        std::vector<std::vector<double>> duals;
        unit = 1e12;
        for (const auto& place : places_) {
            duals.emplace_back();
            for (std::size_t i = 0; i < place->instance.items.size(); ++i)
                duals.back().push_back(
                    std::max(0.0, lp_->dual(static_cast<std::int32_t>(place->first_row + i))));
            if (place->table) unit = place->table->safe_scale(duals.back(), unit);
        }
        unit = std::max(1.0, std::floor(unit));
        std::vector<Prices> prices;
        for (const std::vector<double>& own : duals) {
            prices.emplace_back();
            for (const double dual : own)
                prices.back().push_back(static_cast<std::int32_t>(std::floor(dual * unit)));
        }
        return prices;
    }

    bool price() {
        double unit = 1;
        std::vector<Prices> prices = prices_of(unit);
        bool found = false;
        Wide rent = 0;
        for (std::size_t p = 0; p < places_.size(); ++p) {
            Place& place = *places_[p];
            if (!place.table) continue;
            place.table->run(prices[p]);
            steps_left_ -= place.table->steps();
            found = add_better(place, unit) || found;
            rent += shrink(place, static_cast<std::int64_t>(unit), prices[p]);
        }
        tighten(prices, rent, static_cast<std::int64_t>(unit));
        return found;
    }

    /// Patterns that bring more than their sheet costs.
    bool add_better(Place& place, double unit) {
        bool found = false;
        for (std::size_t s = 0; s < place.instance.sheets.size(); ++s) {
            const Sheet& sheet = place.instance.sheets[s];
            const auto row = place.sheet_rows.find(s);
            const double rent = row == place.sheet_rows.end()
                                    ? 0
                                    : lp_->dual(static_cast<std::int32_t>(row->second));
            const auto cost = static_cast<double>(sheet.cost);
            const double value = place.table->best(sheet) / unit;
            if (value <= cost - rent + 1e-7 * std::max(1.0, cost)) continue;
            std::vector<std::int64_t> counts(place.instance.items.size(), 0);
            count_items(place.table->block(sheet), counts);
            Counts pattern;
            for (std::size_t i = 0; i < counts.size(); ++i)
                if (counts[i] > 0) pattern.emplace_back(static_cast<std::int32_t>(i), counts[i]);
            found = add_pattern(place, s, pattern) || found;
        }
        return found;
    }

    /// Shrinks a job's prices until no sheet without limit brings more than it costs; answers what
    /// sheets of limited number bring beyond their cost at those prices, all copies together.
    static Wide shrink(const Place& place, std::int64_t unit, Prices& prices) {
        Wide over = 1; // prices times over / under
        Wide under = 1;
        for (const Sheet& sheet : place.instance.sheets) {
            if (sheet.copies != unlimited) continue;
            const Wide value = place.table->best(sheet);
            const Wide cost = Wide(sheet.cost) * unit;
            if (value * over <= cost * under) continue;
            over = cost;
            under = value;
        }
        for (std::int32_t& price : prices)
            price = static_cast<std::int32_t>(Wide(price) * over / under); // rounded down
        Wide rent = 0;
        for (const Sheet& sheet : place.instance.sheets) {
            if (sheet.copies == unlimited) continue;
            const Wide most = Wide(place.table->best(sheet)) * over / under;
            const Wide gain = most - Wide(sheet.cost) * unit;
            if (gain > 0) rent += gain * sheet.copies;
        }
        return rent;
    }

    /// What the cheapest options ask for, at the prices, less the rent of limited sheets.
    void tighten(const std::vector<Prices>& prices, Wide rent, std::int64_t unit) {
        Wide income = 0;
        for (std::size_t c = 0; c < options_.size(); ++c) {
            std::optional<Wide> least;
            for (const Asks& asks : options_[c]) {
                Wide sum = 0;
                for (const JointPiece& ask : asks)
                    sum += Wide(prices[ask.job][ask.piece]) * ask.count;
                if (!least || sum < *least) least = sum;
            }
            income += least.value_or(0) * times_[c];
        }
        if (income <= rent) return;
        bound_ = std::max(bound_, static_cast<Cost>(base::divide_up(income - rent, unit)));
    }

    std::int64_t steps_left_;
    std::vector<std::unique_ptr<Place>> places_; // tables point into them
    std::vector<std::int64_t> times_;
    std::vector<std::vector<Asks>> options_; ///< beside times_; pieces stand for items
    bool possible_ = true;
    std::unique_ptr<LinearProgram> lp_;
    Cost bound_ = 0;
};

} // namespace

Cost joint_bound(const std::vector<Job>& jobs, const std::vector<JointChoice>& choices,
                 std::int64_t work) {
    return Bounding(jobs, choices, work).run();
}

} // namespace barrow::layout
