#include "cli/commands.hpp"

#include "base/error.hpp"
#include "cli/options.hpp"
#include "cli/views.hpp"
#include "print/making/batch.hpp"
#include "print/making/cost.hpp"
#include "print/text/words.hpp"
#include "workshop/making/batch.hpp"
#include "workshop/making/batch_report.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/offcut_box.hpp"

#include <fmt/format.h>

#include <memory>

namespace barrow::cli {
namespace {

/// What every step of a batch is given.
struct Step {
    std::int64_t number = 0;
    std::string note;

    void add_to(Command& command, Shell& shell) {
        command.add_option("batch", number, "Its number")->required();
        command.add_option("--note", note, "Anything worth keeping with the entry");
        command.add_flag("-n,--dry-run", shell.dry_run, "Only say what would be booked");
    }
};

void add_batch_plan(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("plan", "Plan a batch: the plan is kept, stock reserved");
    const auto given = std::make_shared<RunOptions>();
    const auto note = std::make_shared<std::string>();
    given->add_to(*command, true);
    command->add_option("--note", *note, "Anything worth keeping with the entry");
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be kept");
    command->callback([&shell, given, note] {
        shell.action = [&shell, given, note] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, *note);
            const auto planned = workshop::plan_batch(context, {given->run()}, given->how());
            shell.say(print::bench_sheet(planned.costing));
            if (shell.dry_run) {
                shell.say(
                    fmt::format("\nThis would be planned as batch {}.\n", planned.batch.number));
                return;
            }
            shell.say(fmt::format("\nBatch {0} is planned (entry {1}). When it is cut: "
                                  "barrow batch cut {0}\n",
                                  planned.batch.number, planned.posting));
        };
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
    Step step;
    std::vector<std::string> spoiled, remnants, extra;
};

workshop::CutReport read_report(store::Database& database, const CutWords& given) {
    workshop::CutReport report;
    const base::Unit unit = workshop::read_settings(database).unit;
    for (const std::string& text : given.spoiled) {
        const auto [code, units] = halves(text, "--spoiled", "write --spoiled CODE=NUMBER");
        report.spoiled[code] += whole(units, "--spoiled");
    }
    const auto planned = workshop::batch_report(database, given.step.number).remnants;
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
    given->step.add_to(*command, shell);
    command->add_option("--spoiled", given->spoiled, "Sheets spoiled beyond the plan: FERN-12=1")
        ->type_name("CODE=NUMBER")
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
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->step.note);
            const auto cut = workshop::cut_batch_as_read(
                context, given->step.number, [&] { return read_report(database, *given); });
            shell.say(print::screen(cut, workshop::read_settings(database)));
        };
    });
}

void add_finish(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("finish", "Book a cut batch as finished journals");
    struct Given {
        Step step;
        std::vector<std::int64_t> made, seconds;
        std::vector<std::string> minutes;
    };
    const auto given = std::make_shared<Given>();
    given->step.add_to(*command, shell);
    command->add_option("--made", given->made, "Journals that came of it (else as planned)");
    command->add_option("--seconds", given->seconds,
                        "Of those, not good enough for the full price");
    command->add_option("--minutes", given->minutes, "Time it really took, all journals together");
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->step.note);
            std::vector<workshop::FinishedCount> counts(1);
            if (!given->made.empty()) counts[0].journals = given->made.front();
            if (!given->seconds.empty()) counts[0].seconds = given->seconds.front();
            if (!given->minutes.empty()) {
                counts[0].minutes = base::read_rational(given->minutes.front());
                if (!counts[0].minutes || *counts[0].minutes < base::Rational(0))
                    throw base::Error(base::Kind::usage,
                                      fmt::format("--minutes \"{}\" is not a number of minutes",
                                                  given->minutes.front()));
            }
            const auto finished = workshop::finish_batch(context, given->step.number, counts);
            shell.say(print::screen(finished, workshop::read_settings(database)));
        };
    });
}

void add_abandon(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("abandon", "Give a planned or cut batch up");
    const auto given = std::make_shared<Step>();
    given->add_to(*command, shell);
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->note);
            const auto abandoned = workshop::abandon_batch(context, given->number);
            const base::Currency currency = workshop::read_settings(database).currency;
            shell.say(
                fmt::format("Batch {} is abandoned (entry {}): {} put back, {} written off.\n",
                            abandoned.batch.number, abandoned.posting,
                            print::with_currency(abandoned.put_back, currency),
                            print::with_currency(abandoned.written_off, currency)));
        };
    });
}

void add_batch_show(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("show", "A batch, planned against actual");
    const auto number = std::make_shared<std::int64_t>(0);
    command->add_option("batch", *number, "Its number")->required();
    command->callback([&shell, number] {
        shell.action = [&shell, number] {
            store::Database database = shell.open();
            const auto report = workshop::batch_report(database, *number);
            shell.show([&] { return print::screen(report); },
                       [&] { return print::document(report); });
        };
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

} // namespace barrow::cli
