#include "layout/solve/least_cost.hpp"

#include <algorithm>
#include <iterator>

namespace barrow::layout {
namespace {

enum class Part {
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
    Part part;
    Runs runs;
    bool (*when)(const Search&);
    void (*run)(Search&);
};

using S = Search;

/// Read from top to bottom. Stages of the parts after `start` run only while the cost is above the
/// bound and effort is left; those with the pattern LP only where it was solved.
constexpr Stage stages[] = {
    // name, part, runs, when, what
    {"construct", Part::start, Runs::always, [](const S&) { return true; },
     [](S& s) { s.build(); }},
    {"area", Part::start, Runs::always, [](const S& s) { return s.complete(); },
     [](S& s) { s.sum_stock(); }},
    {"sets", Part::start, Runs::whole, [](const S& s) { return !s.complete() || s.open(); },
     [](S& s) { s.try_all_sets(); }},
    {"complete", Part::start, Runs::whole, [](const S& s) { return !s.complete(); },
     [](S& s) { s.complete_answer(); }},
    {"area", Part::start, Runs::whole, [](const S& s) { return s.complete(); },
     [](S& s) { s.sum_stock(); }}, // again: the answer may be complete only now
    {"scales", Part::open, Runs::whole, [](const S& s) { return !s.lengths(); },
     [](S& s) { s.prove_by_scales(); }},
    {"bars", Part::open, Runs::whole, [](const S& s) { return s.bars_alike(); },
     [](S& s) { s.complete_bars(); }},
    {"ruin", Part::open, Runs::always,
     [](const S& s) { return s.part() || (!s.lengths() && s.few()); },
     [](S& s) { s.ruin_first(); }},
    {"lp", Part::open, Runs::always, [](const S&) { return true; }, [](S& s) { s.solve_lp(); }},
    {"corner", Part::patterns, Runs::whole,
     [](const S& s) { return s.several() && !s.has_offcuts() && !s.lengths() && !s.few(); },
     [](S& s) { s.search_corner(); }},
    {"rests", Part::patterns, Runs::always,
     [](const S& s) { return s.several() && !s.has_offcuts() && !s.lengths() && !s.gathers(); },
     [](S& s) { s.solve_rests(); }},
    {"bar dives", Part::rounds, Runs::whole, [](const S& s) { return s.bars_alike(); },
     [](S& s) { s.dive_bars(); }},
    {"bar cover", Part::rounds, Runs::whole, [](const S& s) { return s.bars_alike(); },
     [](S& s) { s.cover_bars(); }},
    {"near dives", Part::rounds, Runs::whole,
     [](const S& s) { return s.has_offcuts() && !s.lengths(); }, [](S& s) { s.dive_near(); }},
    {"whole uses", Part::rounds, Runs::whole,
     [](const S& s) { return !s.gathers() && !s.enough(); }, [](S& s) { s.use_whole(); }},
    {"dives", Part::rounds, Runs::whole, [](const S& s) { return !s.gathers() && !s.enough(); },
     [](S& s) { s.dive(); }},
    {"gather", Part::open, Runs::always, [](const S& s) { return s.gathers(); },
     [](S& s) { s.gather(); }},
    {"gather unlike", Part::open, Runs::whole, [](const S& s) { return s.unlike(); },
     [](S& s) { s.gather_unlike(); }},
    {"cover", Part::open, Runs::whole, [](const S& s) { return !s.lengths() && !s.enough(); },
     [](S& s) { s.cover_all_sets(); }},
    {"renew", Part::open, Runs::whole,
     [](const S& s) { return !s.lengths() && !s.gathers() && !s.enough(); },
     [](S& s) { s.renew_sheets(); }},
    {"ruin on", Part::open, Runs::whole, [](const S& s) { return !s.lengths() && !s.unlike(); },
     [](S& s) { s.ruin_on(); }},
};

bool applies(const Stage& stage, const Search& search, const std::vector<std::string>& without) {
    if (search.part() && stage.runs == Runs::whole) return false;
    if (stage.part != Part::start && !search.open()) return false;
    const bool patterns = stage.part == Part::patterns || stage.part == Part::rounds;
    if (patterns && !search.has_lp()) return false;
    return stage.when(search)
           && std::find(without.begin(), without.end(), stage.name) == without.end();
}

using At = const Stage*;

/// From a stage on, those of the same part; answers where the next part begins.
At run_part(Search& search, At stage, const std::vector<std::string>& without) {
    const Part part = stage->part;
    for (; stage != std::end(stages) && stage->part == part; ++stage) {
        if (search.settled()) continue;
        if (applies(*stage, search, without)) stage->run(search);
    }
    return stage;
}

} // namespace

void run_stages(Search& search, const std::vector<std::string>& without) {
    for (At stage = std::begin(stages); stage != std::end(stages);) {
        if (stage->part != Part::rounds) {
            stage = run_part(search, stage, without);
            if (search.settled() || !search.complete()) return;
            continue;
        }
        const At first = stage;
        while (stage->part == Part::rounds) ++stage;
        while (!search.part() && search.has_lp() && search.next_round())
            run_part(search, first, without);
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
