#include "layout/rounding/recombination.hpp"

#include "layout/columns/pattern_lp.hpp"
#include "layout/columns/proper_pricing.hpp"
#include "layout/lp/linear_program.hpp"
#include "layout/rounding/dive.hpp"
#include "layout/rounding/whole_use.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

// Found by trial on the published instances.
constexpr std::size_t most_kept = 15'000;  // leaves room for new patterns
constexpr std::size_t at_once = 100;       // patterns added to the LP between two solves
constexpr std::size_t most_columns = 3000; // given to branch and cut
constexpr std::size_t each_kind = 60;      // enough patterns with the same kind
constexpr std::size_t most_dived = 5000;   // pool patterns given to dives
constexpr std::int64_t ruin_steps = 10'000'000;
constexpr std::int64_t few_pieces = 45;
constexpr std::uint64_t own_seeds = 100; // differ from those of ruin and recreate
class Recombination {
public:
    Recombination(const Instance& instance, PatternPool& pool, Meter& meter)
        : instance_(instance), pool_(pool), meter_(meter), lp_(instance, meter), pricing_(instance),
          columns_(pool.entries().size(), none) {
        lp_.price_by(pricing_, true);
    }

    Recombined run(Cost limit, const Recombining& effort) {
        const std::int64_t end = meter_.steps() + effort.steps;
        do {
            if (meter_.steps() >= end || meter_.over() || !lp_.resolve()) return {};
        } while (add_better());
        const std::size_t seen = lp_.columns().size();
        const bool seen_enough = lp_.cost() <= static_cast<double>(limit);
        Recombined found;
        if (effort.proper_steps > 0) {
            const auto ended = lp_.generate(limit + lp_.step(), effort.proper_steps);
            found.bound = lp_.bound();
            found.all_known = ended != PatternLp::End::spent;
        }
        if (found.bound > limit || meter_.over()) return found;
        const std::size_t made = lp_.columns().size();
        const double gap = static_cast<double>(limit) - lp_.cost();
        // When even the LP costs too much, better patterns must be found first.
        const bool enough = gap >= 0;
        const bool dives = enough && effort.dive_steps > 0 && found.all_known;
        const std::vector<Candidate> possible =
            candidates(enough ? gap + nearly : LinearProgram::infinite);
        PatternLp whole(instance_, meter_);
        if (seen_enough) choose(whole, possible);
        if (dives) add_all(possible);
        keep(possible);
        for (std::size_t column = seen; column < made; ++column)
            pool_.add(lp_.columns()[column].sheet, lp_.columns()[column].block);
        if (seen_enough && enough)
            found.solution = solution(whole, whole.whole_uses(effort.nodes, limit), limit);
        if (dives && !found.solution) found.solution = dive(limit, effort);
        return found;
    }

private:
    struct Candidate {
        double cost = 0; ///< beyond what it saves
        std::size_t entry = 0;
        bool operator<(const Candidate& other) const {
            return cost != other.cost ? cost < other.cost : entry < other.entry;
        }
    };

    static constexpr std::size_t none = SIZE_MAX;

    /// Reduced cost; lowered for patterns the LP uses, so that they come first.
    double reduced_cost(std::size_t index) const {
        const PatternPool::Entry& entry = pool_.entries()[index];
        if (columns_[index] != none && lp_.use(columns_[index]) > nearly)
            return -lp_.use(columns_[index]);
        double cost =
            static_cast<double>(instance_.sheets[entry.sheet].cost) - lp_.rent(entry.sheet);
        for (const auto& [kind, count] : entry.counts)
            cost -= lp_.price_of(static_cast<std::size_t>(kind)) * static_cast<double>(count);
        return cost;
    }

    /// Entries with a reduced cost up to this, best first.
    std::vector<Candidate> candidates(double most) {
        std::vector<Candidate> found;
        for (std::size_t e = 0; e < pool_.entries().size(); ++e)
            if (const double cost = reduced_cost(e); cost <= most) found.push_back({cost, e});
        std::sort(found.begin(), found.end());
        meter_.spend(static_cast<std::int64_t>(pool_.entries().size()) * 40);
        return found;
    }

    bool add_better() {
        std::size_t added = 0;
        for (const Candidate& candidate : candidates(-nearly)) {
            if (columns_[candidate.entry] != none || added == at_once) continue;
            const PatternPool::Entry& entry = pool_.entries()[candidate.entry];
            if (!lp_.add(entry.sheet, entry.block)) continue;
            columns_[candidate.entry] = lp_.columns().size() - 1;
            ++added;
        }
        return added > 0;
    }

    /// Adds the best of them for dives.
    void add_all(const std::vector<Candidate>& possible) {
        for (std::size_t i = 0; i < std::min(possible.size(), most_dived); ++i) {
            const PatternPool::Entry& entry = pool_.entries()[possible[i].entry];
            lp_.add(entry.sheet, entry.block);
        }
    }

    /// Removes all others from the pool.
    void keep(const std::vector<Candidate>& possible) {
        std::vector<std::size_t> kept;
        for (std::size_t i = 0; i < std::min(possible.size(), most_kept); ++i)
            kept.push_back(possible[i].entry);
        pool_.keep_only(kept);
    }

    /// The best of them, until there are enough with each kind.
    void choose(PatternLp& whole, const std::vector<Candidate>& possible) const {
        std::vector<std::size_t> times(instance_.items.size(), 0);
        for (const Candidate& candidate : possible) {
            const PatternPool::Entry& entry = pool_.entries()[candidate.entry];
            const bool wanted =
                std::any_of(entry.counts.begin(), entry.counts.end(),
                            [&](const auto& count) { return times[count.first] < each_kind; });
            if (!wanted || !whole.add(entry.sheet, entry.block)) continue;
            for (const auto& count : entry.counts) ++times[count.first];
            if (whole.columns().size() == most_columns) return;
        }
    }

    std::optional<Solution> solution(const PatternLp& whole, const std::vector<std::int64_t>& uses,
                                     Cost limit) const {
        if (!covers(instance_, whole, uses)) return {};
        Solution solution = answer_of_uses(instance_, whole, uses);
        if (solution.cost > limit) return {};
        take_out_surplus(instance_, solution);
        return solution;
    }

    std::optional<Solution> dive(Cost limit, const Recombining& effort) {
        Dive::Effort diving;
        diving.steps = effort.dive_steps;
        diving.ruin_steps = ruin_steps;
        diving.few_pieces = few_pieces;
        diving.seed = effort.seed + own_seeds;
        return Dive(instance_, lp_, meter_).run(limit, diving);
    }

    const Instance& instance_;
    PatternPool& pool_;
    Meter& meter_;
    PatternLp lp_;
    ProperPricing pricing_;
    std::vector<std::size_t> columns_; ///< of the LP, of each entry
};

} // namespace

Recombined recombine(const Instance& instance, PatternPool& pool, Cost limit,
                     const Recombining& effort, Meter& meter) {
    return Recombination(instance, pool, meter).run(limit, effort);
}

} // namespace barrow::layout
