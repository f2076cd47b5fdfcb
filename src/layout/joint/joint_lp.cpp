#include "layout/joint/joint_lp.hpp"

#include "base/wide.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace barrow::layout {
namespace {

using base::Wide;

/// Raster points along an axis beyond which a job's table would be too large.
constexpr std::size_t most_sums = 600;

} // namespace

JointLp::JointLp(const JointQuestion& question, std::int64_t work) : steps_left_(work * 1'000) {
    for (const Job& job : question.jobs) add_place(job);
    for (const JointChoice& choice : question.choices) add_choice(choice);
    add_limits(question);
    if (possible_) build(question);
}

bool JointLp::generate() {
    while (possible_ && steps_left_ > 0) {
        if (!solve()) return false;
        if (!price()) return true;
    }
    return possible_;
}

bool JointLp::solve() {
    const std::int64_t before = lp_->iterations();
    const bool solved = lp_->solve();
    steps_left_ -= (lp_->iterations() - before) * lp_->columns() * 20 + 50'000;
    return solved;
}

void JointLp::add_place(const Job& job) {
    auto place = std::make_unique<Place>();
    if (!job.pieces.empty()) { // otherwise it has no demand
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
    }
    places_.push_back(std::move(place));
}

/// Leaves out options with a piece that fits no sheet of its job.
void JointLp::add_choice(const JointChoice& choice) {
    std::vector<Option> options;
    for (std::size_t o = 0; o < choice.options.size(); ++o) {
        Option made{o, {}, {}};
        bool fits = true;
        for (JointPiece piece : choice.options[o]) {
            const auto item = places_[piece.job]->item_of.find(piece.piece);
            fits = fits && item != places_[piece.job]->item_of.end();
            if (!fits) break;
            piece.piece = item->second;
            made.asks.push_back(piece);
        }
        if (fits) options.push_back(std::move(made));
    }
    if (options.empty()) possible_ = false;
    times_.push_back(choice.times);
    options_.push_back(std::move(options));
}

void JointLp::add_limits(const JointQuestion& question) {
    for (std::size_t l = 0; l < question.limits.size(); ++l) {
        limits_.push_back(question.limits[l].most);
        for (const JointLimit::Term& term : question.limits[l].terms)
            for (Option& option : options_[term.choice])
                if (option.number == term.option) option.limits.emplace_back(l, term.weight);
    }
}

void JointLp::build(const JointQuestion& question) {
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
    first_choice_ = rows.size();
    for (const std::int64_t times : times_)
        rows.push_back({static_cast<double>(times), static_cast<double>(times)});
    for (const JointLimit& limit : question.limits)
        rows.push_back({-LinearProgram::infinite, static_cast<double>(limit.most)});
    lp_ = std::make_unique<LinearProgram>(rows);
    for (std::size_t c = 0; c < options_.size(); ++c)
        for (const Option& option : options_[c]) add_option(c, option);
    for (std::size_t p = 0; p < places_.size(); ++p) add_single_items(p);
}

void JointLp::add_option(std::size_t choice, const Option& option) {
    std::map<std::size_t, double> sums;
    for (const JointPiece& ask : option.asks)
        sums[places_[ask.job]->first_row + ask.piece] -= static_cast<double>(ask.count);
    sums[first_choice_ + choice] = 1;
    for (const auto& [limit, weight] : option.limits)
        sums[first_choice_ + times_.size() + limit] += static_cast<double>(weight);
    std::vector<Entry> entries;
    entries.reserve(sums.size());
    for (const auto& [row, value] : sums)
        entries.push_back({static_cast<std::int32_t>(row), value});
    lp_->add_column(0, entries);
    columns_.push_back({std::pair(choice, option.number)});
}

/// One item on a sheet of its own: always an answer when sheets are unlimited.
void JointLp::add_single_items(std::size_t place) {
    const Instance& instance = places_[place]->instance;
    for (std::size_t i = 0; i < instance.items.size(); ++i)
        for (std::size_t s = 0; s < instance.sheets.size(); ++s)
            if (instance.holds(instance.sheets[s], instance.items[i]))
                add_pattern(place, s, {{static_cast<std::int32_t>(i), 1}});
}

bool JointLp::add_pattern(std::size_t p, std::size_t sheet, const Counts& counts) {
    Place& place = *places_[p];
    if (!place.known.emplace(sheet, counts).second) return false;
    std::vector<Entry> entries;
    for (const auto& [item, count] : counts)
        entries.push_back(
            {static_cast<std::int32_t>(place.first_row) + item, static_cast<double>(count)});
    const auto row = place.sheet_rows.find(sheet);
    if (row != place.sheet_rows.end())
        entries.push_back({static_cast<std::int32_t>(row->second), 1.0});
    lp_->add_column(static_cast<double>(place.instance.sheets[sheet].cost), entries);
    columns_.push_back({std::nullopt});
    return true;
}

