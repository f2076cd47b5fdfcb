#include "cli/commands.hpp"

#include "base/error.hpp"
#include "cli/options.hpp"
#include "cli/views.hpp"
#include "print/stock/lots.hpp"
#include "reading/rows.hpp"
#include "workshop/buying/delivery.hpp"
#include "workshop/stock/stockroom.hpp"

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
        {"order", "Number of the order it came for; alone: all that is outstanding of it"},
        {"supplier", "Code of the supplier (else the material's own)"},
        {"width", "Sheet of another size than usual: its width"},
        {"height", "Sheet of another size than usual: its height"},
        {"length", "Roll of another length than usual"},
        {"loops", "Strip of another number of loops than usual"},
        {"freight", "Freight to be shared over the delivery"},
        {"tax", "Tax that is not got back, to be shared likewise"},
        {"note", "Anything worth knowing"}};
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

void add_receive(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("receive", "Book what has come from a supplier");
    const auto given = std::make_shared<Receiving>();
    command->add_option("material", given->material, "Code of the material");
    command->add_option("--from", given->from, "A CSV file of receipts; - for standard input")
        ->type_name("FILE");
    command->add_option("--share-by", given->share_by, "Share freight and tax by value or quantity")
        ->one_of({"value", "quantity"});
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be booked");
    const auto options =
        std::make_shared<RowOptions>(*command, workshop::receipt_fields(), receipt_help());
    command->callback([&shell, given, options] {
        shell.action = [&shell, given, options] {
            const auto rows = receipt_rows(shell, *given, *options);
            store::Database database = shell.open();
            workshop::Context context = shell.context(database);
            const auto received = workshop::receive(
                context, rows,
                given->share_by == "value" ? costing::ShareBy::value : costing::ShareBy::quantity);
            shell.say(print::screen(received, workshop::read_settings(database)));
        };
    });
}

} // namespace

void add_stock_commands(Command& app, Shell& shell) {
    add_receive(app, shell);
    add_view(
        app, shell, "stock", "What is on the shelf and in the offcut box",
        [](store::Database& database, const base::Date&) { return workshop::stock(database); });
    add_view(app, shell, "value", "Where all the money that came in now is",
             [](store::Database& database, const base::Date&) {
                 return workshop::shop_value(database);
             });
}

} // namespace barrow::cli
