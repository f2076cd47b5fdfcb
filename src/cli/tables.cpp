#include "cli/tables.hpp"

#include <CLI/CLI.hpp>

namespace barrow::cli {

void TableOptions::add_to(CLI::App& command) {
    command.add_flag("--csv", csv, "Print CSV instead of text, for a spreadsheet");
}

} // namespace barrow::cli
