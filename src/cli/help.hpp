#pragma once

#include "cli/command.hpp"

#include <string>

namespace barrow::cli {

/// What --help shows of a command: how it is written, its commands, arguments and options,
/// examples. Lines are at most 80 columns wide where the words allow it.
std::string help_text(const Command& command);

/// "-m, --make NUMBER", or "DESIGN..." for an argument of which several may be given.
std::string written(const Option& option);

/// What it does and what it takes: "How many journals (required; 1 to 10000)".
std::string explained(const Option& option);

} // namespace barrow::cli
