#include "cli/commands.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "cli/options.hpp"
#include "cli/tables.hpp"
#include "print/buying/needs.hpp"
#include "print/buying/orders.hpp"
#include "reading/rows.hpp"
#include "workshop/buying/buying.hpp"
#include "workshop/buying/orders.hpp"

#include <fmt/format.h>

#include <memory>

namespace barrow::cli {
namespace {

void add_order_list(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("list", "Orders of which something is still to come");
    const auto all = std::make_shared<bool>(false);
    const auto table = std::make_shared<TableOptions>();
    command->add_flag("--all", *all, "Also orders received, ended and reversed");
    table->add_to(*command);
    command->callback([&shell, all, table] {
        store::Database database = shell.open();
        show_table(shell, *table, workshop::orders(database, shell.today(), *all));
    });
}

void add_order_show(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("show", "One order: what was ordered, what has come");
    const auto number = std::make_shared<std::int64_t>();
    const auto table = std::make_shared<TableOptions>();
    command->add_option("order", *number, "Its number")->required();
    table->add_to(*command);
    command->callback([&shell, number, table] {
        store::Database database = shell.open();
        const auto found = workshop::order_numbered(database, *number, shell.today());
        if (table->csv) return show_table(shell, *table, found);
        const workshop::OrderView& one = found.orders.front();
        shell.show([&] { return print::screen(one, found.settings); },
                   [&] { return print::order_document(one, found.settings); });
    });
}

/// "SM-REED=20", "GLUE=250ml", "ENV=2packs", and its price of a pack from "SM-REED=4.20".
std::vector<workshop::Row> order_rows(const std::vector<std::string>& wanted,
                                      const std::vector<std::string>& prices) {
    auto priced = read_changes(prices, "--price");
    std::vector<workshop::Row> rows;
    for (const std::string& text : wanted) {
        const auto [code, much] =
            halves(text, "", "write the material and how much: SM-REED=20, or SM-REED=2packs");
        workshop::Row row;
        row.where = code;
        row.fields["material"] = row.where;
        std::string amount(base::trimmed(much));
        const char* field = "units";
        for (const std::string word : {"packs", "pack"}) {
            if (amount.size() <= word.size()
                || amount.compare(amount.size() - word.size(), word.size(), word) != 0)
                continue;
            amount.resize(amount.size() - word.size());
            field = "packs";
            break;
        }
        row.fields[field] = amount;
        const auto price = priced.find(row.where);
        if (price != priced.end()) {
            row.fields["price"] = price->second;
            priced.erase(price);
        }
        rows.push_back(std::move(row));
    }
    if (!priced.empty())
        throw base::Error(
            base::Kind::usage,
            fmt::format("--price is given for {}, which is not ordered", priced.begin()->first),
            "write the code as in the order");
    return rows;
}

void add_order_place(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("place", "Book what you ordered from a supplier");
    struct Placing {
        std::string supplier, from, date, expected;
        std::vector<std::string> wanted, prices;
    };
    const auto given = std::make_shared<Placing>();
    command->add_option("supplier", given->supplier, "Code of the supplier")->required();
    command
        ->add_option("wanted", given->wanted,
                     "Materials and how much: SM-REED=20 ENV=2packs GLUE=250ml")
        ->type_name("CODE=AMOUNT");
    command
        ->add_option(
            "--from", given->from,
            "A CSV file of what is wanted (material, units or packs, cost or price); - for "
            "standard input")
        ->type_name("FILE");
    command->add_option("--price", given->prices, "Agreed price of a pack, if not the usual one")
        ->type_name("CODE=PRICE")
        ->repeats();
    add_date(*command, given->date, "Day it was placed (else today)");
    command->add_option("--expected", given->expected,
                        "Day it should come (else by the supplier's days to come)");
    add_note(*command, shell);
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        workshop::WantedOrder wanted;
        wanted.supplier = given->supplier;
        if (given->from.empty() == given->wanted.empty())
            throw base::Error(base::Kind::usage, "it is not clear what is ordered",
                              "name materials (SM-REED=20), or a CSV file with --from");
        wanted.rows = given->from.empty()
                          ? order_rows(given->wanted, given->prices)
                          : reading::rows_of(reading::read_csv(
                              shell.read_file(given->from), given->from, workshop::order_fields()));
        if (!given->from.empty() && !given->prices.empty())
            throw base::Error(base::Kind::usage,
                              "--from takes prices from the file; leave --price out");
        if (!given->date.empty()) wanted.placed = base::read_date(given->date, "--date");
        if (!given->expected.empty())
            wanted.expected = base::read_date(given->expected, "--expected");
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto placed = workshop::place_order(context, wanted);
        shell.say(print::screen(placed, workshop::read_settings(database)));
    });
}

