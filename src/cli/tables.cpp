#include "cli/tables.hpp"

namespace barrow::cli {

void TableOptions::add_to(Command& command) {
    command.add_flag("--csv", csv, "Print CSV instead of text, for a spreadsheet");
}

} // namespace barrow::cli
