#include "cli/run.hpp"

#include <array>
#include <csignal>
#include <ctime>
#include <iostream>
#include <string>
#include <vector>

extern "C" int isatty(int file) noexcept; // POSIX
extern char** environ; // NOLINT(readability-redundant-declaration): POSIX names it, few headers do

namespace {

std::map<std::string, std::string> environment() {
    std::map<std::string, std::string> variables;
    for (char** at = environ; at != nullptr && *at != nullptr; ++at) {
        const std::string text = *at;
        const std::size_t equals = text.find('=');
        if (equals != std::string::npos)
            variables[text.substr(0, equals)] = text.substr(equals + 1);
    }
    return variables;
}

std::string now_utc() {
    const std::time_t now = std::time(nullptr);
    std::tm parts{};
    gmtime_r(&now, &parts);
    std::array<char, 32> text{};
    std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &parts);
    return text.data();
}

} // namespace

int main(int count, char** words) {
    // A reader that stops reading (head, less) is no failure of ours: writing then just ends.
    std::signal(SIGPIPE, SIG_DFL);
    barrow::cli::World world{std::cout,     std::cerr, std::cin,
                             environment(), now_utc(), isatty(0) != 0 && isatty(1) != 0};
    return barrow::cli::run(std::vector<std::string>(words + 1, words + count), world);
}
