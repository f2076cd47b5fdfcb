#include "cli/commands.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "layout/checker.hpp"
#include "layout/solve.hpp"
#include "print/making/layout.hpp"
#include "print/making/plan_drawing.hpp"
#include "reading/layout_job.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <memory>

namespace barrow::cli {
namespace {

struct LayoutGiven {
    std::string file;
    std::string effort = "normal";
    std::string folder;
};

void write_layout_drawings(const reading::LayoutJobFile& file, const layout::Outcome& outcome,
                           const std::string& folder) {
    print::DrawingWords words;
    for (const layout::Piece& piece : file.job.pieces) words.pieces.push_back(piece.id);
    words.measure = [&file](layout::Measure value) { return file.measure_text(value); };
    std::vector<Drawing> drawings;
    for (std::size_t i = 0; i < outcome.plans.size(); ++i) {
        const layout::Plan& plan = outcome.plans[i];
        words.title = fmt::format("Plan {} of {}: {}", i + 1, outcome.plans.size(),
                                  file.job.stock[plan.stock].id);
        if (plan.copies > 1) words.title += fmt::format(", {} copies", plan.copies);
        drawings.push_back(
            {fmt::format("plan-{}.svg", i + 1), print::drawing(file.job, plan, words)});
    }
    write_drawings(folder, "layout", drawings);
}

base::Error not_all_placed(const layout::Job& job, const layout::Outcome& outcome) {
    std::vector<base::Problem> problems;
    const bool proven = outcome.status == layout::Status::infeasible;
    for (const layout::Unplaced& unplaced : outcome.unplaced)
        problems.push_back(
            {{},
             fmt::format("{} of piece {} {}", unplaced.count, job.pieces[unplaced.piece].id,
                         proven ? "cannot be placed" : "found no place"),
             unplaced.fits_no_stock ? "it is larger than every sheet"
             : proven               ? "there are too few sheets"
                                    : "not proven impossible; a greater --effort "
                                      "or one more sheet may do it"});
    return {base::Kind::refused, problems};
}

void lay_out(const Shell& shell, const LayoutGiven& given) {
    const reading::LayoutJobFile file =
        reading::read_layout_job(shell.read_file(given.file), given.file);
    layout::Options options;
    options.effort = read_effort(given.effort);
    const layout::Outcome outcome = layout::solve(file.job, options);
    const auto faults = layout::check(file.job, outcome);
    if (!faults.empty()) throw base::broken("the cut plan fails its own check: " + faults.front());
    if (!given.folder.empty()) write_layout_drawings(file, outcome, given.folder);
    const print::LayoutNumbers numbers{
        [&file](layout::Measure value) { return file.measure_text(value); },
        [&file](layout::Cost value) { return file.cost_text(value); }};
    shell.show([&] { return print::layout_screen(file.job, outcome, numbers); },
               [&] { return print::layout_document(file.job, outcome, options.effort, numbers); });
    if (!outcome.unplaced.empty()) throw not_all_placed(file.job, outcome);
}

} // namespace

void add_layout_command(Command& app, Shell& shell) {
    auto* command = app.add_subcommand(
        "layout",
        "Lay out a job from a JSON file: rectangles on sheets, or lengths; needs no shop");
    const auto given = std::make_shared<LayoutGiven>();
    command->add_option("file", given->file, "The job; - for standard input")->required();
    command->add_option("--effort", given->effort, "How hard to look for a better plan")
        ->one_of({"quick", "normal", "thorough"});
    command->add_option("--svg", given->folder, "Draw every plan into this folder")
        ->type_name("FOLDER");
    command->callback([&shell, given] { lay_out(shell, *given); });
}

} // namespace barrow::cli
