#pragma once

#include "cli/shell.hpp"

#include <string>
#include <vector>

namespace barrow::cli {

/// The whole program without the process around it: parses the words, runs the command, prints
/// what it has to say and gives the exit code (README, "Exit codes").
int run(const std::vector<std::string>& words, World& world);

} // namespace barrow::cli
