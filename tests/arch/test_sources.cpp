#include "arch/source_files.hpp"

#include <catch2/catch.hpp>

using namespace barrow::test;

namespace {

constexpr long most_lines = 450;

long lines_in(const std::string& text) {
    return static_cast<long>(std::count(text.begin(), text.end(), '\n'));
}

bool holds_word(const std::string& text, const std::string& word) {
    return text.find(word) != std::string::npos;
}

} // namespace

TEST_CASE("no source file is longer than 450 lines", "[arch]") {
    for (const char* folder : {"src", "tests"})
        for (const SourceFile& file : source_files(folder)) {
            INFO(folder << "/" << file.path);
            CHECK(lines_in(file.text) <= most_lines);
        }
}

TEST_CASE("every header is read only once", "[arch]") {
    for (const SourceFile& file : source_files("src")) {
        if (file.path.substr(file.path.size() - 4) != ".hpp") continue;
        INFO(file.path);
        CHECK(file.text.rfind("#pragma once\n", 0) == 0);
    }
}

TEST_CASE("nothing is left for later in the sources", "[arch]") {
    // Put together here, so that this file does not find itself.
    const std::string later = std::string("TO") + "DO";
    const std::string mend = std::string("FIX") + "ME";
    for (const char* folder : {"src", "tests"})
        for (const SourceFile& file : source_files(folder)) {
            INFO(folder << "/" << file.path);
            CHECK_FALSE(holds_word(file.text, later));
            CHECK_FALSE(holds_word(file.text, mend));
        }
}

TEST_CASE("what is counted or paid is never a floating-point number", "[arch]") {
    // Only the drawing (pixels), the reading of JSON and the engine's bounds may use them; the
    // layers that hold amounts may not.
    for (const SourceFile& file : source_files("src")) {
        const std::string folder = file.path.substr(0, file.path.find('/'));
        if (folder != "base" && folder != "design" && folder != "costing" && folder != "supply"
            && folder != "store" && folder != "workshop")
            continue;
        INFO(file.path);
        std::string text;
        bool comment = false;
        for (std::size_t i = 0; i < file.text.size(); ++i) { // without // comments and texts
            if (file.text.compare(i, 2, "//") == 0) comment = true;
            if (file.text[i] == '\n') comment = false;
            if (!comment) text += file.text[i];
        }
        for (const char* word : {"double ", "float ", "<double>", "<float>", "strtod", "stod("})
            CHECK_FALSE(holds_word(text, word));
    }
}
