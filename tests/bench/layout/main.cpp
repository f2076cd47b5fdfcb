#include "families.hpp"
#include "table.hpp"

#include "layout/checker.hpp"
#include "layout/solve/least_cost.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <sys/resource.h>

#include <ctime>

namespace {

using barrow::bench::Case;
using barrow::bench::Family;
using barrow::bench::Result;

struct Choice {
    std::string folder;
    std::vector<std::string> families;
    std::string effort = "normal";
    std::string only;
    std::size_t step = 1;
    bool lines = false;
    std::vector<std::string> without;
};

barrow::layout::Effort effort_of(const std::string& name) {
    if (name == "quick") return barrow::layout::Effort::quick;
    if (name == "thorough") return barrow::layout::Effort::thorough;
    return barrow::layout::Effort::normal;
}

/// Of this program alone: what others do on the machine must not count.
double processor_seconds() {
    timespec time{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_nsec) * 1e-9;
}

Result run(const Case& instance, const Choice& choice) {
    Result result;
    result.instance = &instance;
    barrow::layout::Options options;
    options.effort = effort_of(choice.effort);
    options.without = choice.without;
    const double start = processor_seconds();
    result.outcome = barrow::layout::solve(instance.job, options);
    result.seconds = processor_seconds() - start;
    const auto faults = barrow::layout::check(instance.job, result.outcome);
    result.faults = faults.size();
    for (const std::string& fault : faults) fmt::print("{}: {}\n", instance.name, fault);
    return result;
}

void run_family(const Family& family, const Choice& choice) {
    const std::vector<Case> cases = family.read();
    std::vector<Result> results;
    std::size_t number = 0;
    for (const Case& instance : cases) {
        if (instance.name.find(choice.only) == std::string::npos) continue;
        if (number++ % choice.step != 0) continue;
        results.push_back(run(instance, choice));
        if (choice.lines) print_line(results.back());
        results.back().outcome.plans.clear();
    }
    print_table(family.name + ", " + choice.effort, results);
}

} // namespace

int main(int argc, char** argv) {
    CLI::App app("Measures the layout engine on published instances; every plan is checked.");
    Choice choice;
    app.add_option("folder", choice.folder, "folder with the CSV families; empty: maker's only");
    app.add_option("--family", choice.families, "families to run (several; a prefix is enough)");
    app.add_option("--effort", choice.effort)
        ->check(CLI::IsMember({"quick", "normal", "thorough"}));
    app.add_option("--only", choice.only, "only instances whose name contains this");
    app.add_option("--step", choice.step, "only every n-th instance")->check(CLI::PositiveNumber);
    app.add_flag("--lines", choice.lines, "one line per instance");
    std::vector<std::string> stages;
    for (const std::string_view name : barrow::layout::stage_names()) stages.emplace_back(name);
    app.add_option("--without", choice.without, "leave a stage of the search out (several)")
        ->check(CLI::IsMember(stages));
    CLI11_PARSE(app, argc, argv);
    std::vector<Family> families;
    if (!choice.folder.empty()) families = barrow::bench::published_families(choice.folder);
    for (Family& family : barrow::bench::maker_families()) families.push_back(std::move(family));
    for (Family& family : barrow::bench::made_families()) families.push_back(std::move(family));
    for (const Family& family : families) {
        bool wanted = choice.families.empty();
        for (const std::string& prefix : choice.families)
            wanted = wanted || family.name.rfind(prefix, 0) == 0;
        if (wanted) run_family(family, choice);
    }
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    fmt::print("largest memory {} MiB\n", usage.ru_maxrss / 1024);
    return 0;
}
