#include "book/shop.hpp"

#include "cli/commands.hpp"
#include "cli/help.hpp"

#include <catch2/catch.hpp>

#include <cstdio>
#include <fstream>
#include <memory>
#include <regex>
#include <set>
#include <sstream>

using namespace barrow::test;
using Catch::Matchers::Contains;

namespace {

/// What a command of the shell prints; empty when it fails.
std::string printed_by(const std::string& command) {
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    std::string text;
    for (int c = std::fgetc(pipe.get()); c != EOF; c = std::fgetc(pipe.get()))
        text += static_cast<char>(c);
    return text;
}

/// A text as it stands in the manual.
std::string in_roff(const std::string& text) {
    return std::regex_replace(text, std::regex("-"), "\\-");
}

/// The words that bash offers for the last of `words`.
std::string offered(const Shop& shop, const std::string& words, int last) {
    return printed_by("bash -c 'source \"" + (shop.folder() / "barrow.bash").string()
                      + "\"; COMP_WORDS=(barrow " + words + "); COMP_CWORD=" + std::to_string(last)
                      + "; _barrow barrow \"${COMP_WORDS[COMP_CWORD]}\"; "
                        "echo \"${COMPREPLY[*]}\"'");
}

} // namespace

TEST_CASE("the manual and the completions know every command and every option", "[pages]") {
    Shop shop;
    const std::string man = shop.done("manual");
    const std::string bash = shop.done("completions bash");
    const std::string zsh = shop.done("completions zsh");
    const std::string fish = shop.done("completions fish");
    std::ostringstream out;
    std::istringstream in;
    barrow::cli::World world{out, out, in, {}, "2027-03-06T09:30:00Z"};
    barrow::cli::Shell shell(world);
    barrow::cli::Command program;
    barrow::cli::describe(program, shell);
    int seen = 0;
    barrow::cli::for_each_command(program, [&](const barrow::cli::Command& command) {
        const std::string path = command.path();
        INFO(path);
        const std::string section = "\n.SS barrow " + in_roff(path) + "\n";
        const bool group = !command.commands.empty();
        if (!group) CHECK_THAT(man, Contains(section));
        // Its own part of the manual, and its line in the completions.
        std::string part = man.substr(std::min(man.find(section), man.size()));
        part = group ? man : part.substr(0, part.find("\n.SS ", 1));
        const std::string spot = "    '" + (path.empty() ? "" : " " + path) + "') next='";
        for (const std::string* page : {&bash, &zsh}) {
            const std::size_t at = page->find(spot);
            REQUIRE(at != std::string::npos);
            const std::string next = page->substr(at, page->find('\n', at) - at);
            for (const auto& option : command.options)
                for (const std::string& name : option.names) CHECK_THAT(next, Contains(name));
            for (const auto& below : command.commands) CHECK_THAT(next, Contains(below.name));
        }
        for (const auto& option : command.options) {
            INFO(option.main_name());
            ++seen;
            CHECK_THAT(part, Contains("\n.B " + in_roff(barrow::cli::written(option)) + "\n"));
            if (option.names.empty()) continue;
            CHECK_THAT(fish, Contains(" -l " + option.main_name().substr(2) + " "));
        }
        if (!path.empty()) CHECK_THAT(fish, Contains(" -a " + command.name + " "));
    });
    CHECK(seen > 200);
}

TEST_CASE("the shells and man take what is made for them", "[pages]") {
    Shop shop;
    const auto accepted = [&](const std::string& tool, const std::string& check,
                              const std::string& made) {
        INFO(check);
        if (printed_by("command -v " + tool).empty()) return; // it need not be installed
        const auto file = shop.folder() / "page";
        std::ofstream(file) << shop.done(made);
        // Whatever they have to complain of, and the mark of success.
        CHECK(printed_by(check + " " + file.string() + " 2>&1 >/dev/null && echo fine")
              == "fine\n");
    };
    accepted("bash", "bash -n", "completions bash");
    accepted("zsh", "zsh -n", "completions zsh");
    accepted("fish", "fish --no-execute", "completions fish");
    accepted("groff", "groff -man -ww -Tutf8", "manual");
}

TEST_CASE("bash completes commands, options and the words an option takes", "[pages]") {
    Shop shop;
    std::ofstream(shop.folder() / "barrow.bash") << shop.done("completions bash");
    CHECK(offered(shop, "fair ta", 2) == "take\n");
    CHECK(offered(shop, "batch pl", 2) == "plan\n");
    CHECK(offered(shop, "completions f", 2) == "fish\n");
    CHECK(offered(shop, "cost quayside --fi", 3) == "--fillers-from-box\n");
    CHECK(offered(shop, "cost --js", 2) == "--json\n");
    CHECK(offered(shop, "nowhere", 1) == "\n");
}

TEST_CASE("the manual is a page that man can set", "[pages]") {
    Shop shop;
    const std::string manual = shop.done("manual");
    CHECK(manual.rfind(".TH BARROW 1 ", 0) == 0);
    for (const char* section : {".SH NAME", ".SH SYNOPSIS", ".SH COMMANDS", ".SH NOTES"})
        CHECK(manual.find(section) != std::string::npos);
    // Requests of man(7) and nothing else may begin a line with a dot (groff, man(7)).
    const std::set<std::string> known = {".TH", ".SH", ".SS", ".TP", ".B", ".PP", ".nf", ".fi"};
    std::istringstream lines(manual);
    for (std::string line; std::getline(lines, line);) {
        if (line.empty() || line[0] != '.') continue;
        INFO(line);
        CHECK(known.count(line.substr(0, line.find(' '))) == 1);
    }
}
