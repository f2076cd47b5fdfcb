// Catch2's main, in the locale of the environment: the program sets none itself, and what it reads
// and writes must not depend on one that a library sets. tests/run names one with a decimal comma.
#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>

#include <clocale>
#include <cstdio>
#include <locale>

int main(int count, char** words) {
    if (std::setlocale(LC_ALL, "") == nullptr) {
        std::fputs("The locale of the environment is not there: see LC_ALL, LANG and LOCPATH.\n",
                   stderr);
        return 2;
    }
    std::locale::global(std::locale("")); // C++ streams, with its decimal comma and grouping
    return Catch::Session().run(count, words);
}
