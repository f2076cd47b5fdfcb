#include "cli/commands.hpp"

#include "base/error.hpp"
#include "cli/options.hpp"
#include "cli/views.hpp"
#include "print/stock/lots.hpp"
#include "print/stock/stocktake.hpp"
#include "print/text/words.hpp"
#include "reading/rows.hpp"
#include "workshop/buying/delivery.hpp"
#include "workshop/stock/leaving.hpp"
#include "workshop/stock/stockroom.hpp"
#include "workshop/stock/stocktake.hpp"

#include <fmt/format.h>

#include <memory>

namespace barrow::cli {
namespace {

const std::map<std::string, std::string>& receipt_help() {
    static const std::map<std::string, std::string> help = {
        {"date", "Day it came (else today)"},
        {"units", "How many sheets, rolls, strips, pieces; bulk: 250 ml"},
        {"packs", "How many packs, instead of units"},
        {"cost", "What all of it cost, without freight and tax; 0 for a free sample"},
        {"price", "What one pack cost, instead of cost"},
        {"order", "Number of the order it came for; given alone: everything still to come of it"},
        {"supplier", "Code of the supplier (else the material's own)"},
        {"width", "Sheet of another size than usual: its width"},
        {"height", "Sheet of another size than usual: its height"},
        {"length", "Roll of another length than usual"},
        {"loops", "Strip of another number of loops than usual"},
        {"freight", "Freight, to be shared over the delivery"},
        {"tax", "Tax you cannot reclaim, to be shared over the delivery"},
        {"note", "A note"}};
    return help;
}

struct Receiving {
    std::string material;
    std::string from;
    std::string share_by = "value";
};

std::vector<workshop::Row> receipt_rows(const Shell& shell, const Receiving& given,
                                        const RowOptions& options) {
    const workshop::Row row = options.row();
    const bool whole_order = given.material.empty() && row.fields.count("order") > 0;
    if (given.from.empty() == (given.material.empty() && !whole_order))
        throw base::Error(base::Kind::usage, "it is not clear what is received",
                          "name one material, an order with --order, or a CSV file with --from");
    if (given.from.empty()) {
        workshop::Row one = row;
        one.fields["material"] = given.material;
        return {one};
    }
    if (!row.fields.empty())
        throw base::Error(base::Kind::usage,
                          "--from takes everything from the file; leave the other options out");
    return reading::rows_of(
        reading::read_csv(shell.read_file(given.from), given.from, workshop::receipt_fields()));
}

/// Where the price of a pack was reckoned with, it is said that it is one.
void say_prices(const Shell& shell, const std::vector<workshop::Received>& received) {
    for (const workshop::Received& one : received)
        if (!one.reckoned.empty()) shell.say(one.reckoned + ".\n");
}

void add_receive(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("receive", "Book what has come from a supplier");
    const auto given = std::make_shared<Receiving>();
    command->add_option("material", given->material, "Code of the material");
    command->add_option("--from", given->from, "A CSV file of receipts; - for standard input")
        ->type_name("FILE");
    command->add_option("--share-by", given->share_by, "Share freight and tax by value or quantity")
        ->one_of({"value", "quantity"});
    add_dry_run(*command, shell);
    const auto options =
        std::make_shared<RowOptions>(*command, workshop::receipt_fields(), receipt_help());
    command->callback([&shell, given, options] {
        const auto rows = receipt_rows(shell, *given, *options);
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto received = workshop::receive(
            context, rows,
            given->share_by == "value" ? costing::ShareBy::value : costing::ShareBy::quantity);
        shell.say(print::screen(received, workshop::read_settings(database)));
        say_prices(shell, received);
    });
}

void add_lots(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("lots", "What is left of each receipt of a material");
    const auto code = std::make_shared<std::string>();
    command->add_option("material", *code, "Code of the material")->required();
    command->callback([&shell, code] {
        store::Database database = shell.open();
        const auto lots = workshop::lots(database, *code);
        shell.show([&] { return print::screen(lots); }, [&] { return print::document(lots); });
    });
}

struct Leaving {
    std::string code, units, offcut, refund;
    std::int64_t lot = 0;
};

void say_left(const Shell& shell, store::Database& database, const workshop::Left& left,
              const char* what) {
    const auto settings = workshop::read_settings(database);
    shell.say(fmt::format("{}: {}{}, {} (entry {}).\n", left.what, shell.dry_run ? "would be " : "",
                          what, print::with_currency(left.value, settings.currency), left.posting));
}

void say_refund(const Shell& shell, store::Database& database, const workshop::Left& left) {
    const auto currency = workshop::read_settings(database).currency;
    shell.say(
        fmt::format("The supplier pays {} back.\n", print::with_currency(left.refund, currency)));
    if (!left.lost.is_zero())
        shell.say(fmt::format("Lost with it, and written off: {}. If more is paid back, say so "
                              "with --refund.\n",
                              print::with_currency(left.lost, currency)));
    if (!left.beyond.is_zero())
        shell.say(fmt::format("That is {} more than it had cost, which no lot bears.\n",
                              print::with_currency(left.beyond, currency)));
}

void add_return(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("return", "Send units of a lot back to the supplier");
    const auto given = std::make_shared<Leaving>();
    command->add_option("lot", given->lot, "Its number (see: barrow lots CODE)")->required();
    command->add_option("--units", given->units, "How many; bulk: 40 ml")->required();
    command->add_option("--refund", given->refund,
                        "What the supplier pays back (else what the goods cost, without freight "
                        "and tax)");
    add_note(*command, shell, "Why");
    add_dry_run(*command, shell);
    command->footer(
        "What is sent back is not put on order again. If you still want it, place a new "
        "order (barrow order place).");
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto left =
            workshop::return_to_supplier(context, given->lot, given->units, given->refund);
        say_left(shell, database, left, "sent back");
        say_refund(shell, database, left);
    });
}

