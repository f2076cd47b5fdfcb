#include "table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace barrow::bench {
namespace {

using layout::Cost;
using layout::Goal;
using layout::Status;

bool most(const Result& r) {
    return r.instance->job.goal == Goal::most_value;
}

Cost reached(const Result& r) {
    return most(r) ? r.outcome.value : r.outcome.cost;
}

std::optional<Cost> known(const Result& r) {
    return r.instance->optimum ? r.instance->optimum : r.instance->best;
}

double gap(const Result& r) {
    const auto ours = static_cast<double>(reached(r));
    const auto bound = static_cast<double>(r.outcome.bound);
    return ours == bound ? 0 : std::abs(ours - bound) / std::max(1.0, ours);
}

/// A bound on the wrong side of a value known to be reachable would be a lie.
bool false_bound(const Result& r) {
    const auto best = known(r);
    if (!best) return false;
    return most(r) ? r.outcome.bound < *best : r.outcome.bound > *best;
}

bool worse(const Result& r, Cost than) {
    return most(r) ? reached(r) < than : reached(r) > than;
}

double seconds(const Result& r) {
    return r.seconds;
}

/// Of what `measure` says of the results with everything placed.
template <typename Measure>
double percentile(const std::vector<Result>& results, std::size_t percent, const Measure& measure) {
    std::vector<double> values;
    for (const Result& r : results)
        if (r.outcome.unplaced.empty()) values.push_back(measure(r));
    if (values.empty()) return 0;
    std::sort(values.begin(), values.end());
    return values[(values.size() - 1) * percent / 100];
}

std::string shown(const std::optional<Cost>& value) {
    return value ? fmt::to_string(*value) : "-";
}

} // namespace

void print_line(const Result& r) {
    std::string_view mark;
    if (known(r)) mark = reached(r) == *known(r) ? "=" : worse(r, *known(r)) ? "WORSE" : "better";
    fmt::print("{:22} ours {:>10} bound {:>10} best {:>10} free {:>10} {:6} {:9} work {:>10} "
               "{:8.3f} s{}\n",
               r.instance->name, reached(r), r.outcome.bound, shown(known(r)),
               shown(r.instance->free), mark,
               r.outcome.status == Status::optimal      ? "optimal"
               : r.outcome.status == Status::infeasible ? "UNPLACED"
               : r.outcome.status == Status::not_found  ? "notfound"
                                                        : "feasible",
               r.outcome.work, r.seconds, r.faults > 0 ? " FAULTY" : "");
    std::fflush(stdout);
}

void print_table(const std::string& family, const std::vector<Result>& results) {
    Cost ours = 0;
    Cost ours_known = 0;
    Cost best = 0;
    Cost free = 0;
    Cost bound = 0;
    double total_time = 0;
    double largest_time = 0;
    double largest_gap = 0;
    Cost largest_difference = 0;
    std::size_t proven = 0;
    std::size_t with_best = 0;
    std::size_t equal = 0;
    std::size_t better = 0;
    std::size_t faulty = 0;
    std::size_t unplaced = 0;
    std::size_t not_found = 0;
    std::size_t lies = 0;
    for (const Result& r : results) {
        ours += reached(r);
        bound += r.outcome.bound;
        free += r.instance->free.value_or(0);
        if (const auto value = known(r)) {
            ours_known += reached(r);
            best += *value;
            ++with_best;
            if (reached(r) == *value)
                ++equal;
            else if (!worse(r, *value))
                ++better;
        }
        total_time += r.seconds;
        largest_time = std::max(largest_time, r.seconds);
        largest_gap = std::max(largest_gap, gap(r));
        largest_difference = std::max(largest_difference, std::abs(reached(r) - r.outcome.bound));
        proven += r.outcome.status == Status::optimal;
        unplaced += r.outcome.status == Status::infeasible;
        not_found += r.outcome.status == Status::not_found;
        faulty += r.faults > 0;
        lies += false_bound(r);
    }
    const auto count = static_cast<double>(std::max<std::size_t>(results.size(), 1));
    fmt::print("== {}: {} instances\n", family, results.size());
    fmt::print("   total        ours {}, proven bound {}\n", ours, bound);
    if (with_best > 0)
        fmt::print(
            "   best known   {} on {} of them, ours there {}; equal {}, better {}, worse {}\n",
            best, with_best, ours_known, equal, better, with_best - equal - better);
    if (free > 0) fmt::print("   free/bound   {} (reference column)\n", free);
    fmt::print("   proven       {} ({:.1f} %), largest gap {:.3f} % (difference {})\n", proven,
               100.0 * static_cast<double>(proven) / count, 100.0 * largest_gap,
               largest_difference);
    fmt::print("   gap          median {:.3f} %, 95th percentile {:.3f} %\n",
               100.0 * percentile(results, 50, gap), 100.0 * percentile(results, 95, gap));
    fmt::print("   processor    mean {:.4f} s, median {:.4f} s, 95th percentile {:.3f} s, largest "
               "{:.3f} s\n",
               total_time / count, percentile(results, 50, seconds),
               percentile(results, 95, seconds), largest_time);
    fmt::print("   checked      {} faulty, {} infeasible, {} not found, {} bounds beyond a best "
               "known value\n",
               faulty, unplaced, not_found, lies);
    std::fflush(stdout);
}

} // namespace barrow::bench
