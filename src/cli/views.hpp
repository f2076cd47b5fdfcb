#pragma once

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/shell.hpp"
#include "print/books/value.hpp"
#include "print/making/batch.hpp"
#include "print/making/fits.hpp"
#include "print/stock/offcuts.hpp"
#include "print/stock/stock.hpp"

namespace barrow::cli {

/// A command without options that shows one answer of the shop: `ask(database, today)`.
template <typename Ask>
void add_view(Command& app, Shell& shell, const char* name, const char* about, Ask ask) {
    on_command(app, name, about, [&shell, ask] {
        store::Database database = shell.open();
        const auto answer = ask(database, shell.today());
        shell.show([&] { return print::screen(answer); }, [&] { return print::document(answer); });
    });
}

} // namespace barrow::cli
