#pragma once

#include "layout/effort/meter.hpp"
#include "layout/tree/solution.hpp"

#include <optional>
#include <vector>

namespace barrow::layout {

/// Cuts lengths from a given number of bars of one kind, or proves that impossible. Each piece has
/// a price; the best filling of a bar is worth V. All bars of an answer together are worth as much
/// as all pieces, so the deficits of their fillings against V add up to a known sum. With prices
/// from the pattern LP and a number of bars just above its bound that sum is small, and few
/// fillings have so small a deficit: all are listed and combined in every way, branching on the
/// piece that the fewest of them contain. Whole numbers only: its proofs hold. (Fixing by reduced
/// costs, and exact cover: Knuth, Dancing links, 2000.)
class TightCover {
public:
    enum class End { solved, impossible, spent };

    /// One dimension and one kind of sheet; prices are at least 0 and every filling is worth less
    /// than 2^62.
    TightCover(const Instance& instance, const std::vector<std::int64_t>& prices, Meter& meter);

    End run(std::int64_t bars, std::int64_t steps);

    /// Requires that run() returned `solved`.
    Solution solution() const;

private:
    struct Filling {
        std::int64_t lacking = 0;
        std::vector<std::pair<std::int32_t, std::int32_t>> counts; ///< kind (as ordered), copies
    };
    using Fillings = std::vector<std::int32_t>;

    bool find_best();
    bool list(std::size_t kind, Length room, std::int64_t lacking);
    bool cover(const Fillings& open, std::int64_t bars, std::int64_t lacking);
    bool allowed(const Filling& filling, std::int64_t lacking) const;
    std::int32_t scarcest(const Fillings& open);
    bool over() const { return meter_.over() || meter_.steps() >= end_; }
    std::int64_t best(std::size_t kind, Length room) const {
        return best_[kind * (static_cast<std::size_t>(length_) + 1)
                     + static_cast<std::size_t>(room)];
    }

    const Instance& instance_;
    Meter& meter_;
    Length length_ = 0;
    std::vector<std::size_t> kinds_; ///< longest first
    std::vector<std::int64_t> prices_;
    std::vector<std::int64_t> best_; ///< best worth of each kind and shorter ones, in each length
    std::vector<Filling> fillings_;
    std::vector<std::pair<std::int32_t, std::int32_t>> counts_; ///< of the filling being listed
    std::vector<std::int64_t> left_;
    std::vector<std::int64_t> held_by_;
    std::vector<std::int32_t> chosen_;
    std::int64_t end_ = 0;
};

} // namespace barrow::layout
