#pragma once

#include "cli/command.hpp"

#include <string>
#include <vector>

namespace barrow::cli {

/// What a command line asks for.
struct Asked {
    const Command* command = nullptr; ///< the last command named; the program itself when none is
    bool help = false;                ///< --help was among the words
};

/// Reads the words of a command line: finds the command, and writes each value where its option
/// says. Options of the program may stand before or after the command. Throws base::Error
/// (Kind::usage) with what would be right: the nearest command or option, two dashes for one.
Asked parse(const Command& program, const std::vector<std::string>& words);

} // namespace barrow::cli
