#include "cli/commands.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/views.hpp"
#include "print/making/batch.hpp"
#include "print/making/cost.hpp"
#include "print/making/plan_drawing.hpp"
#include "print/text/words.hpp"
#include "workshop/making/batch.hpp"
#include "workshop/making/batch_report.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/offcut_box.hpp"

#include <fmt/format.h>

#include <map>
#include <memory>

namespace barrow::cli {
namespace {

/// What every step of a batch is given.
void add_step(Command& command, Shell& shell, std::int64_t& number) {
    command.add_option("batch", number, "Its number (see: barrow batch list)")->required();
    add_note(command, shell);
    add_dry_run(command, shell);
}

void add_batch_plan(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("plan", "Plan a batch: the plan is kept, stock reserved");
    const auto given = std::make_shared<RunOptions>();
    given->add_to(*command, true);
    add_note(*command, shell);
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto planned = workshop::plan_batch(context, {given->run()}, given->how());
        say_if_edited(shell, planned.costing);
        shell.say(print::bench_sheet(planned.costing));
        if (shell.dry_run) {
            shell.say(fmt::format("\nThis would be planned as batch {}.\n", planned.batch.number));
            return;
        }
        shell.say(fmt::format("\nBatch {0} is planned (entry {1}). When it is cut: "
                              "barrow batch cut {0}\n",
                              planned.batch.number, planned.posting));
    });
}

std::int64_t whole(const std::string& text, const char* option) {
    const auto number = base::read_rational(text);
    if (!number || !number->is_whole() || *number < base::Rational(1)
        || *number > base::Rational(1'000'000))
        throw base::Error(base::Kind::usage,
                          fmt::format("{}: \"{}\" is not a whole number above zero", option, text));
    return number->number();
}

struct CutWords {
    std::int64_t number = 0;
    std::vector<std::string> spoiled, remnants, extra;
};

workshop::CutReport read_report(store::Database& database, const CutWords& given) {
    workshop::CutReport report;
    const auto unit = workshop::read_settings(database).bare_unit;
    for (const std::string& text : given.spoiled) {
        const auto [code, amount] = halves(text, "--spoiled", "write --spoiled CODE=NUMBER");
        const std::size_t at = amount.find('@');
        report.spoiled[code] += whole(amount.substr(0, at), "--spoiled");
        if (at != std::string::npos)
            report.spoiled_from[code] = whole(amount.substr(at + 1), "--spoiled");
    }
    const auto planned = workshop::batch_report(database, given.number).remnants;
    for (const std::string& text : given.remnants) {
        const auto [number, size] =
            halves(text, "--remnant", "write --remnant NUMBER=SIZE or NUMBER=none");
        const std::int64_t n = whole(number, "--remnant");
        auto& change = report.remnants[n];
        if (size == "none" || n > static_cast<std::int64_t>(planned.size())) continue;
        change = workshop::read_size(planned[static_cast<std::size_t>(n - 1)].form, size, unit,
                                     "--remnant " + text);
    }
    for (const std::string& text : given.extra) {
        const auto [code, size] = halves(text, "--extra", "write --extra CODE=SIZE");
        const auto material = workshop::material_called(database, code, "--extra");
        report.extra.emplace_back(
            code, workshop::read_size(material.form, size, unit, "--extra " + text));
    }
    return report;
}

void add_cut(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("cut", "Book a planned batch as cut");
    const auto given = std::make_shared<CutWords>();
    add_step(*command, shell, given->number);
    command
        ->add_option("--spoiled", given->spoiled,
                     "Sheets spoiled beyond the plan: FERN-12=1, or FERN-12=1@17 of lot 17")
        ->type_name("CODE=NUMBER[@LOT]")
        ->repeats();
    command
        ->add_option("--remnant", given->remnants,
                     "A remnant of another size than planned, or not kept: 3=290mmx100mm, 4=none")
        ->type_name("NUMBER=SIZE")
        ->repeats();
    command
        ->add_option("--extra", given->extra,
                     "A remnant the plan did not foresee: FERN-12=80mmx60mm")
        ->type_name("CODE=SIZE")
        ->repeats();
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto cut = workshop::cut_batch_as_read(context, given->number,
                                                     [&] { return read_report(database, *given); });
        shell.say(print::screen(cut, workshop::read_settings(database)));
    });
}

