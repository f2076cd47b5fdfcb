#include "page/making/desk_pages.hpp"

#include "base/error.hpp"
#include "page/making/wanted.hpp"
#include "print/making/cost.hpp"
#include "print/making/design_drawing.hpp"
#include "print/making/designs.hpp"
#include "print/text/markup.hpp"
#include "print/text/words.hpp"
#include "workshop/making/batch.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/making/new_design.hpp"
#include "workshop/stock/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::page {
namespace {

using print::markup_text;

Form new_design_form() {
    Form form{"/designs", "Begin it"};
    Field base{"base", "Begin from", Field::As::choice, "", "", {}, true};
    for (const design::ReadyDesign& ready : design::ready_bases())
        base.choices.emplace_back(ready.name, fmt::format("{}: {}", ready.name, ready.about));
    form.fields = {base,
                   {"code", "Code", Field::As::text, "", "short: quayside", {}, true},
                   {"name", "Name", Field::As::text, "", "Quayside envelope journal", {}, true}};
    return form;
}

Response designs_page(Visit& visit) {
    const auto designs = workshop::list_designs(visit.database);
    std::string body;
    if (designs.empty())
        body = paragraph("There is no design yet.");
    else
        body = html_of(print::blocks(designs));
    body += section("A new design", show(visit, new_design_form()));
    return answer(visit, Room::making, "Design desk", body);
}

Done begin_design(Visit& visit) {
    const std::string& code = visit.fields.get("code");
    const std::string text =
        workshop::text_of({visit.fields.get("base"), code, visit.fields.get("name"), {}, {}});
    workshop::bring_designs(visit.context, {{text, code + ".toml"}});
    return {visit.fields.get("name") + " is begun. Put your own numbers and papers in.",
            "/designs/" + encoded(code)};
}

/// A bar as long as something is thick, so that base and block can be compared at a glance.
std::string thickness_bar(const std::string& name, std::int64_t units, std::int64_t most,
                          base::Unit unit, int y) {
    constexpr std::int64_t whole = 320;
    return fmt::format(
        "<text class=\"ink\" x=\"0\" y=\"{}\">{}: {}</text><rect class=\"paper\" x=\"0\" "
        "y=\"{}\" width=\"{}\" height=\"14\"/>",
        y, markup_text(name), markup_text(print::run_text(units, unit)), y + 6,
        std::max<std::int64_t>(1, units * whole / most));
}

/// The spine of the cover against the block that it has to hold.
std::string side_view(const design::Worked& worked, base::Unit unit) {
    if (!worked.cover || !worked.block) return {};
    const auto base =
        std::find_if(worked.cover->panels.begin(), worked.cover->panels.end(),
                     [](const auto& panel) { return panel.role == design::Role::base; });
    if (base == worked.cover->panels.end()) return {};
    const std::int64_t wide = base->width.units();
    const std::int64_t thick = worked.block->thickness.units();
    const std::int64_t most = std::max<std::int64_t>({1, wide, thick});
    return "<figure><svg width=\"330\" height=\"92\" viewBox=\"0 0 330 92\" role=\"img\" "
           "aria-label=\"Base and block\">"
           + thickness_bar("Base of the cover", wide, most, unit, 14)
           + thickness_bar("Block, filled", thick, most, unit, 60) + "</svg></figure>\n";
}

std::string figure(const std::string& name, const std::string& value) {
    return "<div><dt>" + name + "</dt><dd>" + markup_text(value) + "</dd></div>";
}

std::string headline(const workshop::Costing& costing) {
    const auto money = [&](base::Money amount) {
        return print::with_currency(amount, costing.settings.currency);
    };
    const std::string cost = figure("One costs", money(costing.estimate.runs.front().unit_cost));
    const std::optional<costing::Price>& price = costing.prices.front();
    if (!price)
        return "<dl class=\"figures\">" + cost
               + "</dl>\n<p class=\"warning\">Your work is not counted, so there is no price to "
                 "ask: "
                 "say what an hour should earn under <a "
                 "href=\"/books/settings\">settings</a>.</p>\n";
    return "<dl class=\"figures\">" + figure("Ask", money(price->asked)) + cost
           + figure("Yours", money(price->profit)) + "</dl>\n";
}

std::string warnings_part(const std::vector<design::Warning>& warnings) {
    std::string text;
    for (const design::Warning& warning : warnings)
        text += "<p class=\"warning\">" + markup_text(warning.text) + "</p>\n";
    return text;
}

/// What a run would cost and look like: the part of the desk that moves with its fields.
std::string worked_answer(const Visit& visit, const std::string& code, const Values& values) {
    workshop::HowToCost how;
    if (values.get("effort") == "quick") how.effort = layout::Effort::quick;
    const auto runs = run_in(values, code);
    const workshop::Costing costing = workshop::cost(visit.database, runs, visit.today(), how);
    const design::Worked worked = workshop::show_design(visit.database, code, changes_in(values));
    const base::Unit unit = costing.settings.unit;
    std::string text = warnings_part(costing.warnings) + headline(costing);
    if (worked.cover) text += "<figure>\n" + print::cover_drawing(worked, unit) + "</figure>\n";
    text += side_view(worked, unit);
    text += "<details open=\"open\"><summary>What it costs</summary>"
            + html_of(print::blocks(costing)) + "</details>\n";
    text += "<details><summary>How it is cut</summary>" + html_of(print::bench_blocks(costing))
            + "</details>\n";
    text += "<details><summary>Every number</summary>" + html_of(print::blocks(worked, unit))
            + "</details>\n";
    return text;
}

/// The same, or in words why it cannot be.
std::string answer_or_reason(const Visit& visit, const std::string& code, const Values& values) {
    try {
        return worked_answer(visit, code, values);
    } catch (const base::Error& error) {
        std::string text = "<div class=\"problem\" role=\"alert\">";
        for (const base::Problem& problem : error.problems())
            text += "<p>"
                    + markup_text((problem.where.empty() ? "" : problem.where + ": ") + problem.what
                                  + (problem.hint.empty() ? "" : " (" + problem.hint + ")"))
                    + "</p>";
        return text + "</div>\n";
    }
}

Response answer_part(Visit& visit) {
    Response response;
    response.body = answer_or_reason(visit, visit.code(), visit.request.query);
    return response;
}

std::string number_field(const design::Parameter& parameter, const std::string& value) {
    const std::string name = markup_text("set." + parameter.name);
    const auto limit = [](const char* which, const std::optional<design::Quantity>& quantity) {
        return quantity ? fmt::format(" data-{}=\"{}\"", which, markup_text(to_text(*quantity)))
                        : std::string();
    };
    return fmt::format(
        "<div class=\"field\"><label for=\"{0}\">{1}</label><input type=\"text\" "
        "autocomplete=\"off\" "
        "inputmode=\"decimal\" id=\"{0}\" name=\"{0}\" value=\"{2}\" data-usual=\"{3}\"{4}{5}{6}/>"
        "<small>{7}</small></div>\n",
        name, markup_text(parameter.name), markup_text(value),
        markup_text(to_text(parameter.usual)), limit("least", parameter.least),
        limit("most", parameter.most), parameter.whole ? " data-whole=\"yes\"" : "",
        markup_text(parameter.about));
}

std::string slot_field(const design::WorkedSlot& slot, const std::string& chosen,
                       const std::vector<workshop::MaterialLine>& materials) {
    const auto usual = std::find_if(materials.begin(), materials.end(), [&](const auto& line) {
        return line.material.code == slot.material;
    });
    const std::string name = markup_text("use." + slot.name);
    std::string words = slot.material.empty() ? "best for the run" : slot.material;
    if (!slot.reverse_of.empty()) words = "reverse of " + slot.reverse_of;
    std::string text = fmt::format("<div class=\"field\"><label for=\"{0}\">{1}</label><select "
                                   "id=\"{0}\" name=\"{0}\"><option value=\"\">{2}</option>",
                                   name, markup_text(slot.name), markup_text(words));
    for (const workshop::MaterialLine& line : materials) {
        const base::Form form = usual == materials.end() ? base::Form::sheet : usual->material.form;
        if (line.material.form != form || line.material.code == slot.material) continue;
        text += fmt::format("<option value=\"{0}\"{1}>{0}: {2}</option>",
                            markup_text(line.material.code),
                            line.material.code == chosen ? " selected=\"selected\"" : "",
                            markup_text(line.material.name));
    }
    return text + "</select></div>\n";
}

/// The design as it stands when its numbers cannot be worked out: only its parameters are known.
std::vector<design::WorkedSlot> slots_of(const Visit& visit, const std::string& code) {
    try {
        return workshop::show_design(visit.database, code, {}).slots;
    } catch (const base::Error&) {
        return {};
    }
}

std::string desk_fields(const Visit& visit, const workshop::CalledDesign& called,
                        const Values& values) {
    const std::string at = "/designs/" + encoded(called.design.code);
    std::string text = "<form id=\"desk\" method=\"get\" action=\"" + at + "\" data-answer=\"" + at
                       + "/answer\">\n";
    const std::string make = values.get("make").empty() ? "12" : values.get("make");
    text += "<div class=\"field\"><label for=\"make\">Journals</label><input type=\"text\" "
            "inputmode=\"numeric\" id=\"make\" name=\"make\" value=\""
            + markup_text(make)
            + "\" data-least=\"1\" data-most=\"60\" data-usual=\"12\" data-whole=\"yes\"/>"
              "<small>in one run</small></div>\n";
    if (!called.design.variants.empty()) {
        text += "<p>Variants: " + link_to(at, called.stored.name);
        for (const design::Design& variant : called.design.variants)
            text += ", " + link_to("/designs/" + encoded(variant.code), variant.variant);
        text += "</p>\n";
    }
    text += "<fieldset><legend>Numbers</legend>\n";
    for (const design::Parameter& parameter : called.design.parameters) {
        const std::string typed = values.get("set." + parameter.name);
        text += number_field(parameter, typed.empty() ? to_text(parameter.usual) : typed);
    }
    text += "</fieldset>\n<fieldset><legend>Papers and things</legend>\n";
    const auto materials = workshop::list_materials(visit.database);
    for (const design::WorkedSlot& slot : slots_of(visit, called.design.code))
        text += slot_field(slot, values.get("use." + slot.name), materials);
    return text
           + "</fieldset>\n<div class=\"send\"><button type=\"submit\">Work it out</button></div>\n"
             "</form>\n";
}

Response desk_page(Visit& visit) {
    const auto called = workshop::design_read(visit.database, visit.code(), "design");
    Values values;
    for (const auto& [name, value] : visit.request.query.list()) values.add(name, value);
    if (!values.has("make")) values.add("make", "12");
    const std::string at = "/designs/" + encoded(called.design.code);
    std::string body = "<div class=\"desk\">\n<div>" + desk_fields(visit, called, values)
                       + "</div>\n" + "<div id=\"answer\" aria-live=\"polite\">\n"
                       + answer_or_reason(visit, called.design.code, values) + "</div>\n</div>\n";
    Form plan{at + "/plan", "Plan this run"};
    plan.about = "Reserves what it takes and keeps the plan for the bench.";
    plan.fields = {
        {"query", "", Field::As::hidden, write_form(values)},
        {"note", "Note", Field::As::text},
        {"anyway", "also where a warning says it cannot be put together", Field::As::tick}};
    body += section("To the bench", show(visit, plan));
    body += "<p>" + link_to(at + "/text", "The text of the design") + "</p>\n";
    return answer(visit, Room::making,
                  called.design.name.empty() ? called.design.code : called.design.name, body);
}

Done plan_run(Visit& visit) {
    const Values values = read_form(visit.fields.get("query"));
    workshop::HowToCost how;
    how.anyway = !visit.fields.get("anyway").empty();
    const auto planned = workshop::plan_batch(visit.context, run_in(values, visit.code()), how);
    return {fmt::format("Batch {} is planned; what it takes is reserved.", planned.batch.number),
            fmt::format("/bench/batch/{}", planned.batch.number)};
}

Form text_form(const workshop::CalledDesign& called) {
    Form form{"/designs/" + encoded(called.stored.code) + "/text", "Keep this text"};
    form.about = "What is kept is worked out first. Batches made before keep the text they had.";
    form.fields = {
        {"text", "Text of the design", Field::As::area, called.stored.text, "", {}, true}};
    return form;
}

Response text_page(Visit& visit) {
    const auto called = workshop::design_read(visit.database, visit.code(), "design");
    return answer(visit, Room::making, called.stored.name + ": its text",
                  show(visit, text_form(called)) + "<p>"
                      + link_to("/designs/" + encoded(called.stored.code) + "/file", "As a file")
                      + "</p>\n");
}

Response text_file(Visit& visit) {
    const auto called = workshop::design_read(visit.database, visit.code(), "design");
    return download(called.stored.code + ".toml", "application/toml", called.stored.text);
}

Done keep_text(Visit& visit) {
    std::string text;
    for (const char c : visit.fields.get("text")) // browsers send lines that end in CR LF
        if (c != '\r') text += c;
    const auto brought = workshop::bring_designs(visit.context, {{text, visit.code() + ".toml"}});
    return {brought.front().changed ? "The new text is kept." : "The text was this already.",
            "/designs/" + encoded(brought.front().design.code)};
}

} // namespace

std::vector<Place> desk_places() {
    return {{"/designs", designs_page, begin_design, designs_page},
            {"/designs/*", desk_page},
            {"/designs/*/answer", answer_part},
            {"/designs/*/plan", nullptr, plan_run, desk_page},
            {"/designs/*/text", text_page, keep_text, text_page},
            {"/designs/*/file", text_file}};
}

} // namespace barrow::page
