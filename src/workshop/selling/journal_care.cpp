#include "workshop/selling/journal_care.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "store/books/history.hpp"
#include "store/ledger/decisions.hpp"
#include "store/ledger/ledger.hpp"
#include "workshop/selling/sell_in_transaction.hpp"
#include "workshop/shared/asking.hpp"
#include "workshop/shared/days.hpp"
#include "workshop/shared/fields.hpp"

#include <fmt/format.h>

#include <set>

namespace barrow::workshop {
namespace {

using base::Money;
using store::Journal;

/// How a journal left, from the entry that took it.
std::string way_out(const store::ToldMovement& last) {
    const store::Posting& posting = last.posting;
    const std::string when =
        fmt::format(" on {} (entry {})", base::to_text(posting.made_on), posting.id);
    if (posting.reverses)
        return fmt::format("what made it, entry {}, was taken back", *posting.reverses) + when;
    if (last.movement.kind == "sell") return "it was sold" + when;
    if (posting.kind == "give") return "it was given away" + when;
    if (posting.kind == "damage") return "it was written off as damaged" + when;
    if (posting.kind == "take apart") return "it was taken apart" + when;
    return fmt::format("it left by \"{}\"", posting.kind) + when;
}

base::Problem not_in_hand(store::Database& database, const Journal& journal) {
    const auto last = store::last_movement_from(database, journal.id);
    if (!last) throw base::broken("journal " + journal.serial + " is gone without an entry");
    std::string hint;
    if (!last->posting.reverses)
        hint = fmt::format("if that was a slip: barrow reverse {}", last->posting.id);
    return {{},
            fmt::format("journal {} is not in hand: {}", journal.serial, way_out(*last)),
            std::move(hint)};
}

base::Problem unknown(store::Database& database, const std::string& serial) {
    std::vector<std::string> serials;
    for (const store::JournalOnHand& line : store::journals_on_hand(database))
        serials.push_back(line.journal.serial);
    std::string hint = base::did_you_mean(serial, serials);
    if (hint.empty()) hint = "see those in hand with: barrow journal list";
    return {"journal", fmt::format("there is no journal {}", serial), std::move(hint)};
}

void require_reason(const Context& context, const char* what, const char* hint) {
    if (base::trimmed(context.note).empty()) throw base::refused(what, hint);
}

/// Moves whole journals out of the shop under one posting.
JournalsLeft move_out(Context& context, const Serials& serials, const std::string& posting_kind,
                      const std::string& movement_kind, std::int64_t to, const base::Date& day) {
    store::Database& database = context.database;
    JournalsLeft left;
    left.settings = read_settings(database);
    left.journals = journals_in_hand(database, serials);
    left.day = day;
    left.posting = post(context, posting_kind, day);
    store::MovementWriter writer(database, left.posting);
    for (const Journal& journal : left.journals) {
        const store::Balance held = store::balance_of(database, journal.id, 0);
        writer.move({0, 0, movement_kind, std::nullopt, journal.id, to, held.quantity, held.value});
        left.value += held.value;
    }
    require_its_day(database, left.posting);
    return left;
}

/// The day of a sale must be one on which every journal was there already.
void check_day(store::Database& database, const std::vector<Journal>& journals,
               const base::Date& day, const base::Date& today) {
    if (day > today)
        throw base::bad_input("--date", "lies in the future", "book a sale when it has been made");
    for (const Journal& journal : journals) {
        const auto last = store::last_day_of(database, journal.id);
        if (last && day < *last)
            throw base::bad_input("--date",
                                  fmt::format("journal {} was not there to be sold on {}",
                                              journal.serial, base::to_text(day)),
                                  fmt::format("give {} or later", base::to_text(*last)));
    }
}

/// What each was sold for: the price given, else the one asked.
std::vector<Money> prices_of(store::Database& database, const std::vector<Journal>& journals,
                             const std::string& given) {
    const Settings settings = read_settings(database);
    if (!given.empty())
        return std::vector(journals.size(), base::read_money(given, settings.currency, "--price"));
    AskingPrices asking(database, settings);
    std::vector<Money> prices;
    for (const Journal& journal : journals) {
        const auto asked = asking.of(journal);
        if (!asked)
            throw base::bad_input(
                "--price",
                fmt::format("there is no price asked for journal {}, since labour is not counted",
                            journal.serial),
                "say what it was sold for with --price, or what an hour of your work costs: barrow "
                "settings hourly-rate 12");
        prices.push_back(*asked);
    }
    return prices;
}

void keep_text(const std::string& given, std::string& value) {
    if (given.empty()) return;
    value = given == "-" ? std::string() : plain_text(given, "journal");
}

bool read_second(const std::string& condition) {
    if (condition == "good") return false;
    if (condition == "second") return true;
    throw base::bad_input("--condition", fmt::format("\"{}\" is not known", condition),
                          "expected good or second");
}

} // namespace

Journal journal_called(store::Database& database, const std::string& serial) {
    if (auto journal = store::find_journal(database, serial)) return *journal;
    throw base::Error(base::Kind::bad_input, {unknown(database, serial)});
}

std::vector<Journal> journals_in_hand(store::Database& database, const Serials& serials) {
    std::vector<Journal> journals;
    std::vector<base::Problem> mistaken;
    std::vector<base::Problem> gone;
    std::set<std::string> seen;
    for (const std::string& serial : serials) {
        const auto journal = store::find_journal(database, serial);
        if (!seen.insert(serial).second) {
            mistaken.push_back({"journal", fmt::format("{} is named twice", serial)});
        } else if (!journal) {
            mistaken.push_back(unknown(database, serial));
        } else if (store::balance_of(database, journal->id, 0).quantity == 0) {
            gone.push_back(not_in_hand(database, *journal));
        } else {
            journals.push_back(*journal);
        }
    }
    if (!mistaken.empty()) throw base::Error(base::Kind::bad_input, mistaken);
    if (!gone.empty()) throw base::Error(base::Kind::refused, gone);
    return journals;
}

std::vector<Journal> change_journals(Context& context, const Serials& serials,
                                     const JournalChange& change) {
    return writing(context, [&] {
        const Settings settings = read_settings(context.database);
        auto journals = journals_in_hand(context.database, serials);
        for (Journal& journal : journals) {
            keep_text(change.place, journal.place);
            keep_text(change.note, journal.note);
            if (!change.condition.empty()) journal.second = read_second(change.condition);
            if (change.price == "-") {
                journal.price.reset();
            } else if (!change.price.empty()) {
                journal.price = base::read_money(change.price, settings.currency, "--price");
            }
            store::update_journal(context.database, journal);
        }
        return journals;
    });
}

JournalsLeft sell_in_transaction(Context& context, const Serials& serials, const Selling& how) {
    store::Database& database = context.database;
    const base::Date day = how.day.value_or(context.today);
    const auto journals = journals_in_hand(database, serials);
    check_day(database, journals, day, context.today);
    const auto prices = prices_of(database, journals, how.price);
    JournalsLeft left = move_out(context, serials, "sell", "sell", store::sold, day);
    for (std::size_t i = 0; i < journals.size(); ++i)
        store::add_sale(database, {left.posting, journals[i].id, prices[i]});
    left.prices = prices;
    return left;
}

JournalsLeft sell_journals(Context& context, const Serials& serials, const Selling& how) {
    return writing(context, [&] { return sell_in_transaction(context, serials, how); });
}

JournalsLeft give_journals(Context& context, const Serials& serials) {
    require_reason(context, "a journal is not given away without a word about it",
                   "say to whom with --note");
    return writing(context, [&] {
        return move_out(context, serials, "give", "give", store::written_off, context.today);
    });
}

JournalsLeft damage_journals(Context& context, const Serials& serials) {
    require_reason(context, "nothing is written off without a reason",
                   "say what happened with --note");
    return writing(context, [&] {
        return move_out(context, serials, "damage", "write_off", store::written_off, context.today);
    });
}

} // namespace barrow::workshop