void add_order_end(Command& group, Shell& shell) {
    auto* command =
        group.add_subcommand("end", "End an order: what is still to come will not come");
    const auto number = std::make_shared<std::int64_t>(0);
    command->add_option("order", *number, "Its number")->required();
    add_note(*command, shell, "Why");
    add_dry_run(*command, shell);
    command->callback([&shell, number] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto ended = workshop::end_order(context, *number);
        shell.say(print::screen(ended, workshop::read_settings(database)));
    });
}

/// What has no supplier cannot be ordered. Refused when that leaves no order at all.
void say_not_ordered(const Shell& shell, const workshop::ReorderPlaced& placed) {
    std::vector<std::string> codes;
    for (const auto& order : placed.reorder.orders)
        if (order.supplier.empty())
            for (const auto& line : order.lines) codes.push_back(line.supply.material);
    if (codes.empty()) return;
    const std::string what =
        fmt::format("not ordered, as it has no supplier: {}", fmt::join(codes, ", "));
    const std::string hint =
        fmt::format("name one: barrow material change {} --supplier CODE", codes.front());
    if (placed.placed.orders.empty()) throw base::refused(what, hint);
    shell.remark(fmt::format("Note: {} ({}).\n", what, hint));
}

} // namespace

void add_buying_commands(Command& app, Shell& shell) {
    auto* command =
        app.add_subcommand("reorder", "What to buy so that journals can be there in time");
    struct Given {
        std::vector<std::string> wanted;
        std::string by;
        bool place = false;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("wanted", given->wanted, "Designs with numbers: quayside=20 fernbook=12")
        ->type_name("DESIGN=NUMBER");
    command->add_option("--by", given->by, "The day they are wanted (else today)")
        ->type_name("DATE");
    auto* place = command->add_flag("--place", given->place,
                                    "Book it as ordered, one order for each supplier");
    // Without --place nothing is kept anyway.
    add_dry_run(*command, shell)->needs(place);
    command->callback([&shell, given] {
        std::vector<workshop::WantedRun> wanted;
        for (const std::string& text : given->wanted) {
            const auto [design, journals] =
                read_numbered(text, "write the design and how many: quayside=20");
            wanted.push_back({design, journals, {}});
        }
        const base::Date by =
            given->by.empty() ? shell.today() : base::read_date(given->by, "--by");
        store::Database database = shell.open();
        if (given->place) {
            workshop::Context context = shell.context(database);
            const auto placed = workshop::place_reorder(context, wanted, by);
            shell.say(print::screen(placed));
            say_not_ordered(shell, placed);
            return;
        }
        const auto reorder = workshop::reorder(database, wanted, by, shell.today());
        shell.show([&] { return print::screen(reorder); },
                   [&] { return print::document(reorder); });
    });
}

void add_order_commands(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("order", "What is on order from suppliers");
    add_order_list(*group, shell);
    add_order_show(*group, shell);
    add_order_place(*group, shell);
    add_order_end(*group, shell);
}

} // namespace barrow::cli