/// Prices of all jobs in whole numbers of 1/unit, the same for all.
std::vector<JointLp::Prices> JointLp::prices_of(double& unit) const {
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

bool JointLp::price() {
    double unit = 1;
    std::vector<Prices> prices = prices_of(unit);
    bool found = false;
    Wide rent = 0;
    for (std::size_t p = 0; p < places_.size(); ++p) {
        Place& place = *places_[p];
        if (!place.table) continue;
        place.table->run(prices[p]);
        steps_left_ -= place.table->steps();
        keep_ruling(place, prices[p]);
        found = add_better(p, unit) || found;
        rent += shrink(place, static_cast<std::int64_t>(unit), prices[p]);
    }
    tighten(prices, rent, static_cast<std::int64_t>(unit));
    return found;
}

void JointLp::keep_ruling(Place& place, const Prices& prices) {
    Ruling ruling{prices, {}};
    for (const Sheet& sheet : place.instance.sheets)
        ruling.best.push_back(place.table->best(sheet));
    place.rulings.push_back(std::move(ruling));
}

bool JointLp::falls_to(const Option& option, std::size_t job) {
    return !option.asks.empty() && option.asks.front().job == job;
}

bool JointLp::may_fall(std::size_t choice, std::size_t job) const {
    const std::vector<Option>& options = options_[choice];
    return std::any_of(options.begin(), options.end(),
                       [&](const Option& option) { return falls_to(option, job); });
}

std::optional<std::int64_t> JointLp::least_worth(std::size_t choice, std::size_t job,
                                                 const Ruling& ruling) const {
    std::optional<std::int64_t> least;
    for (const Option& option : options_[choice]) {
        if (!falls_to(option, job)) continue;
        std::int64_t worth = 0;
        for (const JointPiece& ask : option.asks) worth += ruling.prices[ask.piece] * ask.count;
        least = least ? std::min(*least, worth) : worth;
    }
    return least;
}

/// Adds patterns worth more than their sheet costs.
bool JointLp::add_better(std::size_t p, double unit) {
    Place& place = *places_[p];
    bool found = false;
    for (std::size_t s = 0; s < place.instance.sheets.size(); ++s) {
        const Sheet& sheet = place.instance.sheets[s];
        const auto row = place.sheet_rows.find(s);
        const double rent =
            row == place.sheet_rows.end() ? 0 : lp_->dual(static_cast<std::int32_t>(row->second));
        const auto cost = static_cast<double>(sheet.cost);
        const double value = place.table->best(sheet) / unit;
        if (value <= cost - rent + 1e-7 * std::max(1.0, cost)) continue;
        std::vector<std::int64_t> counts(place.instance.items.size(), 0);
        count_items(place.table->block(sheet), counts);
        Counts pattern;
        for (std::size_t i = 0; i < counts.size(); ++i)
            if (counts[i] > 0) pattern.emplace_back(static_cast<std::int32_t>(i), counts[i]);
        found = add_pattern(p, s, pattern) || found;
    }
    return found;
}

/// Shrinks a job's prices until no unlimited sheet is worth more than it costs; returns what
/// limited sheets are worth beyond their cost at those prices, all copies together.
Wide JointLp::shrink(const Place& place, std::int64_t unit, Prices& prices) {
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

/// Cost of the cheapest options at the prices, less the rent of limited sheets and of limits.
void JointLp::tighten(const std::vector<Prices>& prices, Wide rent, std::int64_t unit) {
    std::vector<std::int64_t> fees; // price of each limit
    for (std::size_t l = 0; l < limits_.size(); ++l) {
        const double dual = lp_->dual(static_cast<std::int32_t>(first_choice_ + times_.size() + l));
        fees.push_back(std::llround(std::clamp(-dual * static_cast<double>(unit), 0.0, 1e15)));
        rent += Wide(fees[l]) * limits_[l];
    }
    Wide income = 0;
    for (std::size_t c = 0; c < options_.size(); ++c) {
        std::optional<Wide> least;
        for (const Option& option : options_[c]) {
            Wide sum = 0;
            for (const JointPiece& ask : option.asks)
                sum += Wide(prices[ask.job][ask.piece]) * ask.count;
            for (const auto& [limit, weight] : option.limits) sum += Wide(fees[limit]) * weight;
            if (!least || sum < *least) least = sum;
        }
        income += least.value_or(0) * times_[c];
    }
    if (income <= rent) return;
    bound_ = std::max(bound_, static_cast<Cost>(base::divide_up(income - rent, unit)));
}

} // namespace barrow::layout
