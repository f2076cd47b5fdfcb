#pragma once

#include "layout/corner/residue_costs.hpp"
#include "layout/corner/residue_group.hpp"
#include "layout/corner/whole_basis.hpp"
#include "layout/job.hpp"
#include "layout/search/meter.hpp"
#include "layout/search/random.hpp"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace barrow::layout {

/// Whole uses of columns that cover a demand at least cost, by the corner relaxation of a basis
/// (Gomory, Linear Algebra and its Applications 2 (1969) 451-558): whatever other columns are used,
/// the basis makes up the rest in whole numbers exactly when the rest is nothing in the group of
/// residues of the basis; and the cost of an answer is that of the LP and what those others cost
/// beyond what they save. So the cheapest way to the residue of the demand bounds the cost of every
/// answer, and all ways to it, the cheapest first, are all answers, but for those that would need
/// the basis a number of times below nothing. Where demands are high against what a pattern holds,
/// that hardly ever happens; the group has as many elements as the determinant of the basis.
/// Whole numbers only: what it proves is proven, given that the columns are all that matter.
class Corner {
public:
    struct Column {
        std::int64_t cost = 0;
        std::vector<std::pair<std::int32_t, std::int64_t>> counts; ///< row, at least 1 of it
    };

    /// More than is wanted may be cut. All costs are multiples of `step`.
    Corner(std::vector<std::int64_t> demand, std::int64_t step, Meter& meter);

    /// Answers its number. Columns may be added at any time; none may be there already.
    std::size_t add(Column column);
    /// That of one of a row too many, which costs nothing.
    std::size_t surplus(std::size_t row) const { return row; }

    /// Chooses the basis: of these columns, in their order, as many as do not depend on those
    /// before. False when they make no basis, its determinant is above `most_elements`, one too
    /// many of a row would save something, or a number has no place.
    bool choose_basis(const std::vector<std::size_t>& order, std::int64_t most_elements);

    enum class End {
        found,      ///< uses() cost no more than the limit, and least of all if as much as bound()
        impossible, ///< nothing costs no more than the limit
        spent,
        unfit ///< a column costs less than it saves: the basis is not that of an optimal LP answer
    };
    /// What one of each row saves by the basis, times elements().
    const std::vector<std::int64_t>& prices() const { return prices_; }
    /// The determinant of the basis.
    std::int64_t elements() const { return basis_->determinant(); }
    /// What columns not of the basis may cost beyond what they save, times elements(), in an answer
    /// of that cost. Nothing when that has no place.
    std::optional<std::int64_t> room(std::int64_t cost) const;

    /// For costs from bound() on, as long as they are within the limit: some ways to the residue of
    /// the demand, at random, then all if they are soon looked through.
    End run(std::int64_t limit, std::int64_t steps);

    /// No uses cost less; after any end but `unfit`. A multiple of the step.
    std::int64_t bound() const { return bound_; }
    /// Of each column.
    const std::vector<std::int64_t>& uses() const { return uses_; }

private:
    /// A column that is not of the basis, or one too many of a row.
    struct Other {
        std::int64_t beyond = 0; ///< its cost less what it saves, times the determinant
        ResidueGroup::Element element = 0;
        std::size_t number = 0;
        std::vector<std::int64_t> replaces; ///< of each of the basis, times the determinant
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
    std::optional<Translations> without_; ///< sums with what is left when one of the others is used
    std::optional<ResidueCosts> ways_;
    Random random_{1};
    std::int64_t end_ = 0;
    std::int64_t bound_ = 0;
    std::vector<std::int64_t> first_times_; ///< of each of the basis with no others, as times_
    std::vector<std::int64_t> times_;       ///< with those taken, times the determinant
    std::vector<std::size_t> taken_;        ///< others, on the way being looked at
    bool all_seen_ = true;                  ///< no way was left before its end
    std::vector<std::int64_t> uses_;
};

} // namespace barrow::layout
