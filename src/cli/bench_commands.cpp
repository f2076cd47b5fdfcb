#include "cli/commands.hpp"

#include "cli/options.hpp"
#include "print/making/batch.hpp"
#include "print/making/cost.hpp"
#include "print/making/plan_drawing.hpp"
#include "workshop/making/batch.hpp"

#include <fmt/format.h>

#include <map>
#include <memory>

namespace barrow::cli {
namespace {

/// Writes a drawing of every plan into a folder: FERN-12-1.svg, FERN-12-2.svg, ... A material may
/// have several cut plans (what may come from offcuts only, fillers from the box): its drawings are
/// numbered through them.
void write_drawings(const Shell& shell, const workshop::Costing& costing,
                    const std::string& folder) {
    std::map<std::string, std::size_t> in_all; // drawings of each material
    std::map<std::string, std::size_t> drawn;
    for (const costing::CutPlan& plan : costing.estimate.cuts)
        in_all[plan.material->code] += plan.outcome.plans.size();
    int written = 0;
    for (const costing::CutPlan& plan : costing.estimate.cuts) {
        print::DrawingWords words;
        words.measure = print::drawn_measure(plan.material->form, costing.settings.unit);
        for (const costing::CutWant& want : plan.wants) {
            std::string name = costing::part_name(costing.runs[want.origin.run], want.origin.part);
            if (want.joined_from > 1)
                name += fmt::format(" {}/{}", want.joint + 1, want.joined_from);
            words.pieces.push_back(name);
        }
        for (const layout::Plan& own : plan.outcome.plans) {
            const std::string& code = plan.material->code;
            const std::size_t number = ++drawn[code];
            words.title =
                fmt::format("{} {}: {} of {}", code, plan.material->name, number, in_all[code]);
            if (own.copies > 1) words.title += fmt::format(", cut {} alike", own.copies);
            Shell::write_file(std::filesystem::path(folder)
                                  / fmt::format("{}-{}.svg", code, number),
                              print::drawing(plan.job, own, words));
            ++written;
        }
    }
    shell.remark(fmt::format("{} drawings written to {}.\n", written, folder));
}

void add_cost(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("cost", "What journals take, cost and should sell for");
    const auto given = std::make_shared<RunOptions>();
    given->add_to(*command, false);
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            const auto costing =
                workshop::cost(database, {given->run()}, shell.today(), given->how());
            shell.show([&] { return print::screen(costing); },
                       [&] { return print::document(costing); });
        };
    });
}

void add_bench_plan(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("plan", "How to cut for journals, sheet by sheet");
    const auto given = std::make_shared<RunOptions>();
    const auto folder = std::make_shared<std::string>();
    given->add_to(*command, false);
    command->add_option("--svg", *folder, "Draw every plan into this folder")->type_name("FOLDER");
    command->callback([&shell, given, folder] {
        shell.action = [&shell, given, folder] {
            store::Database database = shell.open();
            const auto costing =
                workshop::cost(database, {given->run()}, shell.today(), given->how());
            if (!folder->empty()) write_drawings(shell, costing, *folder);
            shell.show([&] { return print::bench_sheet(costing); },
                       [&] { return print::document(costing); });
        };
    });
}

void add_make(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("make", "Book journals as made, as `plan` shows them");
    const auto given = std::make_shared<RunOptions>();
    struct Extra {
        std::string note;
    };
    const auto extra = std::make_shared<Extra>();
    given->add_to(*command, true);
    command->add_option("--note", extra->note, "Anything worth keeping with the entry");
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be booked");
    command->callback([&shell, given, extra] {
        shell.action = [&shell, given, extra] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, extra->note);
            const auto made = workshop::make(context, {given->run()}, given->how());
            shell.say(print::screen(made));
        };
    });
}

} // namespace

void add_bench_commands(Command& app, Shell& shell) {
    add_cost(app, shell);
    add_bench_plan(app, shell);
    add_make(app, shell);
}

} // namespace barrow::cli
