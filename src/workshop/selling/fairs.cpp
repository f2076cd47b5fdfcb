#include "workshop/selling/fairs.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "costing/price/break_even.hpp"
#include "workshop/selling/sell_in_transaction.hpp"
#include "workshop/shared/asking.hpp"
#include "workshop/shared/fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace barrow::workshop {

using base::Money;
using store::Fair;
using store::FairJournal;

namespace {

FairView view_of(store::Database& database, const Settings& settings, Fair fair) {
    FairView view;
    view.settings = settings;
    AskingPrices asking(database, settings);
    Money over_materials;
    bool all_priced = true;
    for (const FairJournal& one : fair.journals) {
        view.asked.push_back(asking.of(one.journal));
        if (!view.asked.back()) all_priced = false;
        over_materials += view.asked.back().value_or(Money()) - one.journal.materials;
        if (!one.sold_for) continue;
        ++view.sold;
        view.takings += *one.sold_for;
        view.materials += one.journal.materials;
        view.labour += one.journal.labour;
        view.overheads += one.journal.overheads;
    }
    for (const store::FairCost& cost : fair.costs) view.costs += cost.amount;
    if (all_priced)
        view.to_cover = costing::break_even(view.costs, over_materials,
                                            static_cast<std::int64_t>(fair.journals.size()));
    view.fair = std::move(fair);
    return view;
}

Fair fair_called(store::Database& database, std::int64_t number) {
    auto fair = store::find_fair(database, number);
    if (!fair)
        throw base::bad_input("fair", fmt::format("there is no fair {}", number),
                              "see them with: barrow fair list");
    return std::move(*fair);
}

Fair standing_fair(store::Database& database, std::int64_t number) {
    Fair fair = fair_called(database, number);
    if (fair.undone)
        throw base::bad_input("fair", fmt::format("fair {} was taken back", number),
                              "see them with: barrow fair list");
    return fair;
}

FairView view_in_transaction(store::Database& database, std::int64_t number) {
    return view_of(database, read_settings(database), fair_called(database, number));
}

/// Journals of a design in hand and not on the list, those longest in hand first.
std::vector<store::Journal> longest_in_hand(store::Database& database, const std::string& design,
                                            std::int64_t number, std::set<std::string>& listed) {
    std::vector<store::JournalOnHand> there;
    std::vector<std::string> designs;
    for (store::JournalOnHand& one : store::journals_on_hand(database)) {
        designs.push_back(one.design_code);
        if (base::lowered(one.design_code) == base::lowered(design)
            && listed.count(one.journal.serial) == 0)
            there.push_back(std::move(one));
    }
    if (static_cast<std::int64_t>(there.size()) < number)
        throw base::refused(fmt::format("of {} there are only {} in hand that are not on the list, "
                                        "and {} are wanted",
                                        design, there.size(), number),
                            there.empty() ? base::did_you_mean(design, designs)
                                          : "see: barrow journal list");
    std::sort(there.begin(), there.end(),
              [](const auto& a, const auto& b) { return a.journal.id < b.journal.id; });
    std::vector<store::Journal> taken;
    for (std::int64_t i = 0; i < number; ++i) {
        taken.push_back(std::move(there[static_cast<std::size_t>(i)].journal));
        listed.insert(taken.back().serial);
    }
    return taken;
}

} // namespace

FairView new_fair(Context& context, const NewFair& wanted) {
    return writing(context, [&] {
        const Settings settings = read_settings(context.database);
        Fair fair;
        fair.name = plain_text(std::string(base::trimmed(wanted.name)), "name");
        fair.held_on = wanted.held_on;
        if (fair.name.empty()) throw base::bad_input("name", "is empty", "say what fair it is");
        std::optional<Money> fee;
        if (!wanted.pitch_fee.empty())
            fee = base::read_money(wanted.pitch_fee, settings.currency, "--fee");
        fair.noted.id = post(context, "fair", context.today);
        const std::int64_t number = store::add_fair(context.database, fair);
        if (fee) store::add_fair_cost(context.database, fair.noted.id, number, {"pitch fee", *fee});
        return view_in_transaction(context.database, number);
    });
}

FairView pay_for_fair(Context& context, std::int64_t number, const std::string& what,
                      const std::string& amount) {
    return writing(context, [&] {
        const Settings settings = read_settings(context.database);
        standing_fair(context.database, number);
        const std::string name = plain_text(std::string(base::trimmed(what)), "what");
        if (name.empty()) throw base::bad_input("what", "is empty", "say what it was for");
        const Money paid = base::read_money(amount, settings.currency, "amount");
        const std::int64_t posting = post(context, "fair cost", context.today);
        store::add_fair_cost(context.database, posting, number, {name, paid});
        return view_in_transaction(context.database, number);
    });
}

FairView take_to_fair(Context& context, std::int64_t number, const Taking& taking) {
    return writing(context, [&] {
        store::Database& database = context.database;
        const Fair fair = standing_fair(database, number);
        std::set<std::string> listed;
        for (const FairJournal& one : fair.journals) listed.insert(one.journal.serial);
        std::vector<store::Journal> taken;
        for (store::Journal& journal : journals_in_hand(database, taking.serials)) {
            if (!listed.insert(journal.serial).second)
                throw base::bad_input("journal",
                                      fmt::format("{} is on the list already", journal.serial),
                                      fmt::format("see: barrow fair show {}", number));
            taken.push_back(std::move(journal));
        }
        for (const auto& [design, count] : taking.designs) {
            const auto more = longest_in_hand(database, design, count, listed);
            taken.insert(taken.end(), more.begin(), more.end());
        }
        if (taken.empty())
            throw base::bad_input("journal", "nothing is taken along",
                                  "name journals, or so many of a design: quayside=4");
        const std::int64_t posting = post(context, "fair take", context.today);
        const Settings settings = read_settings(database);
        AskingPrices asking(database, settings);
        for (const store::Journal& journal : taken)
            store::add_fair_take(database, posting, number, journal.id, asking.of(journal));
        return view_in_transaction(database, number);
    });
}

std::pair<JournalsLeft, FairView> sell_at_fair(Context& context, std::int64_t number,
                                               const Serials& serials, const std::string& price) {
    return writing(context, [&] {
        const Fair fair = standing_fair(context.database, number);
        if (fair.held_on > context.today)
            throw base::bad_input(
                "fair", fmt::format("fair {} is only on {}", number, base::to_text(fair.held_on)),
                "sell before it with: barrow journal sell");
        JournalsLeft left = sell_in_transaction(context, serials, {price, fair.held_on});
        store::add_fair_sale(context.database, left.posting, number);
        return std::pair(std::move(left), view_in_transaction(context.database, number));
    });
}

FairView fair_numbered(store::Database& database, std::int64_t number) {
    return reading(database, [&] { return view_in_transaction(database, number); });
}

Fairs fairs(store::Database& database) {
    return reading(database, [&] {
        Fairs all;
        all.settings = read_settings(database);
        for (Fair& fair : store::all_fairs(database))
            if (!fair.undone) all.fairs.push_back(view_of(database, all.settings, std::move(fair)));
        return all;
    });
}

} // namespace barrow::workshop
