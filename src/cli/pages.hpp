#pragma once

#include "cli/command.hpp"

#include <string>

namespace barrow::cli {

/// The manual as a man page (roff, for man.7), of a program and all its commands.
std::string manual(const Command& program, const std::string& version);

/// Completions for a shell: "bash", "zsh" or "fish"; commands, options and the words options take.
std::string completions(const Command& program, const std::string& shell);

} // namespace barrow::cli
