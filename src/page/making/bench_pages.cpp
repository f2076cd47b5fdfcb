#include "page/making/bench_pages.hpp"

#include "base/error.hpp"
#include "page/making/wanted.hpp"
#include "print/making/batch.hpp"
#include "print/making/cost.hpp"
#include "print/text/words.hpp"
#include "workshop/making/batch_report.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/shared/quantity_text.hpp"
#include "workshop/stock/offcut_box.hpp"

#include <fmt/format.h>

#include <charconv>

namespace barrow::page {
namespace {

std::int64_t number_in(const std::string& text, const std::string& what) {
    std::int64_t number = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    if (read.ec != std::errc() || read.ptr != text.data() + text.size() || number < 0)
        throw base::bad_input(what, fmt::format("\"{}\" is not a whole number", text));
    return number;
}

Form run_form(const Visit& visit) {
    Form form{"/bench", "Plan it"};
    form.about = "How many of each design. They are laid out together, over shelf and offcut box.";
    for (const store::StoredDesign& design : workshop::list_designs(visit.database)) {
        Field field{"make." + design.code, design.name};
        field.number = true;
        form.fields.push_back(field);
    }
    form.fields.push_back({"note", "Note", Field::As::text});
    form.fields.push_back(
        {"anyway", "also where a warning says it cannot be put together", Field::As::tick});
    return form;
}

Response bench_page(Visit& visit) {
    const auto batches = workshop::list_batches(visit.database);
    std::string body =
        batches.empty() ? paragraph("Nothing has been made yet.") : html_of(print::blocks(batches));
    if (!workshop::list_designs(visit.database).empty())
        body += section("A run of several designs", show(visit, run_form(visit)));
    else
        body += "<p>" + link_to("/designs", "Begin a design first") + "</p>\n";
    return answer(visit, Room::bench, "Bench", body);
}

Done plan_several(Visit& visit) {
    const auto runs = runs_in(visit.fields);
    if (runs.empty())
        throw base::refused("no design has a number of journals beside it",
                            "write how many are to be made");
    workshop::HowToCost how;
    how.anyway = !visit.fields.get("anyway").empty();
    const auto planned = workshop::plan_batch(visit.context, runs, how);
    return {fmt::format("Batch {} is planned; what it takes is reserved.", planned.batch.number),
            fmt::format("/bench/batch/{}", planned.batch.number)};
}

/// What may have gone otherwise than planned, with a field for each remnant and each material.
Form cut_form(const Visit& visit, const workshop::BatchReport& report) {
    Form form{fmt::format("/bench/batch/{}/cut", report.batch.number), "It is cut"};
    form.about = "Only what went otherwise than planned needs to be written here.";
    for (const workshop::BatchRemnantLine& line : report.remnants) {
        const std::string planned = print::size_text(line.form, line.size, visit.settings.unit);
        form.fields.push_back({fmt::format("remnant.{}", line.number),
                               fmt::format("Remnant {}, {}", line.number, line.material),
                               Field::As::text, "", "planned: " + planned + "; 0: not kept"});
    }
    for (const workshop::BatchMaterialLine& line : report.materials)
        if (base::is_cut(line.form)) {
            Field field{"spoiled." + line.material, "Spoiled, " + line.material, Field::As::text,
                        "", workshop::unit_word(line.form, false) + "s beyond the plan"};
            field.number = true;
            form.fields.push_back(field);
        }
    form.fields.push_back({"note", "Note", Field::As::text});
    return form;
}

Form finish_form(const workshop::BatchReport& report) {
    Form form{fmt::format("/bench/batch/{}/finish", report.batch.number), "They are finished"};
    form.about = "Empty fields: all went as planned.";
    for (std::size_t run = 0; run < report.runs.size(); ++run) {
        const std::string name = report.runs[run].name;
        const auto add = [&](const char* what, const std::string& label, const std::string& help) {
            Field field{fmt::format("{}.{}", what, run), label + ", " + name, Field::As::text, "",
                        help};
            field.number = true;
            form.fields.push_back(field);
        };
        add("journals", "Journals", fmt::format("planned: {}", report.runs[run].planned.journals));
        add("seconds", "Of those seconds", "not good enough for the full price");
        add("minutes", "Minutes", "for the whole run");
    }
    form.fields.push_back({"note", "Note", Field::As::text});
    return form;
}

Response batch_page(Visit& visit) {
    const auto report = workshop::batch_report(visit.database, number_in(visit.code(), "batch"));
    const std::string at = fmt::format("/bench/batch/{}", report.batch.number);
    std::string body = html_of(print::blocks(report));
    const bool planned = report.batch.status == store::BatchStatus::planned;
    const bool cut = report.batch.status == store::BatchStatus::cut;
    if (planned) body += section("Cut it", show(visit, cut_form(visit, report)));
    if (cut) body += section("Finish it", show(visit, finish_form(report)));
    if (planned || cut)
        body += section("Give it up",
                        show(visit, {at + "/abandon",
                                     "Give it up",
                                     {{"note", "Why", Field::As::text, "", "", {}, true}}}));
    return answer(visit, Room::bench, fmt::format("Batch {}", report.batch.number), body);
}

Done cut_this(Visit& visit) {
    const std::int64_t number = number_in(visit.code(), "batch");
    const auto read = [&] {
        const auto report = workshop::batch_report(visit.database, number);
        workshop::CutReport told;
        for (const workshop::BatchRemnantLine& line : report.remnants) {
            const std::string name = fmt::format("remnant.{}", line.number);
            const std::string& typed = visit.fields.get(name);
            if (typed.empty()) continue;
            told.remnants[line.number] =
                typed == "0" ? std::nullopt
                             : std::optional(
                                 workshop::read_size(line.form, typed, visit.settings.unit, name));
        }
        for (const auto& [material, typed] : visit.fields.under("spoiled."))
            told.spoiled[material] = number_in(typed, "spoiled." + material);
        return told;
    };
    const workshop::Cut cut = workshop::cut_batch_as_read(visit.context, number, read);
    std::string labels;
    for (const store::Offcut& offcut : cut.offcuts)
        labels += (labels.empty() ? " Write these labels on what is kept: " : ", ") + offcut.code;
    return {fmt::format("Batch {} is cut.{}", number, labels),
            fmt::format("/bench/batch/{}", number)};
}

Done finish_this(Visit& visit) {
    const std::int64_t number = number_in(visit.code(), "batch");
    const auto report = workshop::batch_report(visit.database, number);
    std::vector<workshop::FinishedCount> counts(report.runs.size());
    for (std::size_t run = 0; run < counts.size(); ++run) {
        const auto typed = [&](const char* what) {
            return visit.fields.get(fmt::format("{}.{}", what, run));
        };
        if (!typed("journals").empty())
            counts[run].journals = number_in(typed("journals"), fmt::format("journals.{}", run));
        if (!typed("seconds").empty())
            counts[run].seconds = number_in(typed("seconds"), fmt::format("seconds.{}", run));
        if (!typed("minutes").empty()) {
            counts[run].minutes = base::read_rational(typed("minutes"));
            if (!counts[run].minutes || *counts[run].minutes < base::Rational(0))
                throw base::bad_input(
                    fmt::format("minutes.{}", run),
                    fmt::format("\"{}\" is not a number of minutes", typed("minutes")));
        }
    }
    const auto finished = workshop::finish_batch(visit.context, number, counts);
    return {fmt::format("{} finished.", counted(static_cast<std::int64_t>(finished.journals.size()),
                                                "journal is", "journals are")),
            fmt::format("/bench/batch/{}", number)};
}

Done abandon_this(Visit& visit) {
    const std::int64_t number = number_in(visit.code(), "batch");
    const auto gone = workshop::abandon_batch(visit.context, number);
    return {fmt::format("Batch {} is given up: {} back on the shelf, {} written off.", number,
                        print::with_currency(gone.put_back, visit.settings.currency),
                        print::with_currency(gone.written_off, visit.settings.currency)),
            fmt::format("/bench/batch/{}", number)};
}

} // namespace

std::vector<Place> bench_places() {
    return {{"/bench", bench_page, plan_several, bench_page},
            {"/bench/batch/*", batch_page},
            {"/bench/batch/*/cut", nullptr, cut_this, batch_page},
            {"/bench/batch/*/finish", nullptr, finish_this, batch_page},
            {"/bench/batch/*/abandon", nullptr, abandon_this, batch_page}};
}

} // namespace barrow::page
