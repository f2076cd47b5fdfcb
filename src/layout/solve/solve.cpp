#include "layout/solve.hpp"

#include "base/error.hpp"
#include "layout/fill/fill.hpp"
#include "layout/finish/plans.hpp"
#include "layout/finish/small_offcuts.hpp"
#include "layout/model/instance.hpp"
#include "layout/solve/least_cost.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::layout {
namespace {

void require_sound(const Job& job) {
    std::vector<base::Problem> problems;
    for (const JobProblem& problem : examine(job)) {
        const char* list = problem.list == JobProblem::List::stock    ? "stock"
                           : problem.list == JobProblem::List::pieces ? "pieces"
                                                                      : "job";
        const std::string where =
            problem.list == JobProblem::List::job
                ? fmt::format("{}, {}", list, problem.field)
                : fmt::format("{} {}, {}", list, problem.index + 1, problem.field);
        problems.push_back({where, problem.what, {}});
    }
    if (!problems.empty()) throw base::Error(base::Kind::bad_input, std::move(problems));
}

/// Divides the unplaced copies of a kind among its entries, last entry first (plans use the first).
void tell_unplaced(const Job& job, const Instance& instance, const Solution& solution,
                   Outcome& outcome) {
    std::vector<std::int64_t> missing(job.pieces.size(), 0);
    for (std::size_t i = 0; i < instance.items.size(); ++i) {
        std::int64_t left = solution.unplaced[i];
        const std::vector<Source>& sources = instance.items[i].sources;
        for (auto source = sources.rbegin(); source != sources.rend() && left > 0; ++source) {
            const std::int64_t share = std::min(left, source->count);
            missing[source->index] = share;
            left -= share;
        }
    }
    for (const std::size_t i : instance.too_large) missing[i] = job.pieces[i].count.value_or(0);
    for (std::size_t i = 0; i < missing.size(); ++i) {
        const bool fits_none = std::find(instance.too_large.begin(), instance.too_large.end(), i)
                               != instance.too_large.end();
        if (missing[i] > 0) outcome.unplaced.push_back({i, missing[i], fits_none});
    }
}

Outcome cheapest(const Job& job, const Instance& instance, const Options& options) {
    const std::int64_t limit = work_limit(options.effort);
    Meter meter(options, options.most_work > 0 ? std::min(limit, options.most_work) : limit);
    Answer answer = least_cost(instance, options.effort, options.without, meter);
    answer.solution.cost -=
        prefer_small_offcuts(instance, answer.solution.patterns, Ties::as_listed, meter);
    merge_equal(answer.solution.patterns);
    Outcome outcome;
    outcome.work = meter.work();
    outcome.stopped_early = meter.stopped();
    outcome.cost = answer.solution.cost;
    tell_unplaced(job, instance, answer.solution, outcome);
    if (!outcome.unplaced.empty()) {
        const bool proven = answer.impossible || !instance.too_large.empty();
        outcome.status = proven ? Status::infeasible : Status::not_found;
    } else {
        outcome.bound = std::min(answer.bound, outcome.cost);
        outcome.status = outcome.bound == outcome.cost ? Status::optimal : Status::feasible;
    }
    outcome.plans = plans_of(job, instance, answer.solution.patterns);
    for (const Plan& plan : outcome.plans) outcome.sheets += plan.copies;
    return outcome;
}

Outcome best_valued(const Job& job, const Instance& instance, const Options& options) {
    if (instance.items.empty()) { // nothing fits the sheet, or nothing is wanted
        Outcome nothing;
        nothing.status = Status::optimal;
        return nothing;
    }
    const std::int64_t limit = fill_work_limit(options.effort);
    Meter meter(options, options.most_work > 0 ? std::min(limit, options.most_work) : limit);
    const Filling filling = fill(instance, fill_budget(options.effort), meter);
    Outcome outcome;
    outcome.work = meter.work();
    outcome.stopped_early = meter.stopped();
    outcome.value = filling.value;
    outcome.bound = filling.bound;
    outcome.status = outcome.bound == outcome.value ? Status::optimal : Status::feasible;
    if (!filling.block) return outcome;
    std::vector<Pattern> patterns{{0, 1, *filling.block}};
    merge_equal(patterns);
    outcome.plans = plans_of(job, instance, patterns);
    outcome.sheets = 1;
    outcome.cost = instance.sheets.front().cost;
    return outcome;
}

void multiply(const Job& job, Measure factor, Outcome& outcome) {
    const auto rectangle = [&](Rectangle& r) {
        r.x *= factor;
        r.width *= factor;
        if (job.one_dimensional) return;
        r.y *= factor;
        r.height *= factor;
    };
    for (Plan& plan : outcome.plans) {
        for (Placed& piece : plan.pieces) rectangle(piece.place);
        for (Rectangle& offcut : plan.offcuts) rectangle(offcut);
        for (Cut& cut : plan.cuts) {
            cut.at *= factor;
            cut.stop *= factor;
            if (job.one_dimensional) continue;
            cut.from *= factor;
            cut.to *= factor;
        }
    }
}

} // namespace

Outcome solve(const Job& job, const Options& options) {
    require_sound(job);
    const Measure factor = common_factor(job);
    const Job small = divided(job, factor);
    Instance instance = instance_of(small);
    bring_into_order(instance);
    Outcome outcome = job.goal == Goal::least_cost ? cheapest(small, instance, options)
                                                   : best_valued(small, instance, options);
    multiply(job, factor, outcome);
    return outcome;
}

} // namespace barrow::layout
