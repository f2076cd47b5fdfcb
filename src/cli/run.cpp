#include "cli/run.hpp"

#include "base/error.hpp"
#include "cli/commands.hpp"
#include "cli/help.hpp"
#include "cli/parser.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <new>
#include <ostream>

namespace barrow::cli {
namespace {

constexpr int usage_code = static_cast<int>(base::Kind::usage);
constexpr int machine_code = static_cast<int>(base::Kind::machine);

/// An error as it is shown: "barrow: " before each line.
void complain(const World& world, const std::string& text) {
    std::string line;
    for (const char c : text + "\n") {
        line += c;
        if (c != '\n') continue;
        world.err << "barrow: " << line;
        line.clear();
    }
}

/// Does what the words ask for and gives the exit code. Throws whatever went wrong.
int act(const std::vector<std::string>& words, World& world) {
    Shell shell(world);
    Command program;
    describe(program, shell);
    const Asked asked = parse(program, words);
    if (asked.help) {
        world.out << help_text(*asked.command);
    } else if (shell.version) {
        world.out << "barrow " BARROW_VERSION "\n";
    } else if (!asked.command->chosen) {
        // A group without a command, or nothing at all: say what there is.
        world.err << help_text(*asked.command);
        return usage_code;
    } else {
        asked.command->chosen();
    }
    world.out.flush();
    shell.remark_at_end();
    if (world.out) return 0;
    complain(world,
             shell.has_written()
                 ? "the output cannot be written, but the command is done, and what it wrote "
                   "is kept (see: barrow log)"
                 : "the output cannot be written");
    return machine_code;
}

} // namespace

int run(const std::vector<std::string>& words, World& world) {
    try {
        return act(words, world);
    } catch (const base::Error& error) {
        complain(world, error.what());
        return static_cast<int>(error.kind());
    } catch (const std::bad_alloc&) {
        complain(world, "there is not enough memory for this");
        return machine_code;
    } catch (const std::filesystem::filesystem_error& error) {
        complain(world, fmt::format("{} cannot be read or written: {}", error.path1().string(),
                                    error.code().message()));
        return machine_code;
    } catch (const std::exception& error) {
        complain(world, base::broken(error.what()).what());
        return machine_code;
    }
}

} // namespace barrow::cli