void add_write_off(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("write-off", "Book what is spoiled, lost or given away");
    const auto given = std::make_shared<Leaving>();
    command->add_option("material", given->code, "Code of the material");
    command->add_option("--units", given->units, "How many; bulk: 40 ml");
    command->add_option("--offcut", given->offcut, "Label of an offcut, instead of a material");
    add_note(*command, shell, "Why")->required();
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        if (given->offcut.empty() == given->code.empty()
            || given->code.empty() != given->units.empty())
            throw base::Error(base::Kind::usage, "it is not clear what is written off",
                              "name a material and --units, or an --offcut");
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto left = given->offcut.empty()
                              ? workshop::write_off_material(context, given->code, given->units)
                              : workshop::write_off_offcut(context, given->offcut);
        say_left(shell, database, left, "written off");
    });
}

void add_start(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("start", "Begin a stocktake");
    const auto place = std::make_shared<std::string>();
    command->add_option("--place", *place, "Only what is kept there");
    add_note(*command, shell, "A note");
    add_dry_run(*command, shell);
    command->callback([&shell, place] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto stocktake = workshop::start_stocktake(context, *place);
        if (shell.dry_run) {
            shell.say(fmt::format("Stocktake {} would be opened.\n", stocktake.number));
            return;
        }
        shell.say(fmt::format("Stocktake {} is open. Enter what is there with: "
                              "barrow stocktake enter CODE COUNTED\n",
                              stocktake.number));
    });
}

void add_enter(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("enter", "Enter what was counted");
    struct Given {
        std::string code, counted, from;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("code", given->code, "A material, or an offcut's label");
    command->add_option("counted", given->counted, "Units on the shelf (an offcut: 1 or 0)");
    command->add_option("--from", given->from, "A CSV file with the columns code, counted")
        ->type_name("FILE");
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        if (given->from.empty() == given->code.empty()
            || given->code.empty() != given->counted.empty())
            throw base::Error(base::Kind::usage, "it is not clear what was counted",
                              "write: barrow stocktake enter CODE COUNTED, or --from FILE");
        std::vector<workshop::Row> rows;
        if (given->from.empty()) {
            rows.push_back({{}, {}, {{"code", given->code}, {"counted", given->counted}}});
        } else {
            rows = reading::rows_of(reading::read_csv(shell.read_file(given->from), given->from,
                                                      workshop::count_fields()));
        }
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        shell.say(fmt::format("{} entered.\n", workshop::enter_counts(context, rows)));
    });
}

