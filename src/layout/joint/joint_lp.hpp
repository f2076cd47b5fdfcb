#pragma once

#include "base/wide.hpp"
#include "layout/joint/joint.hpp"
#include "layout/lp/linear_program.hpp"
#include "layout/model/instance.hpp"
#include "layout/table/guillotine_table.hpp"

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <utility>
#include <vector>

namespace barrow::layout {

/// The linear program over the patterns of several jobs and the choices over all of them, which
/// grows by columns. Its answers are floating point; bound() is exact: the Lagrangian bound at
/// whole prices, where the best pattern of every sheet is found exactly and prices shrink where an
/// unlimited sheet would be worth more than it costs (Farley, Oper. Res. 38 (1990)).
class JointLp {
public:
    struct Column {
        /// Choice and option by their numbers in the question; empty for a pattern.
        std::optional<std::pair<std::size_t, std::size_t>> option;
    };

    /// Whole prices of the items of a job, and the greatest worth of each of its sheets at them.
    struct Ruling {
        std::vector<std::int32_t> prices;
        std::vector<std::int64_t> best;
    };

    JointLp(const JointQuestion& question, std::int64_t work);

    /// Adds patterns until none would lower the cost or the work is spent. False when there is no
    /// answer: a choice has no option, limits forbid all, or a job is too fine to price.
    bool generate();

    Cost bound() const { return bound_; }
    const LinearProgram& program() const { return *lp_; }
    const std::vector<Column>& columns() const { return columns_; }

    /// All prices used for pricing.
    const std::vector<Ruling>& rulings(std::size_t job) const { return places_[job]->rulings; }
    const std::vector<Sheet>& sheets(std::size_t job) const {
        return places_[job]->instance.sheets;
    }
    /// Least worth of the pieces that one decision of a choice asks of the job; empty when it
    /// cannot be met. Takes the pieces of an option to be of one job.
    std::optional<std::int64_t> least_worth(std::size_t choice, std::size_t job,
                                            const Ruling& ruling) const;
    bool may_fall(std::size_t choice, std::size_t job) const;

private:
    using Prices = std::vector<std::int32_t>;
    using Counts = std::vector<std::pair<std::int32_t, std::int64_t>>;

    /// One job in the program.
    struct Place {
        Instance instance;
        Grid grid;
        std::unique_ptr<GuillotineTable<std::int32_t>> table;
        std::map<std::size_t, std::size_t> item_of; ///< index of a piece to that of its item
        std::size_t first_row = 0; ///< rows of items; those of limited sheets follow
        std::map<std::size_t, std::size_t> sheet_rows;
        std::set<std::pair<std::size_t, Counts>> known;
        std::vector<Ruling> rulings;
    };

    /// What an option asks of each item, and the rows of the limits it counts for.
    struct Option {
        std::size_t number = 0; ///< as the question counts them
        std::vector<JointPiece> asks;
        std::vector<std::pair<std::size_t, std::int64_t>> limits; ///< index of the limit, weight
    };

    /// False when there is no answer.
    bool solve();
    /// Adds patterns at the prices of the last solve, and raises the bound by them. False when
    /// there was no pattern to add.
    bool price();
    void add_place(const Job& job);
    void add_choice(const JointChoice& choice);
    void add_limits(const JointQuestion& question);
    void build(const JointQuestion& question);
    void add_option(std::size_t choice, const Option& option);
    void add_single_items(std::size_t place);
    bool add_pattern(std::size_t place, std::size_t sheet, const Counts& counts);
    std::vector<Prices> prices_of(double& unit) const;
    static bool falls_to(const Option& option, std::size_t job);
    static void keep_ruling(Place& place, const Prices& prices);
    bool add_better(std::size_t place, double unit);
    static base::Wide shrink(const Place& place, std::int64_t unit, Prices& prices);
    void tighten(const std::vector<Prices>& prices, base::Wide rent, std::int64_t unit);

    std::int64_t steps_left_;
    std::vector<std::unique_ptr<Place>> places_; // tables point into them
    std::vector<std::int64_t> times_;
    std::vector<std::vector<Option>> options_; ///< beside times_
    std::vector<std::int64_t> limits_;         ///< how often at most
    std::size_t first_choice_ = 0;             ///< its row; the limits' rows follow the choices'
    bool possible_ = true;
    std::unique_ptr<LinearProgram> lp_;
    std::vector<Column> columns_; ///< beside the program's
    Cost bound_ = 0;
};

} // namespace barrow::layout
