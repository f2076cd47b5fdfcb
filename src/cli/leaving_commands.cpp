#include "cli/commands.hpp"

#include "base/error.hpp"
#include "cli/views.hpp"
#include "print/stock/lots.hpp"
#include "print/text/words.hpp"
#include "workshop/stock/leaving.hpp"

#include <fmt/format.h>

#include <memory>

namespace barrow::cli {
namespace {

void add_lots(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("lots", "What is left of each receipt of a material");
    const auto code = std::make_shared<std::string>();
    command->add_option("material", *code, "Code of the material")->required();
    command->callback([&shell, code] {
        shell.action = [&shell, code] {
            store::Database database = shell.open();
            const auto lots = workshop::lots(database, *code);
            shell.show([&] { return print::screen(lots); }, [&] { return print::document(lots); });
        };
    });
}

struct Leaving {
    std::string code, units, offcut, note;
    std::int64_t lot = 0;
};

void say_left(const Shell& shell, store::Database& database, const workshop::Left& left,
              const char* what) {
    const auto settings = workshop::read_settings(database);
    shell.say(fmt::format("{}: {}{}, {} (entry {}).\n", left.what, shell.dry_run ? "would be " : "",
                          what, print::with_currency(left.value, settings.currency), left.posting));
}

void add_return(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("return", "Send units of a lot back to the supplier");
    const auto given = std::make_shared<Leaving>();
    command->add_option("lot", given->lot, "Its number (see: barrow lots CODE)")->required();
    command->add_option("--units", given->units, "How many; bulk: 40 ml")->required();
    command->add_option("--note", given->note, "Why");
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be booked");
    command->footer("What came for an order and is sent back is not on order again: place anew "
                    "what is to come again (barrow order place).");
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->note);
            const auto left = workshop::return_to_supplier(context, given->lot, given->units);
            say_left(shell, database, left, "sent back");
        };
    });
}

void add_write_off(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("write-off", "Book what is spoiled, lost or given away");
    const auto given = std::make_shared<Leaving>();
    command->add_option("material", given->code, "Code of the material");
    command->add_option("--units", given->units, "How many; bulk: 40 ml");
    command->add_option("--offcut", given->offcut, "Label of an offcut, instead of a material");
    command->add_option("--note", given->note, "Why")->required();
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be booked");
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            if (given->offcut.empty() == given->code.empty()
                || given->code.empty() != given->units.empty())
                throw base::Error(base::Kind::usage, "it is not clear what is written off",
                                  "name a material and --units, or an --offcut");
            store::Database database = shell.open();
            workshop::Context context = shell.context(database, given->note);
            const auto left = given->offcut.empty()
                                  ? workshop::write_off_material(context, given->code, given->units)
                                  : workshop::write_off_offcut(context, given->offcut);
            say_left(shell, database, left, "written off");
        };
    });
}

} // namespace

void add_leaving_commands(Command& app, Shell& shell) {
    add_lots(app, shell);
    add_return(app, shell);
    add_write_off(app, shell);
}

} // namespace barrow::cli
