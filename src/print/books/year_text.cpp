#include "print/books/reports.hpp"

#include "base/text.hpp"
#include "print/write/terminal.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using base::Money;

/// Amounts one under the other, in groups.
class Account {
public:
    explicit Account(const base::Currency& currency)
        : currency_(currency), facts_{"", currency.code, {{}}} {}

    void line(const std::string& what, Money amount) { add(what, amount, false); }
    void part(const std::string& what, Money amount) { add(what, amount, true); }
    /// Only where there is an amount: most shops never take a journal apart.
    void part_if_any(const std::string& what, Money amount) {
        if (!amount.is_zero()) part(what, amount);
    }
    void heading(const std::string& what) { facts_.groups.push_back({what, {}}); }
    const Facts& facts() const { return facts_; }

private:
    void add(const std::string& what, Money amount, bool part) {
        facts_.groups.back().facts.push_back({what, money(amount, currency_), {}, part});
    }

    const base::Currency& currency_;
    Facts facts_;
};

std::string year_journals(std::int64_t number) {
    return base::counted(static_cast<long long>(number), "journal");
}

Facts year_facts(const workshop::Year& year) {
    Account account(year.settings.currency);
    account.line("Stock at the start", year.all().opening);
    account.line("+ bought, less what was sent back", year.bought);
    account.line("- stock at the end", year.all().closing);
    account.line("= used", year.used());
    account.part(fmt::format("of which sold in {}", year_journals(year.journals_sold)), year.sold);
    account.part("of which written off", year.written_off());
    account.heading("Materials, offcuts included");
    account.part("at the start", year.materials.opening);
    account.part("+ bought, less what was sent back", year.bought);
    account.part_if_any("+ out of journals taken apart", year.came_back);
    account.part("- put into work", year.put_to_work);
    account.part("- written off", year.materials_lost);
    account.part("= at the end", year.materials.closing);
    account.heading("Work under way");
    account.part("at the start", year.work.opening);
    account.part("+ put into work", year.put_to_work);
    account.part(fmt::format("- made: {}", year_journals(year.journals_made)), year.made);
    account.part("- given up", year.work_lost);
    account.part("= at the end", year.work.closing);
    account.heading("Finished journals");
    account.part("at the start", year.journals.opening);
    account.part("+ made", year.made);
    account.part_if_any("- given back when taken apart", year.came_back);
    account.part("- sold", year.sold);
    account.part("- given away, damaged", year.journals_lost);
    account.part("= at the end", year.journals.closing);
    account.heading("Sales");
    account.part("taken for journals", year.takings);
    account.part("- what they had cost", year.sold);
    account.part_if_any("- written off", year.written_off());
    account.part("= gross profit", year.gross_profit());
    account.part_if_any("- what fairs cost", year.fairs);
    if (!year.fairs.is_zero()) account.part("= after fairs", year.gross_profit() - year.fairs);
    account.heading("Check against the book");
    account.part("difference", year.difference);
    return account.facts();
}

} // namespace

Blocks blocks(const workshop::Year& year) {
    Blocks blocks("Cost of goods");
    blocks.add(Heading{fmt::format("Cost of goods made and sold, {} to {}",
                                   base::to_text(year.from), base::to_text(year.to))});
    blocks.add(year_facts(year));
    blocks.add(Text{"Materials only: your own work and your overheads are not in these figures."});
    blocks.under(Text{"This is no tax advice: what counts, and when, is for your local rules and "
                      "an accountant to say."});
    return blocks;
}

std::string screen(const workshop::Year& year) {
    return terminal(blocks(year));
}

} // namespace barrow::print
