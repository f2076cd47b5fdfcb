#include "book/shop.hpp"

#include <catch2/catch.hpp>

#include <cstdio>
#include <fstream>
#include <memory>
#include <regex>
#include <set>
#include <sstream>

using namespace barrow::test;

namespace {

/// What a command of the shell prints; empty when it fails.
std::string printed_by(const std::string& command) {
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    std::string text;
    for (int c = std::fgetc(pipe.get()); c != EOF; c = std::fgetc(pipe.get()))
        text += static_cast<char>(c);
    return text;
}

/// The words that bash offers for the last of `words`.
std::string offered(const Shop& shop, const std::string& words, int last) {
    return printed_by("bash -c 'source \"" + (shop.folder() / "barrow.bash").string()
                      + "\"; COMP_WORDS=(barrow " + words + "); COMP_CWORD=" + std::to_string(last)
                      + "; _barrow barrow \"${COMP_WORDS[COMP_CWORD]}\"; "
                        "echo \"${COMPREPLY[*]}\"'");
}

} // namespace

TEST_CASE("the manual and the completions know every command and option the help knows",
          "[pages]") {
    Shop shop;
    const std::string manual = shop.done("manual");
    std::vector<std::string> pages = {manual};
    for (const char* shell : {"bash", "zsh", "fish"})
        pages.push_back(shop.done(std::string("completions ") + shell));
    const std::regex option("--[a-z][a-z-]+");
    std::set<std::string> names;
    for (const char* command :
         {"", "cost", "make", "batch plan", "batch cut", "receive", "material add", "fair sell",
          "journal apart", "offcut yields", "report slow", "export stock", "layout", "settings"}) {
        const std::string help = shop.done(std::string(command) + " --help");
        for (std::sregex_iterator found(help.begin(), help.end(), option), end; found != end;
             ++found)
            names.insert(found->str());
        if (*command == '\0') continue;
        INFO(command);
        CHECK(manual.find("\n.SS barrow " + std::string(command) + "\n") != std::string::npos);
    }
    CHECK(names.size() > 40);
    for (std::string name : names) {
        INFO(name);
        for (const std::string& page : pages) {
            const std::string in_roff = std::regex_replace(name, std::regex("-"), "\\-");
            CHECK((page.find(name) != std::string::npos || page.find(in_roff) != std::string::npos
                   || page.find("-l " + name.substr(2)) != std::string::npos));
        }
    }
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
    for (const char* section : {".SH NAME", ".SH SYNOPSIS", ".SH COMMANDS", ".SH EXIT STATUS"})
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
