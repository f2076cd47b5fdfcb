#include "cli/commands.hpp"

#include "base/error.hpp"
#include "base/rational.hpp"
#include "cli/options.hpp"
#include "print/json_documents.hpp"
#include "print/order_screens.hpp"
#include "print/screens.hpp"
#include "workshop/buying.hpp"
#include "workshop/orders.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <memory>

namespace barrow::cli {
namespace {

/// "quayside=20": twenty journals of that design.
workshop::WantedRun read_wanted(const std::string& text) {
    const std::size_t equals = text.find('=');
    const auto number = equals == std::string::npos ? std::optional(base::Rational(1))
                                                    : base::read_rational(text.substr(equals + 1));
    if (!number || !number->is_whole() || *number < base::Rational(1)
        || *number > base::Rational(10'000))
        throw base::Error(base::Kind::usage, fmt::format("\"{}\" is not understood", text),
                          "write the design and how many: quayside=20");
    return {text.substr(0, equals), number->number(), {}};
}

} // namespace

void add_buying_commands(CLI::App& app, Shell& shell) {
    auto* command =
        app.add_subcommand("reorder", "What to buy so that journals can be there in time");
    struct Given {
        std::vector<std::string> wanted;
        std::string by;
        bool place = false;
        bool dry_run = false;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("wanted", given->wanted, "Designs with numbers: quayside=20 fernbook=12")
        ->type_name("DESIGN=NUMBER");
    command->add_option("--by", given->by, "The day they are wanted (else today)")
        ->type_name("DATE");
    auto* place = command->add_flag("--place", given->place,
                                    "Keep it as ordered, an order for each supplier");
    // Without --place nothing is kept anyway.
    command->add_flag("-n,--dry-run", given->dry_run, "Only say what would be kept")->needs(place);
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
            std::vector<workshop::WantedRun> wanted;
            for (const std::string& text : given->wanted) wanted.push_back(read_wanted(text));
            const base::Date by =
                given->by.empty() ? shell.today() : base::read_date(given->by, "--by");
            store::Database database = shell.open();
            if (given->place) {
                workshop::Context context = shell.context(database, given->dry_run);
                shell.say(print::screen(workshop::place_reorder(context, wanted, by)));
                return;
            }
            const auto reorder = workshop::reorder(database, wanted, by, shell.today());
            shell.show([&] { return print::screen(reorder); },
                       [&] { return print::document(reorder); });
        };
    });
}

} // namespace barrow::cli
