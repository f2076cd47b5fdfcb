#include "layout/sheets/renew.hpp"

#include "layout/effort/random.hpp"
#include "layout/sheets/ruin_recreate.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

// Found by trial on the published instances with several kinds of sheet.
constexpr std::int64_t group_pieces = 40;
constexpr std::size_t group_sheets = 12;
constexpr std::int64_t steps_each = 1'500'000;
constexpr std::size_t most_sheets = 5000;

class Renewal {
public:
    Renewal(const Instance& instance, Meter& meter, const Solution& solution)
        : meter_(meter), part_(instance), random_(1), cost_(solution.cost) {
        for (const Sheet& sheet : instance.sheets) free_.push_back(sheet.copies);
        for (const Pattern& pattern : solution.patterns) {
            free_[pattern.sheet] -= pattern.copies;
            for (std::int64_t n = 0; n < pattern.copies; ++n)
                sheets_.push_back({pattern.sheet, 1, pattern.block});
        }
    }

    void run(Cost bound, std::int64_t steps) {
        const std::int64_t end = meter_.steps() + steps;
        while (cost_ > bound && meter_.steps() < end && !meter_.over()) round();
    }

    Solution solution() const {
        Solution solution;
        solution.cost = cost_;
        solution.unplaced.assign(part_.items.size(), 0);
        solution.patterns = sheets_;
        return solution;
    }

private:
    /// Moves some sheets to the end and returns how many; their content becomes the demand.
    std::size_t gather(Solution& group) {
        for (Item& item : part_.items) item.demand = 0;
        std::vector<std::int64_t> counts(part_.items.size(), 0);
        std::int64_t pieces = 0;
        std::size_t taken = 0;
        while (taken < std::min(group_sheets, sheets_.size()) && pieces < group_pieces) {
            const std::size_t rest = sheets_.size() - taken;
            const auto chosen =
                static_cast<std::size_t>(random_.below(static_cast<std::int64_t>(rest)));
            std::swap(sheets_[chosen], sheets_[rest - 1]);
            ++taken;
            const Pattern& pattern = sheets_[rest - 1];
            std::fill(counts.begin(), counts.end(), 0);
            count_items(pattern.block, counts);
            for (std::size_t i = 0; i < counts.size(); ++i) {
                part_.items[i].demand += counts[i];
                pieces += counts[i];
            }
            group.cost += part_.sheets[pattern.sheet].cost;
            group.patterns.push_back(pattern);
        }
        return taken;
    }

    void round() {
        Solution group;
        group.unplaced.assign(part_.items.size(), 0);
        meter_.spend(1000);
        const std::size_t taken = gather(group);
        if (group.cost == 0) return; // sheets that cost nothing cannot become cheaper
        for (std::size_t s = 0; s < free_.size(); ++s) part_.sheets[s].copies = free_[s];
        for (const Pattern& pattern : group.patterns) ++part_.sheets[pattern.sheet].copies;
        RuinRecreate search(part_, static_cast<std::uint64_t>(random_.below(1 << 30)), meter_);
        search.start(group);
        if (!search.search(group.cost - 1, steps_each)) return;
        Solution fresh = search.solution();
        for (const Pattern& pattern : group.patterns) ++free_[pattern.sheet];
        for (const Pattern& pattern : fresh.patterns) --free_[pattern.sheet];
        sheets_.resize(sheets_.size() - taken);
        for (Pattern& pattern : fresh.patterns) sheets_.push_back(std::move(pattern));
        cost_ += fresh.cost - group.cost;
        meter_.found(cost_);
    }

    Meter& meter_;
    Instance part_; ///< demand and copies are those of the current group
    Random random_;
    Cost cost_;
    std::vector<Pattern> sheets_;    ///< one copy each
    std::vector<std::int64_t> free_; ///< unused copies of each kind of sheet
};

} // namespace

void renew(const Instance& instance, Cost bound, std::int64_t steps, Meter& meter,
           Solution& solution) {
    std::int64_t sheets = 0;
    for (const Pattern& pattern : solution.patterns) sheets += pattern.copies;
    if (instance.sheets.size() < 2 || sheets > static_cast<std::int64_t>(most_sheets)) return;
    Renewal renewal(instance, meter, solution);
    renewal.run(bound, steps);
    if (renewal.solution().cost < solution.cost) solution = renewal.solution();
}

} // namespace barrow::layout
