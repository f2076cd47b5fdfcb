#include "print/making/batch.hpp"

#include "base/text.hpp"
#include "print/making/papers.hpp"
#include "print/making/warnings.hpp"
#include "print/stock/offcuts.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {

using base::Money;
using base::Rational;

namespace {

std::string time_text(std::int64_t thousandths) {
    return minutes_text(Rational::of(thousandths, 1'000));
}

Money each(Money total, std::int64_t journals) {
    return base::times(total, Rational::of(1, journals));
}

Table entries_table(const workshop::BatchReport& report) {
    Table table({{"", Kind::date, false, "Day"}, {"", Kind::text, true, "Entry"}});
    for (const store::Posting& entry : report.entries) {
        Cell what(fmt::format("{} (entry {}){}", entry.kind, entry.id,
                              entry.note.empty() ? "" : ": " + entry.note));
        what.link = Link{Link::To::entry, std::to_string(entry.id)};
        table.row({date(entry.made_on), what});
    }
    return table;
}

Table runs_table(const workshop::BatchReport& report) {
    const base::Currency& currency = report.settings.currency;
    Table table({{"Design"},
                 {"", Kind::text, false, "Planned or actual"},
                 {"Journals", Kind::count},
                 {"Materials", Kind::money},
                 {"Time", Kind::quantity},
                 {"Labour", Kind::money},
                 {"Overheads", Kind::money},
                 {"each", Kind::money}});
    for (const workshop::BatchRunLine& line : report.runs) {
        const store::BatchRun& plan = line.planned;
        table.row(
            {line.name, "planned", count(plan.journals), money(plan.materials, currency),
             minutes_text(plan.minutes), money(plan.labour, currency),
             money(plan.overheads, currency),
             money(each(plan.materials + plan.labour + plan.overheads, plan.journals), currency)});
        if (!line.finished) continue;
        const store::FinishedRun& done = *line.finished;
        Cell journals = count(done.journals);
        if (line.seconds > 0) journals.text += ", " + base::counted(line.seconds, "second");
        table.row(
            {"", "actual", journals, money(done.materials, currency), time_text(done.minutes),
             money(done.labour, currency), money(done.overheads, currency),
             money(each(done.materials + done.labour + done.overheads, done.journals), currency)});
    }
    return table;
}

Table parts_table(const workshop::BatchReport& report) {
    const base::Currency& currency = report.settings.currency;
    Table table({{"Part"},
                 {"Material", Kind::label},
                 {"Takes", Kind::quantity},
                 {"planned", Kind::money},
                 {"actual", Kind::money}});
    for (const workshop::BatchPartLine& line : report.parts)
        table.row(
            {line.part, link(Link::To::material, line.material),
             line.form == base::Form::sheet
                 ? base::counted(line.quantity, "piece")
                 : measure_text(line.form, line.bulk_is_mass, line.quantity, report.settings.unit),
             money(line.planned, currency), money(line.actual, currency)});
    return table;
}

void add_papers(Blocks& blocks, const workshop::BatchReport& report) {
    for (std::size_t r = 0; r < report.runs.size(); ++r) {
        const Table papers = papers_table(report, static_cast<std::int64_t>(r));
        if (papers.empty()) continue;
        if (report.runs.size() > 1) blocks.add(Heading{"Papers of " + report.runs[r].name});
        if (report.runs.size() > 1)
            blocks.under(papers);
        else
            blocks.add(papers);
    }
}

Table materials_table(const workshop::BatchReport& report) {
    Table table({{"To cut", Kind::label},
                 {"planned", Kind::quantity},
                 {"cut", Kind::quantity},
                 {"spoiled", Kind::quantity}});
    for (const workshop::BatchMaterialLine& line : report.materials) {
        if (!base::is_cut(line.form)) continue;
        const auto units = [&](std::int64_t n) {
            return n == 0 ? std::string() : workshop::units_text(line.form, line.bulk_is_mass, n);
        };
        table.row({link(Link::To::material, line.material), units(line.planned_sheets),
                   units(line.cut_sheets), units(line.spoiled)});
    }
    return table;
}

void add_remnants(Blocks& blocks, const workshop::BatchReport& report) {
    if (report.remnants.empty() || report.batch.status != store::BatchStatus::planned) return;
    Table table({{"Remnant", Kind::count}, {"of", Kind::label}, {"Size to keep", Kind::length}});
    for (const workshop::BatchRemnantLine& line : report.remnants)
        table.row({count(line.number), link(Link::To::material, line.material),
                   size_text(line.form, line.size, report.settings.unit)});
    blocks.add(table);
    blocks.under(Text{"If one comes out differently, say so when the batch is cut: "
                      "--remnant NUMBER=SIZE (or =none)."});
}

/// Offcuts that keep their label, shorter than they were.
void add_continued(Blocks& blocks, const std::vector<std::string>& codes) {
    std::string text;
    for (const std::string& code : codes) text += " " + code;
    if (!text.empty()) blocks.add(Text{"Cut from, and kept under the same label:" + text, 2});
}

/// Journals of one run with the same papers are one line.
Table made_table(const workshop::Made& made) {
    Table table({{"Journals", Kind::label},
                 {"Design"},
                 {"each cost", Kind::money},
                 {"Papers", Kind::text, true}});
    const auto& journals = made.journals;
    for (std::size_t first = 0, end = 0; first < journals.size(); first = end) {
        const std::string papers = papers_text(journals[first].papers);
        Money cost;
        for (; end < journals.size() && journals[end].run == journals[first].run
               && papers_text(journals[end].papers) == papers;
             ++end)
            cost += journals[end].cost();
        const auto number = static_cast<std::int64_t>(end - first);
        const std::string& serial = journals[first].serial;
        table.row({number == 1 ? link(Link::To::journal, serial)
                               : label(serial + " to " + journals[end - 1].serial),
                   made.costing.runs[static_cast<std::size_t>(journals[first].run)].design.name,
                   money(each(cost, number), made.costing.settings.currency), papers});
    }
    return table;
}

std::string batch_title(const store::Batch& batch) {
    return fmt::format("Batch {}", batch.number);
}

} // namespace

Blocks blocks(const workshop::BatchReport& report) {
    Blocks blocks(batch_title(report.batch));
    blocks.add(
        Heading{fmt::format("Batch {}: {}", report.batch.number, name_of(report.batch.status))});
    blocks.under(entries_table(report), 2);
    blocks.add(runs_table(report));
    add_papers(blocks, report);
    blocks.add(parts_table(report));
    blocks.add(materials_table(report));
    add_remnants(blocks, report);
    return blocks;
}

std::string screen(const workshop::BatchReport& report) {
    return terminal(blocks(report));
}

Blocks blocks(const std::vector<workshop::BatchListLine>& lines) {
    Blocks blocks("Batches");
    if (lines.empty()) {
        blocks.add(Text{"No batches yet. Plan one with: barrow batch plan DESIGN --make N"});
        return blocks;
    }
    Table table({{"Batch", Kind::count}, {"Began", Kind::date}, {"Journals"}, {"Status"}});
    for (const workshop::BatchListLine& line : lines)
        table.row({link(Link::To::batch, line.batch.number), date(line.began), line.designs,
                   std::string(store::name_of(line.batch.status))});
    blocks.add(table);
    return blocks;
}

std::string screen(const std::vector<workshop::BatchListLine>& lines) {
    return terminal(blocks(lines));
}

Blocks blocks(const workshop::Cut& cut, const workshop::Settings& settings) {
    Blocks blocks(batch_title(cut.batch));
    blocks.add(Text{fmt::format("Batch {} is cut (entry {}).", cut.batch.number, cut.posting)});
    blocks.add(label_table(cut.offcuts, cut.materials, settings.unit));
    add_continued(blocks, cut.continued);
    return blocks;
}

std::string screen(const workshop::Cut& cut, const workshop::Settings& settings) {
    return terminal(blocks(cut, settings));
}

Blocks blocks(const workshop::Finished& finished, const workshop::Settings& settings) {
    Blocks blocks(batch_title(finished.batch));
    blocks.add(Text{
        fmt::format("Batch {} is finished (entry {}).", finished.batch.number, finished.posting)});
    Table table({{"Journal", Kind::label},
                 {"cost", Kind::money},
                 {"", Kind::text, false, "Condition"},
                 {"Papers", Kind::text, true}});
    for (const store::Journal& journal : finished.journals)
        table.row({link(Link::To::journal, journal.serial),
                   money(journal.cost(), settings.currency), journal.second ? "second" : "",
                   papers_text(journal.papers)});
    blocks.add(table);
    return blocks;
}

std::string screen(const workshop::Finished& finished, const workshop::Settings& settings) {
    return terminal(blocks(finished, settings));
}

Blocks blocks(const workshop::Made& made) {
    Blocks blocks(batch_title(made.batch));
    blocks.add(Text{fmt::format("Batch {} is made (entry {}).", made.batch.number, made.posting)});
    blocks.add(made_table(made));
    blocks.add(label_table(made.offcuts, made.materials, made.costing.settings.unit));
    add_continued(blocks, made.continued);
    add_warnings(blocks, made.costing.warnings);
    return blocks;
}

std::string screen(const workshop::Made& made) {
    return terminal(blocks(made));
}

} // namespace barrow::print
