#pragma once

#include "cli/shell.hpp"

namespace CLI {
class App;
}

namespace barrow::cli {

/// Each adds its commands to the parser; a command that is given sets shell.action.
void add_shop_commands(CLI::App& app, Shell& shell);      ///< init, settings, check, backup, restore
void add_catalogue_commands(CLI::App& app, Shell& shell); ///< supplier, material
void add_stock_commands(CLI::App& app, Shell& shell);     ///< receive, stock, offcuts, value
void add_book_commands(CLI::App& app, Shell& shell);      ///< log, reverse
void add_design_commands(CLI::App& app, Shell& shell);    ///< design
void add_bench_commands(CLI::App& app, Shell& shell);     ///< cost, plan, make, journals
void add_buying_commands(CLI::App& app, Shell& shell);    ///< reorder
void add_layout_command(CLI::App& app, Shell& shell);     ///< layout

} // namespace barrow::cli
