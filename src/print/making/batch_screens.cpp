#include "print/making/bench_screens.hpp"

#include "base/text.hpp"
#include "print/making/papers.hpp"
#include "print/text/table.hpp"
#include "print/text/words.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {

using base::Money;
using base::Rational;

namespace {

std::string money(const std::optional<Money>& amount, const base::Currency& currency) {
    return amount ? base::to_text(*amount, currency) : std::string();
}

std::string minutes(std::int64_t thousandths) {
    return minutes_text(Rational::of(thousandths, 1'000));
}

std::string runs_text(const workshop::BatchReport& report) {
    const base::Currency& currency = report.settings.currency;
    Table table({{"Design"},
                 {""},
                 {"Journals", Align::right},
                 {"Materials", Align::right},
                 {"Time", Align::right},
                 {"Labour", Align::right},
                 {"Overheads", Align::right},
                 {"each", Align::right}});
    for (const workshop::BatchRunLine& line : report.runs) {
        const store::BatchRun& plan = line.planned;
        const Money total = plan.materials + plan.labour + plan.overheads;
        table.row({line.name, "planned", std::to_string(plan.journals),
                   base::to_text(plan.materials, currency), minutes(plan.minutes),
                   base::to_text(plan.labour, currency), base::to_text(plan.overheads, currency),
                   base::to_text(base::times(total, Rational::of(1, plan.journals)), currency)});
        if (!line.finished) continue;
        const store::FinishedRun& done = *line.finished;
        const Money cost = done.materials + done.labour + done.overheads;
        std::string journals = std::to_string(done.journals);
        if (line.seconds > 0)
            journals += fmt::format(", {} second{}", line.seconds, line.seconds == 1 ? "" : "s");
        table.row({"", "actual", journals, base::to_text(done.materials, currency),
                   minutes(done.minutes), base::to_text(done.labour, currency),
                   base::to_text(done.overheads, currency),
                   base::to_text(base::times(cost, Rational::of(1, done.journals)), currency)});
    }
    return table.text();
}

std::string parts_text(const workshop::BatchReport& report) {
    const base::Currency& currency = report.settings.currency;
    Table table({{"Part"},
                 {"Material"},
                 {"Takes", Align::right},
                 {"planned", Align::right},
                 {"actual", Align::right}});
    for (const workshop::BatchPartLine& line : report.parts)
        table.row(
            {line.part, line.material,
             line.form == base::Form::sheet
                 ? base::counted(line.quantity, "piece")
                 : measure_text(line.form, line.bulk_is_mass, line.quantity, report.settings.unit),
             base::to_text(line.planned, currency), money(line.actual, currency)});
    return table.text();
}

std::string all_papers_text(const workshop::BatchReport& report) {
    std::string text;
    for (std::size_t r = 0; r < report.runs.size(); ++r) {
        const std::string papers = papers_text(report, static_cast<std::int64_t>(r));
        if (papers.empty()) continue;
        text += report.runs.size() > 1
                    ? fmt::format("Papers of {}\n{}\n", report.runs[r].name, papers)
                    : papers + "\n";
    }
    return text;
}

std::string materials_text(const workshop::BatchReport& report) {
    Table table(
        {{"To cut"}, {"planned", Align::right}, {"cut", Align::right}, {"spoiled", Align::right}});
    for (const workshop::BatchMaterialLine& line : report.materials) {
        if (!base::is_cut(line.form)) continue;
        const auto units = [&](std::int64_t n) {
            return n == 0 ? std::string() : workshop::units_text(line.form, line.bulk_is_mass, n);
        };
        table.row({line.material, units(line.planned_sheets), units(line.cut_sheets),
                   units(line.spoiled)});
    }
    return table.text();
}

std::string remnants_text(const workshop::BatchReport& report) {
    if (report.remnants.empty() || report.batch.status != store::BatchStatus::planned) return {};
    Table table({{"Remnant", Align::right}, {"of"}, {"Size to keep", Align::right}});
    for (const workshop::BatchRemnantLine& line : report.remnants)
        table.row({std::to_string(line.number), line.material,
                   size_text(line.form, line.size, report.settings.unit)});
    return "\n" + table.text()
           + "If one comes out otherwise, say so when it is cut: --remnant NUMBER=SIZE (or "
             "=none).\n";
}

} // namespace

std::string screen(const workshop::BatchReport& report) {
    std::string text =
        fmt::format("Batch {}: {}\n", report.batch.number, store::name_of(report.batch.status));
    for (const store::Posting& entry : report.entries)
        text += fmt::format("  {}  {} (entry {}){}\n", base::to_text(entry.made_on), entry.kind,
                            entry.id, entry.note.empty() ? "" : ": " + entry.note);
    return text + "\n" + runs_text(report) + "\n" + all_papers_text(report) + parts_text(report)
           + "\n" + materials_text(report) + remnants_text(report);
}

std::string screen(const std::vector<workshop::BatchListLine>& lines) {
    if (lines.empty()) return "No batches yet. Plan one with: barrow batch plan DESIGN --make N\n";
    Table table({{"Batch", Align::right}, {"Began"}, {"Journals"}, {"Status"}});
    for (const workshop::BatchListLine& line : lines)
        table.row({std::to_string(line.batch.number), base::to_text(line.began), line.designs,
                   std::string(store::name_of(line.batch.status))});
    return table.text();
}

std::string labels(const std::vector<store::Offcut>& offcuts,
                   const std::map<std::int64_t, store::Material>& materials, base::Unit unit) {
    Table table({{"Label it"}, {"Offcut of"}, {"Size", Align::right}});
    for (const store::Offcut& offcut : offcuts) {
        const store::Material& material = materials.at(offcut.material_id);
        table.row({offcut.code, material.code + "  " + material.name,
                   size_text(material.form, offcut.size, unit)});
    }
    return table.text();
}

std::string screen(const workshop::Cut& cut, const workshop::Settings& settings) {
    std::string text = fmt::format("Batch {} is cut (entry {}).\n", cut.batch.number, cut.posting);
    if (!cut.offcuts.empty()) text += "\n" + labels(cut.offcuts, cut.materials, settings.unit);
    if (!cut.continued.empty()) {
        text += "\nCut further, and still there under their labels:";
        for (const std::string& code : cut.continued) text += " " + code;
        text += "\n";
    }
    return text;
}

std::string screen(const workshop::Finished& finished, const workshop::Settings& settings) {
    std::string text = fmt::format("Batch {} is finished (entry {}).\n\n", finished.batch.number,
                                   finished.posting);
    Table table({{"Journal"}, {"cost", Align::right}, {""}, {"Papers", Align::left, true}});
    for (const store::Journal& journal : finished.journals)
        table.row({journal.serial, base::to_text(journal.cost(), settings.currency),
                   journal.second ? "second" : "", papers_text(journal.papers)});
    return text + table.text();
}

} // namespace barrow::print
