#pragma once

#include "layout/corner/residue_costs.hpp"
#include "layout/corner/residue_group.hpp"
#include "layout/corner/whole_basis.hpp"
#include "layout/effort/meter.hpp"
#include "layout/effort/random.hpp"
#include "layout/job.hpp"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace barrow::layout {

/// Whole uses of columns that cover a demand at least cost, by the corner relaxation of a basis
/// (Gomory, Linear Algebra and its Applications 2 (1969) 451-558). Whatever non-basic columns are
/// used, the basis covers the rest in whole numbers exactly when the rest is zero in the group of
/// residues of the basis; and the cost of an answer is that of the LP plus the reduced costs of
/// those columns. So the cheapest path to the residue of the demand bounds the cost of every
/// answer, and the paths to it, cheapest first, give all answers, except those that would need the
/// basis a negative number of times. With demands high against the size of a pattern that hardly
/// ever happens; the group has as many elements as the determinant of the basis. Whole numbers
/// only: its proofs hold, provided the columns are all that matter.
class Corner {
public:
    struct Column {
        std::int64_t cost = 0;
        std::vector<std::pair<std::int32_t, std::int64_t>> counts; ///< row and count, at least 1
    };

    /// Overproduction is allowed. All costs are multiples of `step`.
    Corner(std::vector<std::int64_t> demand, std::int64_t step, Meter& meter);

    /// Adds a column and returns its number. May be called at any time; no column may be added
    /// twice.
    std::size_t add(Column column);
    /// The number of the column that removes one surplus of a row, at no cost.
    std::size_t surplus(std::size_t row) const { return row; }

    /// Chooses the basis: from these columns, in their order, the linearly independent ones. False
    /// when they make no basis, its determinant is above `most_elements`, overproduction of a row
    /// would save something, or a number would overflow.
    bool choose_basis(const std::vector<std::size_t>& order, std::int64_t most_elements);

    enum class End {
        found,      ///< uses() cost at most the limit; optimal if they cost bound()
        impossible, ///< every answer costs more than the limit
        spent,
        unfit ///< a column has negative reduced cost: the basis is not optimal for the LP
    };
    /// Price of each row by the basis, times elements().
    const std::vector<std::int64_t>& prices() const { return prices_; }
    /// The determinant of the basis.
    std::int64_t elements() const { return basis_->determinant(); }
    /// Greatest total reduced cost of non-basic columns in an answer of that cost, times
    /// elements(). Empty when it would overflow.
    std::optional<std::int64_t> room(std::int64_t cost) const;

    /// For costs from bound() up to the limit: tries some random paths to the residue of the
    /// demand, then all if they are few.
    End run(std::int64_t limit, std::int64_t steps);

    /// Proven lower bound; valid after every end but `unfit`. A multiple of the step.
    std::int64_t bound() const { return bound_; }
    /// Uses of each column.
    const std::vector<std::int64_t>& uses() const { return uses_; }

private:
    /// A non-basic column, or the surplus of a row.
    struct Other {
        std::int64_t beyond = 0; ///< reduced cost times the determinant
        ResidueGroup::Element element = 0;
        std::size_t number = 0;
        std::vector<std::int64_t> replaces; ///< share of each basic column, times the determinant
        bool operator<(const Other& other) const {
            return beyond != other.beyond ? beyond < other.beyond : number < other.number;
        }
    };

    std::size_t rows() const { return demand_.size(); }
    std::vector<std::pair<std::int32_t, std::int64_t>> counts(std::size_t number) const;
    std::int64_t cost(std::size_t number) const;
    WholeBasis::Column dense(std::size_t number) const;
    bool find_prices();
    bool find_others();
    bool begin();
    bool feasible() const;
    std::int64_t short_of(std::size_t other) const;
    bool take(std::size_t other);
    std::vector<std::size_t> possible(ResidueGroup::Element rest, std::int64_t room,
                                      std::size_t first);
    bool walk(std::int64_t room);
    bool look_through(std::int64_t room);
    bool search(ResidueGroup::Element rest, std::int64_t room, std::size_t first);
    bool over() const { return meter_.over() || meter_.steps() >= end_; }
    void keep();

    std::vector<std::int64_t> demand_;
    std::vector<Column> columns_;
    std::int64_t step_ = 1;
    Meter& meter_;
    std::vector<std::size_t> chosen_; ///< of the basis
    std::optional<WholeBasis> basis_;
    std::optional<ResidueGroup> group_;
    std::vector<std::int64_t> prices_; ///< of each row, times the determinant
    std::int64_t least_ = 0;           ///< cost of the LP, times the determinant
    ResidueGroup::Element wanted_ = 0; ///< residue of the demand
    std::vector<Other> others_;
    std::optional<Translations> without_; ///< residues left after one more of a non-basic column
    std::optional<ResidueCosts> ways_;
    Random random_{1};
    std::int64_t end_ = 0;
    std::int64_t bound_ = 0;
    std::vector<std::int64_t> first_times_; ///< times_ without other columns
    std::vector<std::int64_t> times_; ///< uses of the basis with taken_, times the determinant
    std::vector<std::size_t> taken_;  ///< non-basic columns on the current path
    bool all_seen_ = true;            ///< no path was cut short
    std::vector<std::int64_t> uses_;
};

} // namespace barrow::layout
