#pragma once

#include "cli/shell.hpp"

namespace CLI {
class App;
}

namespace barrow::cli {

/// Each adds its commands to the parser; a command that is given sets shell.action.
void add_shop_commands(CLI::App& app, Shell& shell); ///< init, settings, check, backup, restore
void add_catalogue_commands(CLI::App& app, Shell& shell); ///< supplier, material
void add_stock_commands(CLI::App& app, Shell& shell);     ///< receive, stock, value
void add_book_commands(CLI::App& app, Shell& shell);      ///< log, reverse
void add_design_commands(CLI::App& app, Shell& shell);    ///< design
void add_calculate_command(CLI::App& app, Shell& shell);  ///< calculate
void add_bench_commands(CLI::App& app, Shell& shell);     ///< cost, plan, make
void add_buying_commands(CLI::App& app, Shell& shell);    ///< reorder
void add_order_commands(CLI::App& app, Shell& shell);     ///< order list, show, place, end
void add_batch_commands(CLI::App& app, Shell& shell);     ///< batch plan, cut, finish, abandon
void add_offcut_commands(CLI::App& app, Shell& shell);    ///< offcut list, fits, split, found
void add_leaving_commands(CLI::App& app, Shell& shell);   ///< lots, return, write-off
void add_stocktake_commands(CLI::App& app, Shell& shell); ///< stocktake start, enter, show, post
void add_journal_commands(CLI::App& app, Shell& shell);   ///< journal list, sell, give, ...
void add_fair_commands(CLI::App& app, Shell& shell);      ///< fair list, show, new, take, sell, pay
void add_history_commands(CLI::App& app, Shell& shell);   ///< history
void add_report_commands(CLI::App& app, Shell& shell);    ///< report
void add_export_commands(CLI::App& app, Shell& shell);    ///< export
void add_layout_command(CLI::App& app, Shell& shell);     ///< layout

} // namespace barrow::cli