void add_finish(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("finish", "Book a cut batch as finished journals");
    struct Given {
        std::int64_t number = 0;
        std::optional<std::int64_t> made;
        std::optional<std::int64_t> seconds;
        std::string minutes;
    };
    const auto given = std::make_shared<Given>();
    add_step(*command, shell, given->number);
    command->add_option("--made", given->made, "Journals that came of it (else as planned)");
    command->add_option("--seconds", given->seconds,
                        "Of those, not good enough for the full price");
    command->add_option("--minutes", given->minutes,
                        "Time it really took, all journals together: 220, or \"3 h 40 min\"");
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        std::vector<workshop::FinishedCount> counts(1);
        if (given->made) counts[0].journals = *given->made;
        if (given->seconds) counts[0].seconds = *given->seconds;
        if (!given->minutes.empty()) counts[0].minutes = read_minutes(given->minutes, "--minutes");
        const auto finished = workshop::finish_batch(context, given->number, counts);
        shell.say(print::screen(finished, workshop::read_settings(database)));
    });
}

void add_abandon(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("abandon", "Give up a planned or cut batch");
    const auto number = std::make_shared<std::int64_t>(0);
    add_step(*command, shell, *number);
    command->callback([&shell, number] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto abandoned = workshop::abandon_batch(context, *number);
        const base::Currency currency = workshop::read_settings(database).currency;
        shell.say(fmt::format("Batch {} is abandoned (entry {}): {} put back, {} written off.\n",
                              abandoned.batch.number, abandoned.posting,
                              print::with_currency(abandoned.put_back, currency),
                              print::with_currency(abandoned.written_off, currency)));
    });
}

void add_batch_show(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("show", "A batch, planned against actual");
    const auto number = std::make_shared<std::int64_t>(0);
    command->add_option("batch", *number, "Its number")->required();
    command->callback([&shell, number] {
        store::Database database = shell.open();
        const auto report = workshop::batch_report(database, *number);
        shell.show([&] { return print::screen(report); }, [&] { return print::document(report); });
    });
}

/// Writes a drawing of every plan into a folder: FERN-12-1.svg, FERN-12-2.svg, ... A material may
/// have several cut plans (what may come from offcuts only, fillers from the box): its drawings are
/// numbered through them.
void write_plan_drawings(const Shell& shell, const workshop::Costing& costing,
                         const std::string& folder) {
    std::map<std::string, std::size_t> in_all; // drawings of each material
    std::map<std::string, std::size_t> drawn;
    for (const costing::CutPlan& plan : costing.estimate.cuts)
        in_all[plan.material->code] += plan.outcome.plans.size();
    std::vector<Drawing> drawings;
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
            drawings.push_back(
                {fmt::format("{}-{}.svg", code, number), print::drawing(plan.job, own, words)});
        }
    }
    write_drawings(folder, "plan", drawings);
    shell.remark(fmt::format("{} written to {}.\n",
                             base::counted(static_cast<long long>(drawings.size()), "drawing"),
                             folder));
}

void add_cost(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("cost", "What journals take, cost and should sell for");
    const auto given = std::make_shared<RunOptions>();
    given->add_to(*command, false);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        const auto costing = workshop::cost(database, {given->run()}, shell.today(), given->how());
        say_if_edited(shell, costing);
        shell.show([&] { return print::screen(costing); },
                   [&] { return print::document(costing); });
    });
}

void add_bench_plan(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("plan", "How to cut for journals, sheet by sheet");
    const auto given = std::make_shared<RunOptions>();
    const auto folder = std::make_shared<std::string>();
    given->add_to(*command, false);
    command->add_option("--svg", *folder, "Draw every plan into this folder")->type_name("FOLDER");
    command->callback([&shell, given, folder] {
        store::Database database = shell.open();
        const auto costing = workshop::cost(database, {given->run()}, shell.today(), given->how());
        say_if_edited(shell, costing);
        if (!folder->empty()) write_plan_drawings(shell, costing, *folder);
        shell.show([&] { return print::bench_sheet(costing); },
                   [&] { return print::document(costing); });
    });
}

void add_make(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("make", "Book journals as made, as `plan` shows them");
    const auto given = std::make_shared<RunOptions>();
    given->add_to(*command, true);
    add_note(*command, shell);
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto made = workshop::make(context, {given->run()}, given->how());
        say_if_edited(shell, made.costing);
        shell.say(print::screen(made));
    });
}

} // namespace

void add_batch_commands(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("batch", "Journals in the making: planned, cut, finished");
    add_view(*group, shell, "list", "All batches, newest first",
             [](store::Database& database, const base::Date&) {
                 return workshop::list_batches(database);
             });
    add_batch_show(*group, shell);
    add_batch_plan(*group, shell);
    add_cut(*group, shell);
    add_finish(*group, shell);
    add_abandon(*group, shell);
}

void add_bench_commands(Command& app, Shell& shell) {
    add_cost(app, shell);
    add_bench_plan(app, shell);
    add_make(app, shell);
}

} // namespace barrow::cli
