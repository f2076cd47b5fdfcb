#include "cli/options.hpp"

#include "base/error.hpp"
#include "base/rational.hpp"
#include "base/text.hpp"
#include "cli/tables.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::cli {
namespace {

std::string option_name(std::string field) {
    std::replace(field.begin(), field.end(), '_', '-');
    return field;
}

base::Error not_understood(const std::string& text, const std::string& option,
                           const std::string& hint) {
    return {base::Kind::usage,
            fmt::format("{}{}\"{}\" is not understood", option, option.empty() ? "" : " ", text),
            hint};
}

} // namespace

RowOptions::RowOptions(Command& command, const std::vector<std::string>& fields,
                       const std::map<std::string, std::string>& help)
    : values_(std::make_shared<std::map<std::string, std::string>>()) {
    for (const std::string& field : fields) {
        const auto text = help.find(field);
        if (text == help.end()) continue; // given another way (the code is an argument)
        command.add_option("--" + option_name(field), (*values_)[field], text->second);
    }
}

workshop::Row RowOptions::row() const {
    workshop::Row row;
    row.field_prefix = "--";
    for (const auto& [field, value] : *values_)
        if (!value.empty()) row.fields[field] = value;
    return row;
}

void RunOptions::add_to(Command& command, bool make_required) {
    command.add_option("design", design, "Code of the design")->required();
    auto* number = command.add_option("-m,--make", make, "How many journals");
    number->range(1, 10'000);
    if (make_required) {
        number->required();
        command.add_flag("--anyway", anyway,
                         "Book it in spite of a warning that it cannot be put together");
    }
    command.add_option("--set", set, "Change a parameter of the design: --set envelopes=20")
        ->type_name("NAME=VALUE")
        ->repeats();
    command.add_option("--use", use, "Use another material: --use outside=MOSS-12")
        ->type_name("NAME=CODE")
        ->repeats();
    command.add_option("--lot", lots, "Take this lot first: --lot FERN-12=17 (see: barrow lots)")
        ->type_name("CODE=LOT")
        ->repeats();
    command.add_flag("--fillers-from-box", fillers_from_box,
                     "Cut fillers from offcuts in the box when the waste has no room for them");
    command.add_option("--effort", effort, "How hard to look for a better cut plan")
        ->one_of({"quick", "normal", "thorough"});
}

workshop::WantedRun RunOptions::run() const {
    return {design, make, {read_changes(set, "--set"), read_changes(use, "--use")}};
}

workshop::HowToCost RunOptions::how() const {
    workshop::HowToCost how;
    how.effort = read_effort(effort);
    how.fillers_from_box = fillers_from_box;
    how.anyway = anyway;
    for (const std::string& text : lots) {
        const std::string hint = "write the material and the number of the lot: --lot FERN-12=17";
        const auto [code, lot] = halves(text, "--lot", hint);
        const auto number = base::read_rational(lot);
        if (!number || !number->is_whole()) throw not_understood(text, "--lot", hint);
        how.picks[base::raised(code)].push_back(number->number());
    }
    return how;
}

void say_if_edited(const Shell& shell, const workshop::Costing& costing) {
    for (const auto& design : costing.designs) {
        std::error_code failed;
        if (design.file.empty() || !std::filesystem::is_regular_file(design.file, failed)) continue;
        if (shell.read_file(design.file) == design.text) continue;
        shell.remark(
            fmt::format("Note: {0} here is not what the shop has of {1}, and the shop's is "
                        "used. To use the file: barrow design bring {0}\n",
                        design.file, design.code));
    }
}

std::pair<std::string, std::string> halves(const std::string& text, const std::string& option,
                                           const std::string& hint) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == text.size())
        throw not_understood(text, option, hint);
    return {text.substr(0, equals), text.substr(equals + 1)};
}

std::pair<std::string, std::int64_t> read_numbered(const std::string& text,
                                                   const std::string& hint) {
    if (text.find('=') == std::string::npos) return {text, 1};
    const auto [design, words] = halves(text, "", hint);
    const auto number = base::read_rational(words);
    if (!number || !number->is_whole() || *number < base::Rational(1)
        || *number > base::Rational(10'000))
        throw not_understood(text, "", hint);
    return {design, number->number()};
}

std::map<std::string, std::string> read_changes(const std::vector<std::string>& given,
                                                const std::string& option) {
    std::map<std::string, std::string> changes;
    for (const std::string& text : given) {
        const auto [name, value] = halves(text, option, fmt::format("write {} name=value", option));
        if (!changes.emplace(name, value).second)
            throw base::Error(base::Kind::usage, fmt::format("{} {} is given twice", option, name));
    }
    return changes;
}

Option* add_dry_run(Command& command, Shell& shell) {
    return command.add_flag("-n,--dry-run", shell.dry_run,
                            "Show what would happen, and book nothing");
}

Option* add_note(Command& command, Shell& shell, const char* about) {
    return command.add_option("--note", shell.note, about);
}

Option* add_date(Command& command, std::string& date, const char* about) {
    return command.add_option("--date", date, about)->type_name("DATE");
}

void TableOptions::add_to(Command& command) {
    command.add_flag("--csv", csv, "Print CSV instead of text, for a spreadsheet");
}

void on_command(Command& app, const char* name, const char* about, std::function<void()> chosen) {
    app.add_subcommand(name, about)->callback(std::move(chosen));
}

base::Rational read_minutes(const std::string& text, const std::string& option) {
    const auto wrong = [&] {
        return not_understood(text, option, "write minutes, or hours and minutes: 3 h 40 min");
    };
    base::Rational minutes;
    std::string_view rest = base::trimmed(text);
    bool bare = false; // a number without a unit is minutes, and stands alone or last
    while (!rest.empty()) {
        const std::size_t end = std::min(rest.find_first_not_of("0123456789."), rest.size());
        const auto number = base::read_rational(rest.substr(0, end));
        if (!number || bare) throw wrong();
        rest = base::trimmed(rest.substr(end));
        const std::size_t letters = std::min(rest.find_first_of("0123456789. \t"), rest.size());
        const std::string unit = base::lowered(rest.substr(0, letters));
        rest = base::trimmed(rest.substr(letters));
        if (unit == "h")
            minutes = minutes + *number * base::Rational(60);
        else if (unit == "m" || unit == "min" || unit.empty())
            minutes = minutes + *number;
        else
            throw wrong();
        bare = unit.empty();
    }
    return minutes;
}

layout::Effort read_effort(const std::string& text) {
    if (text == "quick") return layout::Effort::quick;
    if (text == "thorough") return layout::Effort::thorough;
    return layout::Effort::normal;
}

} // namespace barrow::cli