void add_stocktake_show(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("show", "What differs, and what is still to be counted");
    const auto number = std::make_shared<std::int64_t>(0);
    command->add_option("number", *number, "An earlier stocktake (else the open one)");
    command->callback([&shell, number] {
        store::Database database = shell.open();
        const auto sheet = workshop::count_sheet(database, *number);
        shell.show([&] { return print::screen(sheet); }, [&] { return print::document(sheet); });
    });
}

void add_post(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("post", "Book what differs from the count");
    add_note(*command, shell, "Why it differs");
    add_dry_run(*command, shell);
    command->callback([&shell] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto posted = workshop::post_stocktake(context);
        const auto settings = workshop::read_settings(database);
        shell.say(fmt::format("{} {}, {} written off (entry {}).\n", posted.corrected,
                              shell.dry_run ? "would be corrected" : "corrected",
                              print::with_currency(posted.missing, settings.currency),
                              posted.posting));
    });
}

void add_drop(Command& group, Shell& shell) {
    auto* command = group.add_subcommand("drop", "Close the open stocktake and correct nothing");
    add_dry_run(*command, shell);
    command->callback([&shell] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const std::int64_t number = workshop::drop_stocktake(context).number;
        shell.say(
            fmt::format("Stocktake {} {} dropped.\n", number, shell.dry_run ? "would be" : "is"));
    });
}

void add_buy(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("buy", "Book something bought, new to the shop or known");
    const auto given = std::make_shared<workshop::Purchase>();
    command->add_option("name", given->name, "What it is; the code of what the shop knows")
        ->required();
    const auto option = [&](const char* name, std::string& value, const char* help) {
        command->add_option(name, value, help);
    };
    option("--code", given->code, "Its code (else made of its name)");
    option("--sheet", given->sheet, "It comes in sheets of this size: \"8in x 8in\"");
    option("--reel", given->reel, "It comes on reels of this length: 25m");
    option("--strip", given->strip, "It is wire, in strips with this many loops: 34");
    option("--bottle", given->bottle, "It is poured: 250ml, 1kg");
    option("--size", given->size, "Sides of a thing that is counted: \"110mm x 155mm\"");
    option("--caliper", given->caliper, "How thick one is (an envelope: its paper): 0.42mm");
    option("--pitch", given->pitch, "Of wire: 2:1 is two loops an inch");
    option("--diameter", given->diameter, "Of wire or rings, across: 5/8in");
    option("--pack", given->pack, "How many are in a pack (else 1)");
    option("--packs", given->packs, "How many packs (else 1)");
    option("--paid", given->paid, "What all of it cost (else by the pack price that is known)");
    option("--supplier", given->supplier, "Code of the supplier");
    option("--date", given->date, "Day it came (else today)");
    option("--note", given->note, "Anything worth knowing");
    add_dry_run(*command, shell);
    command->callback([&shell, given] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        const auto bought = workshop::buy(context, *given);
        if (bought.is_new)
            shell.say(fmt::format("{} is a new material: {}.\n", bought.received.material,
                                  bought.received.material_name));
        shell.say(print::screen({bought.received}, workshop::read_settings(database)));
        say_prices(shell, {bought.received});
    });
}

} // namespace

void add_stock_commands(Command& app, Shell& shell) {
    add_buy(app, shell);
    add_receive(app, shell);
    add_view(
        app, shell, "stock", "What is on the shelf and in the offcut box",
        [](store::Database& database, const base::Date&) { return workshop::stock(database); });
    add_view(app, shell, "value", "Where all the money that came in now is",
             [](store::Database& database, const base::Date&) {
                 return workshop::shop_value(database);
             });
}

void add_leaving_commands(Command& app, Shell& shell) {
    add_lots(app, shell);
    add_return(app, shell);
    add_write_off(app, shell);
}

void add_stocktake_commands(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("stocktake", "Count what is there and correct the book");
    add_start(*group, shell);
    add_enter(*group, shell);
    add_stocktake_show(*group, shell);
    add_post(*group, shell);
    add_drop(*group, shell);
}

} // namespace barrow::cli
