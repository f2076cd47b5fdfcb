#include "print/write/html.hpp"

#include "print/text/markup.hpp"

#include <cstddef>

namespace barrow::print {
namespace {

constexpr const char* style =
    "body{font:16px/1.5 Georgia,serif;color:#3b332b;background:#fff;margin:2em auto;"
    "max-width:70em;padding:0 1em}"
    "h1{font-size:1.6em;margin:0 0 .6em}h2{font-size:1.2em;margin:1.4em 0 .4em}"
    "p{margin:.5em 0}table{border-collapse:collapse;margin:.8em 0}"
    "th,td{padding:.2em .8em .2em 0;text-align:left;vertical-align:top;font-weight:normal}"
    "thead th{border-bottom:1px solid #8a5a2b;font-weight:bold;vertical-align:bottom}"
    "th[scope=rowgroup]{font-weight:bold;padding-top:.8em}"
    ".n{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}"
    ".part th{padding-left:1.2em}tbody+tbody tr:first-child td{padding-top:.8em}"
    ".under{margin-top:0}.caution{border-left:4px solid #b3402a;padding-left:.8em;margin:1em 0}"
    "figure{margin:1em 0}svg{max-width:100%;height:auto}"
    "@media print{body{margin:0;max-width:none;font-size:11pt}tr,figure{break-inside:avoid}}";

std::string tag(const std::string& name, const std::string& inside, const std::string& with = {}) {
    return "<" + name + with + ">" + inside + "</" + name + ">";
}

std::string class_of(Kind kind) {
    return is_right_aligned(kind) ? " class=\"n\"" : "";
}

/// Writes one block at a time.
class HtmlWriter {
public:
    HtmlWriter(const Address& address, bool under) : address_(address), under_(under) {}

    std::string operator()(const Heading& heading) const {
        return tag("h2", markup_text(heading.text)) + "\n";
    }
    std::string operator()(const Text& text) const {
        return tag("p", markup_text(text.text), under_ ? " class=\"under\"" : "") + "\n";
    }
    std::string operator()(const Facts& facts) const {
        std::string text;
        const bool explained = has_explanations(facts);
        if (!facts.names.empty() || !facts.values.empty())
            text += tag("thead",
                        tag("tr", heading(facts.names, "") + heading(facts.values, " class=\"n\"")
                                      + (explained ? "<td></td>" : "")))
                    + "\n";
        for (const Facts::Group& group : facts.groups) {
            std::string rows;
            if (!group.heading.empty())
                rows += tag("tr", tag("th", markup_text(group.heading),
                                      std::string(" scope=\"rowgroup\" colspan=\"")
                                          + (explained ? "3" : "2") + "\""))
                        + "\n";
            for (const Fact& fact : group.facts) rows += row_of(fact, explained);
            text += tag("tbody", "\n" + rows) + "\n";
        }
        return tag("table", "\n" + text) + "\n";
    }
    std::string operator()(const Table& table) const;
    std::string operator()(const Steps& steps) const {
        std::string text = "\n";
        for (const std::string& step : steps.steps) text += tag("li", markup_text(step)) + "\n";
        return tag("ol", text) + "\n";
    }
    std::string operator()(const Drawing& drawing) const {
        return tag("figure", "\n" + drawing.svg) + "\n";
    }
    std::string operator()(const Cautions& cautions) const {
        std::string text = "\n";
        for (const std::string& one : cautions.texts) text += tag("p", markup_text(one)) + "\n";
        if (!cautions.closing.empty()) text += tag("p", markup_text(cautions.closing)) + "\n";
        return tag("div", text, " class=\"caution\"") + "\n";
    }

private:
    static bool has_explanations(const Facts& facts) {
        for (const Facts::Group& group : facts.groups)
            for (const Fact& fact : group.facts)
                if (!fact.explanation.empty()) return true;
        return false;
    }

    /// The heading of a column; an empty one heads nothing.
    static std::string heading(const std::string& words, const std::string& with) {
        if (words.empty()) return "<td></td>";
        return tag("th", markup_text(words), " scope=\"col\"" + with);
    }

    std::string inside(const Cell& cell) const {
        const std::string words = markup_text(cell.text);
        const std::string where = cell.link && address_ ? address_(*cell.link) : "";
        return where.empty() ? words : tag("a", words, " href=\"" + markup_text(where) + "\"");
    }

    std::string row_of(const Fact& fact, bool explained) const {
        std::string row = tag("th", markup_text(fact.name), " scope=\"row\"")
                          + tag("td", inside(fact.value), " class=\"n\"");
        if (explained) row += tag("td", markup_text(fact.explanation));
        return tag("tr", row, fact.part ? " class=\"part\"" : "") + "\n";
    }

    const Address& address_;
    bool under_;
};

std::string HtmlWriter::operator()(const Table& table) const {
    const std::vector<Column>& columns = table.columns();
    const std::vector<bool> shown = table.shown();
    std::string head;
    std::size_t first = columns.size();
    for (std::size_t c = 0; c < columns.size(); ++c) {
        if (!shown[c]) continue;
        if (first == columns.size()) first = c;
        const Column& column = columns[c];
        head +=
            heading(column.heading.empty() ? column.name : column.heading, class_of(column.kind));
    }
    std::string text = tag("thead", tag("tr", head)) + "\n<tbody>\n";
    for (const auto& row : table.rows()) {
        if (row.empty()) {
            text += "</tbody>\n<tbody>\n";
            continue;
        }
        std::string cells;
        for (std::size_t c = 0; c < row.size(); ++c) {
            if (!shown[c]) continue;
            const std::string of = class_of(columns[c].kind);
            cells += c == first && !row[c].text.empty()
                         ? tag("th", inside(row[c]), " scope=\"row\"" + of)
                         : tag("td", inside(row[c]), of);
        }
        text += tag("tr", cells) + "\n";
    }
    return tag("table", "\n" + text + "</tbody>\n") + "\n";
}

} // namespace

std::string html(const Blocks& blocks, const Address& address) {
    std::string text;
    for (const Block& block : blocks.list)
        text += std::visit(HtmlWriter(address, block.under), block.what);
    return text;
}

std::string html_page(const Blocks& blocks, const Address& address) {
    const std::string title = markup_text(blocks.title);
    return "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n"
           "<meta charset=\"utf-8\"/>\n"
           "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
           + tag("title", title) + "\n" + tag("style", style) + "\n</head>\n<body>\n"
           + tag("h1", title) + "\n" + html(blocks, address) + "</body>\n</html>\n";
}

} // namespace barrow::print
