#include "cli/commands.hpp"

namespace barrow::cli {
namespace {

constexpr const char* notes =
    "The shop is the file named by --shop, else by $BARROW_SHOP, else paperbarrow/shop.db\n"
    "in the data folder ($XDG_DATA_HOME, else ~/.local/share).\n"
    "With BARROW_TODAY=2027-03-06 in the environment, every command takes that day for\n"
    "today, and books with it: for trying things out.\n\n"
    "How things are counted: barrow help cost-order, offcut-value, margin-and-markup,\n"
    "joins, units, dates.\n\n"
    "Exit codes: 0 done, 1 refused, 2 wrong use of the command line, 3 bad input data,\n"
    "4 the shop file is damaged, locked or from a newer version, 5 the machine failed.";

void add_program_options(Command& program, Shell& shell) {
    program.add_option("--shop", shell.shop_option, "The shop file")->type_name("FILE");
    program.add_flag("--json", shell.json, "Print one JSON document instead of text");
    program.add_flag("--version", shell.version, "Show which version this is");
    program.footer(notes);
    for (const char* line :
         {"barrow init --currency GBP                     a new shop",
          "barrow material import papers.csv              what you buy",
          "barrow receive --from receipts.csv             what has come",
          "barrow design bring quayside.toml              what you make",
          "barrow cost quayside --make 12                 what it takes, costs, should sell for",
          "barrow plan quayside --make 12                 how to cut it",
          "barrow make quayside --make 12                 book it as made",
          "barrow reorder quayside=20 --by 2027-05-01     what to buy before the fair"})
        program.example(line);
}

} // namespace

void describe(Command& program, Shell& shell) {
    program.name = "barrow";
    program.about = "Materials, cut plans, costs and prices for someone who makes paper journals";
    add_program_options(program, shell);
    add_bench_commands(program, shell);
    add_batch_commands(program, shell);
    add_buying_commands(program, shell);
    add_order_commands(program, shell);
    add_stock_commands(program, shell);
    add_offcut_commands(program, shell);
    add_leaving_commands(program, shell);
    add_stocktake_commands(program, shell);
    add_journal_commands(program, shell);
    add_fair_commands(program, shell);
    add_history_commands(program, shell);
    add_report_commands(program, shell);
    add_export_commands(program, shell);
    add_design_commands(program, shell);
    add_calculate_command(program, shell);
    add_catalogue_commands(program, shell);
    add_book_commands(program, shell);
    add_shop_commands(program, shell);
    add_layout_command(program, shell);
    add_open_command(program, shell);
    add_help_commands(program, shell);
    add_examples(program);
}

} // namespace barrow::cli
