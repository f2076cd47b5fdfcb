#include "cli/commands.hpp"

#include "page/serve/open.hpp"

#include <fmt/format.h>

#include <array>
#include <ctime>
#include <memory>
#include <ostream>

#include <spawn.h>

extern char** environ; // NOLINT(readability-redundant-declaration): POSIX names it, few headers do

namespace barrow::cli {
namespace {

/// The moment it is now. A page stays open for hours, so the moment the program began is not
/// enough.
std::string moment_utc() {
    const std::time_t now = std::time(nullptr);
    std::tm parts{};
    gmtime_r(&now, &parts);
    std::array<char, 32> text{};
    std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &parts);
    return text.data();
}

/// Opens the address in the browser of the desktop. Where there is none, the printed address does.
void show_in_browser(const std::string& address) {
    std::string program = "xdg-open";
    std::string argument = address;
    const std::array<char*, 3> words = {program.data(), argument.data(), nullptr};
    posix_spawn_file_actions_t quiet{};
    posix_spawn_file_actions_init(&quiet);
    posix_spawn_file_actions_addopen(&quiet, 1, "/dev/null", 1 /* O_WRONLY */, 0);
    posix_spawn_file_actions_addopen(&quiet, 2, "/dev/null", 1, 0);
    pid_t child = 0;
    posix_spawnp(&child, program.c_str(), &quiet, nullptr, words.data(), environ);
    posix_spawn_file_actions_destroy(&quiet);
}

} // namespace

void add_open_command(Command& app, Shell& shell) {
    auto* command = app.add_subcommand("open", "Open the workshop in the browser, on this machine");
    struct Given {
        std::int64_t port = 0;
        bool no_browser = false;
    };
    const auto given = std::make_shared<Given>();
    command->add_option("--port", given->port, "Port to listen on (else any that is free)")
        ->range(1, 65535);
    command->add_flag("--no-browser", given->no_browser, "Only print the address");
    command->callback([&shell, given] {
        page::World world{shell.shop_path(),
                          [&shell] {
                              return shell.world().environment.count("BARROW_TODAY") == 0
                                         ? base::read_date(moment_utc().substr(0, 10), "clock")
                                         : shell.today();
                          },
                          moment_utc};
        page::Opening opening;
        opening.port = static_cast<int>(given->port);
        opening.opened = [&](const std::string& address) {
            shell.world().out << address << '\n' << std::flush;
            shell.remark("The workshop is open at this address, for this machine only. "
                         "Ctrl-C closes it.\n");
            if (!given->no_browser) show_in_browser(address);
        };
        page::open(std::move(world), opening);
    });
}

} // namespace barrow::cli
