#include "print/write/terminal.hpp"

#include "base/text.hpp"
#include "print/text/harmless.hpp"
#include "print/text/wrapped.hpp"
#include "print/write/terminal_table.hpp"

#include <algorithm>

namespace barrow::print {
namespace {

using base::display_width;

constexpr std::size_t margin = 4;           ///< columns left free beside running text
constexpr std::size_t least_text = 40;      ///< columns of running text, however narrow it gets
constexpr std::size_t least_explained = 40; ///< columns of an explanation

/// A text that fits stays as it is; another is broken into lines.
std::string broken(const std::string& text, std::size_t width, std::size_t hang) {
    return display_width(text) <= width ? text : wrapped(text, width, hang);
}

std::string spaces_to(std::size_t width, const std::string& text) {
    const std::size_t own = display_width(text);
    return std::string(width > own ? width - own : 0, ' ');
}

std::string name_of_fact(const Fact& fact) {
    return (fact.part ? "  " : "") + harmless(fact.name);
}

std::string indented(const std::string& text, std::size_t indent) {
    if (indent == 0) return text;
    std::string result;
    bool begins = true;
    for (const char c : text) {
        if (begins && c != '\n') result += std::string(indent, ' ');
        result += c;
        begins = c == '\n';
    }
    return result;
}

/// Names one under the other, values aligned right, each explanation beside its value.
class FactsText {
public:
    FactsText(const Facts& facts, std::size_t width) : facts_(facts) {
        names_ = display_width(harmless(facts.names));
        values_ = display_width(harmless(facts.values));
        for (const Facts::Group& group : facts.groups)
            for (const Fact& fact : group.facts) {
                names_ = std::max(names_, display_width(name_of_fact(fact)));
                values_ = std::max(values_, display_width(harmless(fact.value.text)));
            }
        beside_ = names_ + values_ + 4;
        room_ = std::max(width, beside_ + least_explained) - beside_;
    }

    std::string text() const {
        std::string text;
        if (!facts_.names.empty() || !facts_.values.empty())
            text += line(harmless(facts_.names), harmless(facts_.values));
        bool first = true;
        for (const Facts::Group& group : facts_.groups) {
            if (!first) text += "\n";
            first = false;
            if (!group.heading.empty()) text += harmless(group.heading) + "\n";
            for (const Fact& fact : group.facts) {
                text += line(name_of_fact(fact), harmless(fact.value.text));
                if (fact.explanation.empty()) continue;
                text.pop_back();
                text += "  " + explanation(fact) + "\n";
            }
        }
        return text;
    }

private:
    std::string line(const std::string& name, const std::string& value) const {
        if (value.empty()) return name + "\n";
        return name + spaces_to(names_, name) + "  " + spaces_to(values_, value) + value + "\n";
    }

    std::string explanation(const Fact& fact) const {
        std::string result;
        for (const char c : broken(harmless(fact.explanation), room_, 2)) {
            result += c;
            if (c == '\n') result += std::string(beside_, ' ');
        }
        return result;
    }

    const Facts& facts_;
    std::size_t names_ = 0;
    std::size_t values_ = 0;
    std::size_t beside_ = 0;
    std::size_t room_ = 0;
};

/// Writes one block at a time, `columns` wide.
struct TerminalWriter {
    std::size_t columns;

    std::size_t text_width() const {
        return columns > margin + least_text ? columns - margin : least_text;
    }

    std::string operator()(const Heading& heading) const {
        return broken(harmless(heading.text), text_width(), 2) + "\n";
    }
    std::string operator()(const Text& text) const {
        return broken(harmless(text.text), text_width(), text.hang) + "\n";
    }
    std::string operator()(const Facts& facts) const {
        return FactsText(facts, text_width()).text();
    }
    std::string operator()(const Table& table) const { return terminal_table(table, columns); }
    std::string operator()(const Steps& steps) const {
        std::string text;
        for (const std::string& step : steps.steps)
            text += broken(harmless(step), text_width(), 2) + "\n";
        return text;
    }
    std::string operator()(const Drawing&) const { return {}; }
    std::string operator()(const Cautions& cautions) const {
        std::string text;
        for (const std::string& one : cautions.texts)
            text += broken("! " + harmless(one), text_width(), 2) + "\n";
        if (!cautions.closing.empty())
            text += "  " + broken(harmless(cautions.closing), text_width() - 2, 2) + "\n";
        return text;
    }
};

} // namespace

std::string terminal(const Blocks& blocks, std::size_t columns) {
    std::string result;
    for (const Block& block : blocks.list) {
        const std::size_t room = columns > block.indent ? columns - block.indent : columns;
        const std::string text = std::visit(TerminalWriter{room}, block.what);
        if (text.empty()) continue;
        if (!result.empty() && !block.under) result += "\n";
        result += indented(text, block.indent);
    }
    return result;
}

} // namespace barrow::print
