#include "cli/commands.hpp"

#include "cli/options.hpp"
#include "print/buying/needs.hpp"
#include "print/buying/orders.hpp"
#include "workshop/buying/buying.hpp"
#include "workshop/buying/orders.hpp"

#include <memory>

namespace barrow::cli {

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
                                    "Keep it as ordered, an order for each supplier");
    // Without --place nothing is kept anyway.
    command->add_flag("-n,--dry-run", shell.dry_run, "Only say what would be kept")->needs(place);
    command->callback([&shell, given] {
        shell.action = [&shell, given] {
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
