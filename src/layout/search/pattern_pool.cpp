#include "layout/search/pattern_pool.hpp"

#include "layout/bound/pattern_lp.hpp"
#include "layout/bound/stock_sums.hpp"
#include "layout/search/dive.hpp"
#include "layout/search/random.hpp"
#include "layout/search/whole_use.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

using base::Wide;

// Found by trial on the published instances with several kinds of sheet.
constexpr std::size_t most_entries = 30'000;
constexpr std::size_t most_kept = most_entries / 2; // so that there is room for what is seen next
constexpr Wide dearer = 1100;                       // per mille of what sheets cost on average
constexpr std::size_t at_once = 100;                // patterns added to the LP between two solves
constexpr std::size_t most_columns = 3000;          // that whole uses are sought of
constexpr std::size_t each_kind = 60;               // patterns with a kind that are enough of it
constexpr double nearly = 1e-6;

class Recombination {
public:
    Recombination(const Instance& instance, PatternPool& pool, Meter& meter)
        : instance_(instance), pool_(pool), meter_(meter), lp_(instance, meter),
          columns_(pool.entries().size(), none) {}

    std::optional<Solution> run(Cost limit, const Recombining& effort) {
        const std::int64_t end = meter_.steps() + effort.steps;
        do {
            if (meter_.steps() >= end || meter_.over() || !lp_.resolve()) return {};
        } while (add_better());
        const double gap = static_cast<double>(limit) - lp_.cost();
        // Where even the LP costs too much, better patterns must be seen first.
        const bool enough = gap >= 0;
        const std::vector<Candidate> possible =
            candidates(enough ? gap + nearly : LinearProgram::infinite);
        PatternLp whole(instance_, meter_);
        if (enough) choose(whole, possible);
        std::vector<std::size_t> kept;
        for (const Candidate& candidate : possible)
            if (kept.size() < most_kept) kept.push_back(candidate.entry);
        pool_.keep_only(kept);
        if (!enough) return {};
        return solution(whole, whole.whole_uses(effort.nodes, limit), limit);
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

    /// Beyond what it saves; less for those that the LP uses, which then come first.
    double reduced_cost(std::size_t index) const {
        const PatternPool::Entry& entry = pool_.entries()[index];
        if (columns_[index] != none && lp_.use(columns_[index]) > nearly)
            return -lp_.use(columns_[index]);
        double cost =
            static_cast<double>(instance_.sheets[entry.sheet].cost) - lp_.rent(entry.sheet);
        for (const auto& [kind, count] : entry.counts)
            cost -= lp_.price(kind) * static_cast<double>(count);
        return cost;
    }

    /// Entries that cost at most so much beyond what they save, best first.
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

    const Instance& instance_;
    PatternPool& pool_;
    Meter& meter_;
    PatternLp lp_;
    std::vector<std::size_t> columns_; ///< of the LP, of each entry
};

} // namespace

PatternPool::PatternPool(const Instance& instance)
    : instance_(instance), area_wanted_(area_wanted(instance)) {}

std::int64_t PatternPool::add(std::size_t sheet, const SlicingTree& tree, Cost cost) {
    const Wide ours = Wide(instance_.sheets[sheet].cost) * area_wanted_ * 1000;
    if (tree.empty() || ours > Wide(tree.filled()) * cost * dearer) return 5;
    return keep(sheet, tree);
}

std::int64_t PatternPool::keep(std::size_t sheet, const SlicingTree& tree) {
    if (entries_.size() >= most_entries) return 1;
    std::uint64_t hash = spread(sheet + 1);
    for (std::int32_t n = 0; n < tree.slots(); ++n)
        if (tree.node(n).alive && tree.node(n).leaf())
            hash +=
                spread((std::uint64_t{1} << 32) + static_cast<std::uint64_t>(tree.node(n).item));
    if (!known_.insert(hash).second) return std::int64_t{5} * tree.slots();
    Entry entry{sheet, {}, tree.block()};
    for (const std::int32_t item : tree.items()) {
        const auto kind = static_cast<std::size_t>(item);
        if (entry.counts.empty() || entry.counts.back().first != kind)
            entry.counts.emplace_back(kind, 0);
        ++entry.counts.back().second;
    }
    entries_.push_back(std::move(entry));
    return std::int64_t{50} * tree.slots();
}

void PatternPool::keep_only(const std::vector<std::size_t>& entries) {
    std::vector<Entry> kept;
    kept.reserve(entries.size());
    for (const std::size_t index : entries) kept.push_back(std::move(entries_[index]));
    entries_ = std::move(kept);
}

void PatternPool::add(const Solution& solution) {
    for (const Pattern& pattern : solution.patterns) {
        const Sheet& sheet = instance_.sheets[pattern.sheet];
        keep(pattern.sheet, SlicingTree::of(pattern.block, sheet.width, sheet.height));
    }
}

std::optional<Solution> recombine(const Instance& instance, PatternPool& pool, Cost limit,
                                  const Recombining& effort, Meter& meter) {
    return Recombination(instance, pool, meter).run(limit, effort);
}

} // namespace barrow::layout
