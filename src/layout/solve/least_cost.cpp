#include "layout/solve/least_cost.hpp"

#include <algorithm>
#include <iterator>

namespace barrow::layout {
namespace {

enum class Phase {
    start,    ///< a first complete answer
    open,     ///< once, while cost and bound differ
    patterns, ///< likewise, with the pattern LP
    rounds,   ///< round after round, with the pattern LP
};

enum class Runs {
    whole,  ///< on the whole job only
    always, ///< also on what an LP rounded down leaves over
};

struct Stage {
    std::string_view name;
    Phase phase;
    Runs runs;
    bool (*when)(const Search&);
    void (*run)(Search&);
};

using S = Search;

/// Read from top to bottom. Stages of the phases after `start` run only while the cost is above the
/// bound and effort is left; those with the pattern LP only where it was solved.
constexpr Stage stages[] = {
    // name, phase, runs, when, what
    {"construct", Phase::start, Runs::always, [](const S&) { return true; },
     [](S& s) { s.build(); }},
    {"area", Phase::start, Runs::always, [](const S& s) { return s.complete(); },
     [](S& s) { s.sum_stock(); }},
    {"sets", Phase::start, Runs::whole, [](const S& s) { return !s.complete() || s.open(); },
     [](S& s) { s.try_all_sets(); }},
    {"complete", Phase::start, Runs::whole, [](const S& s) { return !s.complete(); },
     [](S& s) { s.complete_answer(); }},
    {"area", Phase::start, Runs::whole, [](const S& s) { return s.complete(); },
     [](S& s) { s.sum_stock(); }}, // again: the answer may be complete only now
    {"scales", Phase::open, Runs::whole, [](const S& s) { return !s.lengths(); },
     [](S& s) { s.prove_by_scales(); }},
    {"needs", Phase::open, Runs::always, [](const S& s) { return !s.one_sheet(); },
     [](S& s) { s.prove_by_need(); }},
    {"bars", Phase::open, Runs::whole, [](const S& s) { return s.bars_alike(); },
     [](S& s) { s.complete_bars(); }},
    {"ruin", Phase::open, Runs::always,
     [](const S& s) { return s.part() || (!s.lengths() && s.few()); },
     [](S& s) { s.ruin_first(); }},
    {"tight", Phase::open, Runs::always, [](const S& s) { return s.tight(); },
     [](S& s) { s.join_tightly(); }},
    {"lp", Phase::open, Runs::always, [](const S&) { return true; }, [](S& s) { s.solve_lp(); }},
    {"corner", Phase::patterns, Runs::whole,
     [](const S& s) { return s.several() && !s.has_offcuts() && !s.lengths() && !s.few(); },
     [](S& s) { s.search_corner(); }},
    {"rests", Phase::patterns, Runs::always,
     [](const S& s) { return s.several() && !s.has_offcuts() && !s.lengths() && !s.gathers(); },
     [](S& s) { s.solve_rests(); }},
    {"bar dives", Phase::rounds, Runs::whole, [](const S& s) { return s.bars_alike(); },
     [](S& s) { s.dive_bars(); }},
    {"bar cover", Phase::rounds, Runs::whole, [](const S& s) { return s.bars_alike(); },
     [](S& s) { s.cover_bars(); }},
    {"near dives", Phase::rounds, Runs::whole,
     [](const S& s) { return s.has_offcuts() && !s.lengths(); }, [](S& s) { s.dive_near(); }},
    {"whole uses", Phase::rounds, Runs::whole,
     [](const S& s) { return !s.gathers() && !s.enough(); }, [](S& s) { s.use_whole(); }},
    {"dives", Phase::rounds, Runs::whole, [](const S& s) { return !s.gathers() && !s.enough(); },
     [](S& s) { s.dive(); }},
    {"gather", Phase::open, Runs::always, [](const S& s) { return s.gathers(); },
     [](S& s) { s.gather(); }},
    {"gather unlike", Phase::open, Runs::whole, [](const S& s) { return s.unlike(); },
     [](S& s) { s.gather_unlike(); }},
    {"cover", Phase::open, Runs::whole, [](const S& s) { return !s.lengths() && !s.enough(); },
     [](S& s) { s.cover_all_sets(); }},
    {"renew", Phase::open, Runs::whole,
     [](const S& s) { return !s.lengths() && !s.gathers() && !s.enough(); },
     [](S& s) { s.renew_sheets(); }},
    {"ruin on", Phase::open, Runs::whole, [](const S& s) { return !s.lengths() && !s.unlike(); },
     [](S& s) { s.ruin_on(); }},
};

bool applies(const Stage& stage, const Search& search, const std::vector<std::string>& without) {
    if (search.part() && stage.runs == Runs::whole) return false;
    if (stage.phase != Phase::start && !search.open()) return false;
    const bool patterns = stage.phase == Phase::patterns || stage.phase == Phase::rounds;
    if (patterns && !search.has_lp()) return false;
    return stage.when(search)
           && std::find(without.begin(), without.end(), stage.name) == without.end();
}

using At = const Stage*;

/// From a stage on, those of the same phase; answers where the next phase begins.
At run_phase(Search& search, At stage, const std::vector<std::string>& without) {
    const Phase phase = stage->phase;
    for (; stage != std::end(stages) && stage->phase == phase; ++stage) {
        if (search.settled()) continue;
        if (applies(*stage, search, without)) stage->run(search);
    }
    return stage;
}

} // namespace

void run_stages(Search& search, const std::vector<std::string>& without) {
    for (At stage = std::begin(stages); stage != std::end(stages);) {
        if (stage->phase != Phase::rounds) {
            stage = run_phase(search, stage, without);
            if (search.settled() || !search.complete()) return;
            continue;
        }
        const At first = stage;
        while (stage->phase == Phase::rounds) ++stage;
        while (!search.part() && search.has_lp() && search.next_round())
            run_phase(search, first, without);
        search.drop_lp();
    }
}

Answer least_cost(const Instance& instance, Effort effort, const std::vector<std::string>& without,
                  Meter& meter) {
    Search search(instance, budget_of(effort), meter, without, 0);
    run_stages(search, without);
    return search.answer();
}

std::vector<std::string_view> stage_names() {
    std::vector<std::string_view> names;
    for (const Stage& stage : stages)
        if (stage.name != "construct"
            && std::find(names.begin(), names.end(), stage.name) == names.end())
            names.push_back(stage.name);
    return names;
}

} // namespace barrow::layout
