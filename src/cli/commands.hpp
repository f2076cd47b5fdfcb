#pragma once

#include "cli/command.hpp"
#include "cli/shell.hpp"

namespace barrow::cli {

/// The whole program: its options and all commands. Values go into `shell` and into what the
/// commands keep; both must live until the command is done.
void describe(Command& program, Shell& shell);

/// Each adds its commands. The files are named by the subject they share with the layers below.
void add_bench_commands(Command& app, Shell& shell);     ///< cost, plan, make
void add_batch_commands(Command& app, Shell& shell);     ///< batch plan, cut, finish, abandon
void add_design_commands(Command& app, Shell& shell);    ///< design
void add_calculate_command(Command& app, Shell& shell);  ///< calculate
void add_layout_command(Command& app, Shell& shell);     ///< layout
void add_stock_commands(Command& app, Shell& shell);     ///< receive, stock, value
void add_leaving_commands(Command& app, Shell& shell);   ///< lots, return, write-off
void add_offcut_commands(Command& app, Shell& shell);    ///< offcut list, fits, split, found
void add_stocktake_commands(Command& app, Shell& shell); ///< stocktake start, enter, show, post
void add_catalogue_commands(Command& app, Shell& shell); ///< supplier, material
void add_buying_commands(Command& app, Shell& shell);    ///< reorder
void add_order_commands(Command& app, Shell& shell);     ///< order list, show, place, end
void add_journal_commands(Command& app, Shell& shell);   ///< journal list, sell, give, ...
void add_fair_commands(Command& app, Shell& shell);      ///< fair list, show, new, take, sell, pay
void add_book_commands(Command& app, Shell& shell);      ///< log, reverse
void add_history_commands(Command& app, Shell& shell);   ///< history
void add_report_commands(Command& app, Shell& shell);    ///< report
void add_export_commands(Command& app, Shell& shell);    ///< export
void add_shop_commands(Command& app, Shell& shell);      ///< init, settings, check, backup, restore
void add_open_command(Command& app, Shell& shell);       ///< open
void add_help_commands(Command& app, Shell& shell);      ///< manual, completions
/// An example for each of the commands added so far.
void add_examples(Command& program);

} // namespace barrow::cli
