#pragma once

#include "base/error.hpp"
#include "cli/command.hpp"
#include "cli/shell.hpp"
#include "print/books/history.hpp"
#include "print/books/reports.hpp"
#include "print/buying/orders.hpp"
#include "print/selling/fairs.hpp"

#include <ostream>

namespace barrow::cli {

/// Options of a command whose answer is a table: for people, as JSON, or as CSV.
struct TableOptions {
    bool csv = false;

    void add_to(Command& command);
};

/// Prints an answer that has a screen, a document and a CSV form (see print). Throws base::Error
/// (Kind::usage) when both --json and --csv were given.
template <typename Answer>
void show_table(const Shell& shell, const TableOptions& options, const Answer& answer) {
    if (options.csv && shell.json)
        throw base::Error(base::Kind::usage, "--json and --csv cannot be given together",
                          "leave one of them out");
    if (options.csv) {
        shell.world().out << print::csv(answer);
        return;
    }
    shell.show([&] { return print::screen(answer); }, [&] { return print::document(answer); });
}

} // namespace barrow::cli
