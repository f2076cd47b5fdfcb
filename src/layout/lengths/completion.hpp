#pragma once

#include "layout/effort/meter.hpp"
#include "layout/effort/random.hpp"
#include "layout/tree/solution.hpp"

#include <optional>
#include <vector>

namespace barrow::layout {

/// Cuts lengths from a given number of bars of one kind: each bar gets the longest piece left and
/// others that leave no more than the remaining spare length unused (bin completion: Korf, AAAI
/// 2002, 731-736; the others found as by Gupta & Ho, Production Planning & Control 10 (1999)
/// 598-603). The first bars are filled at random, long pieces preferred, the last few exhaustively;
/// then it starts over. Quick where hardly anything may be wasted; proves nothing.
class Completion {
public:
    /// One dimension and one kind of sheet.
    Completion(const Instance& instance, Meter& meter);

    /// An answer with this many bars, if found within so many steps.
    std::optional<Solution> run(std::int64_t bars, std::int64_t steps);

private:
    using Counts = std::vector<std::int64_t>; ///< of each kind, longest first

    bool start(std::int64_t bars);
    bool fill_from(std::int64_t bars);
    bool choose(std::int64_t bars);
    bool try_all(std::int64_t bars);
    void take(const Counts& content, std::int64_t sign);
    void find_sums(std::size_t from);
    bool within(std::size_t kind, Length least, Length most) const;
    void list(std::size_t kind, Length least, Length most, std::size_t wanted);
    std::size_t longest() const;
    std::int64_t pieces_left() const;
    Solution solution() const;

    const Instance& instance_;
    Meter& meter_;
    Random random_{1};
    Length length_ = 0;
    std::vector<std::size_t> kinds_; ///< longest first
    std::vector<Length> sizes_;      ///< of those kinds
    Counts left_;
    std::int64_t spare_ = 0; ///< waste still allowed in the bars to come
    std::int64_t end_ = 0;
    std::int64_t nodes_ = 0;     ///< nodes left before starting over
    std::int32_t skipping_ = 0;  ///< per mille: how often pieces are passed over
    std::vector<Counts> bars_;   ///< filled so far
    Counts content_;             ///< of the current bar
    std::vector<Counts> listed_; ///< contents found for it
    std::size_t words_ = 0;
    /// For each kind, the sums that it and shorter ones can make, a bit each.
    std::vector<std::vector<std::uint64_t>> sums_;
};

} // namespace barrow::layout
