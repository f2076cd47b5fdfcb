#include "print/books/report_screens.hpp"

#include "base/text.hpp"
#include "print/text/table.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using base::Money;

/// Amounts one under the other, with what they are.
class Account {
public:
    explicit Account(const base::Currency& currency)
        : currency_(currency), table_({{""}, {currency.code, Align::right}}) {}

    void line(const std::string& what, Money amount) {
        table_.row({what, base::to_text(amount, currency_)});
    }
    /// Only what there was: most shops never take a journal apart.
    void line_if_any(const std::string& what, Money amount) {
        if (!amount.is_zero()) line(what, amount);
    }
    void heading(const std::string& what) {
        table_.gap();
        table_.row({what});
    }
    std::string text() const { return table_.text(); }

private:
    const base::Currency& currency_;
    Table table_;
};

std::string journals(std::int64_t number) {
    return base::counted(static_cast<long long>(number), "journal");
}

} // namespace

std::string screen(const workshop::Year& year) {
    Account account(year.settings.currency);
    account.line("Stock at the start", year.all().opening);
    account.line("+ bought, less what was sent back", year.bought);
    account.line("- stock at the end", year.all().closing);
    account.line("= used", year.used());
    account.line(fmt::format("  of it sold in {}", journals(year.journals_sold)), year.sold);
    account.line("  of it written off", year.written_off());
    account.heading("Materials, offcuts included");
    account.line("  at the start", year.materials.opening);
    account.line("  + bought, less what was sent back", year.bought);
    account.line_if_any("  + out of journals taken apart", year.came_back);
    account.line("  - put into work", year.put_to_work);
    account.line("  - written off", year.materials_lost);
    account.line("  = at the end", year.materials.closing);
    account.heading("Work under way");
    account.line("  at the start", year.work.opening);
    account.line("  + put into work", year.put_to_work);
    account.line(fmt::format("  - made: {}", journals(year.journals_made)), year.made);
    account.line("  - given up", year.work_lost);
    account.line("  = at the end", year.work.closing);
    account.heading("Finished journals");
    account.line("  at the start", year.journals.opening);
    account.line("  + made", year.made);
    account.line_if_any("  - given back when taken apart", year.came_back);
    account.line("  - sold", year.sold);
    account.line("  - given away, damaged", year.journals_lost);
    account.line("  = at the end", year.journals.closing);
    account.heading("Sales");
    account.line("  taken for journals", year.takings);
    account.line("  - what they had cost", year.sold);
    account.line("  = gross profit", year.gross_profit());
    account.line_if_any("  - what fairs cost", year.fairs);
    if (!year.fairs.is_zero()) account.line("  = after fairs", year.gross_profit() - year.fairs);
    account.heading("Check against the book");
    account.line("  difference", year.difference);
    return fmt::format("Cost of goods made and sold, {} to {}\n\n{}\n"
                       "Materials only: your own work and your overheads are not in these "
                       "figures.\nThis is no tax advice: what counts, and when, is for your local "
                       "rules and an\naccountant to say.\n",
                       base::to_text(year.from), base::to_text(year.to), account.text());
}

} // namespace barrow::print
