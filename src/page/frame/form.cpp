#include "page/frame/form.hpp"

#include "page/server/secret.hpp"
#include "print/text/markup.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::page {
namespace {

using print::markup_text;

std::string attribute(const char* name, const std::string& value) {
    return fmt::format(" {}=\"{}\"", name, markup_text(value));
}

/// Text of an area keeps its lines; markup_text would join them.
std::string area_text(const std::string& text) {
    std::string escaped;
    std::string line;
    for (const char c : text + "\n") {
        if (c != '\n') {
            if (c != '\r') line += c;
            continue;
        }
        escaped += markup_text(line) + "\n";
        line.clear();
    }
    escaped.pop_back();
    return escaped;
}

std::string choices_of(const Field& field, const std::string& with) {
    std::string text = "<select" + with + ">";
    for (const auto& [value, words] : field.choices)
        text += "<option" + attribute("value", value)
                + (value == field.value ? " selected=\"selected\"" : "") + ">" + markup_text(words)
                + "</option>";
    return text + "</select>";
}

std::string control(const Field& field, const std::string& id) {
    std::string with = attribute("id", id) + attribute("name", field.name);
    std::string described;
    if (!field.help.empty()) described += id + "-help";
    if (!field.problem.empty()) described += (described.empty() ? "" : " ") + id + "-problem";
    if (!described.empty()) with += attribute("aria-describedby", described);
    if (!field.problem.empty()) with += " aria-invalid=\"true\"";
    if (field.required) with += " required=\"required\"";
    switch (field.as) {
    case Field::As::area:
        return "<textarea rows=\"16\" spellcheck=\"false\"" + with + ">\n" + area_text(field.value)
               + "</textarea>";
    case Field::As::choice: return choices_of(field, with);
    case Field::As::tick:
        return "<input type=\"checkbox\" value=\"yes\"" + with
               + (field.value.empty() ? "" : " checked=\"checked\"") + "/>";
    case Field::As::date:
        return "<input type=\"date\"" + with + attribute("value", field.value) + "/>";
    case Field::As::hidden:
    case Field::As::text: break;
    }
    return "<input type=\"text\" autocomplete=\"off\""
           + std::string(field.number ? " inputmode=\"decimal\"" : "") + with
           + attribute("value", field.value) + "/>";
}

/// Names inside a page must differ although two forms may have fields of one name.
std::string id_of(const Form& form, const Field& field) {
    std::string id;
    for (const char c : form.action + "-" + field.name)
        id += std::isalnum(static_cast<unsigned char>(c)) != 0 ? c : '-';
    return "f" + id;
}

std::string hidden(const std::string& name, const std::string& value) {
    return "<input type=\"hidden\"" + attribute("name", name) + attribute("value", value) + "/>";
}

std::string one_field(const Form& form, const Field& field) {
    if (field.as == Field::As::hidden) return hidden(field.name, field.value);
    const std::string id = id_of(form, field);
    std::string text =
        "<div class=\"field" + std::string(field.as == Field::As::tick ? " tick" : "")
        + (field.as == Field::As::area ? " wide" : "") + "\""
        + (field.only_for.empty() ? "" : attribute("data-only", field.only_for)) + ">";
    const std::string label = "<label" + attribute("for", id) + ">" + markup_text(field.label)
                              + (field.required ? " <span class=\"must\">needed</span>" : "")
                              + "</label>";
    text += field.as == Field::As::tick ? control(field, id) + label : label + control(field, id);
    if (!field.help.empty())
        text +=
            "<small" + attribute("id", id + "-help") + ">" + markup_text(field.help) + "</small>";
    if (!field.problem.empty())
        text += "<strong class=\"problem\"" + attribute("id", id + "-problem") + ">"
                + markup_text(field.problem) + "</strong>";
    return text + "</div>\n";
}

} // namespace

void Form::fill(const Values& values) {
    for (Field& field : fields)
        if (values.has(field.name) || field.as == Field::As::tick)
            field.value = values.get(field.name);
}

void Form::blame(const std::vector<base::Problem>& all) {
    for (const base::Problem& problem : all) {
        const std::string words =
            problem.what + (problem.hint.empty() ? "" : " (" + problem.hint + ")");
        const auto named = std::find_if(fields.begin(), fields.end(), [&](const Field& field) {
            const std::string& where = problem.where;
            return field.as != Field::As::hidden && where.size() >= field.name.size()
                   && where.compare(where.size() - field.name.size(), std::string::npos, field.name)
                          == 0;
        });
        if (named != fields.end() && !problem.where.empty())
            named->problem += (named->problem.empty() ? "" : "; ") + words;
        else
            problems.push_back(problem.where.empty() ? words : problem.where + ": " + words);
    }
}

std::string html(const Form& form) {
    std::string text = "<form" + attribute("action", form.action)
                       + attribute("method", form.reads ? "get" : "post")
                       + (form.in_one_line ? " class=\"line\"" : "") + ">\n";
    if (!form.about.empty()) text += "<p>" + markup_text(form.about) + "</p>\n";
    if (!form.problems.empty()) {
        text += "<div class=\"problem\" role=\"alert\">";
        for (const std::string& problem : form.problems)
            text += "<p>" + markup_text(problem) + "</p>";
        text += "</div>\n";
    }
    if (!form.reads) text += hidden("key", new_secret());
    for (const Field& field : form.fields) text += one_field(form, field);
    return text + "<div class=\"send\"><button type=\"submit\">" + markup_text(form.button)
           + "</button></div>\n</form>\n";
}

workshop::Row row_of(const Values& values) {
    workshop::Row row;
    for (const auto& [name, value] : values.list()) {
        if (name == "key") continue;
        const std::size_t first = value.find_first_not_of(" \t\r\n");
        if (first == std::string::npos) continue;
        row.fields[name] = value.substr(first, value.find_last_not_of(" \t\r\n") - first + 1);
    }
    return row;
}

} // namespace barrow::page
