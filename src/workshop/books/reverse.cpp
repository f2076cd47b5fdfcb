#include "workshop/books/reverse.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "store/books/history.hpp"
#include "store/buying/orders.hpp"
#include "store/ledger/decisions.hpp"
#include "store/making/batches.hpp"
#include "store/selling/fairs.hpp"
#include "store/stock/lots.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/shared/days.hpp"
#include "workshop/shared/settings.hpp"
#include "workshop/stock/levelling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

namespace barrow::workshop {
namespace {

using base::Money;
using store::Movement;

/// What a holder must still have of a lot for the posting to be taken back.
struct Needed {
    std::int64_t quantity = 0;
    Money value;
};

/// A posting's net effect on each holder and lot; where it is above zero, that much must be there.
std::map<std::pair<std::int64_t, std::int64_t>, Needed>
net_effect(const std::vector<Movement>& movements) {
    std::map<std::pair<std::int64_t, std::int64_t>, Needed> net;
    for (const Movement& movement : movements) {
        Needed& to = net[{movement.to, movement.lot.value_or(0)}];
        to.quantity += movement.quantity;
        to.value += movement.value;
        Needed& from = net[{movement.from, movement.lot.value_or(0)}];
        from.quantity -= movement.quantity;
        from.value -= movement.value;
    }
    return net;
}

/// "first reverse: 12 (make, 2027-03-14), ..."; nothing without any.
std::string first_reverse(const std::vector<store::Posting>& postings) {
    std::string text;
    for (const store::Posting& one : postings)
        text += fmt::format("{}{} ({}, {})", text.empty() ? "first reverse: " : ", ", one.id,
                            one.kind, base::to_text(one.made_on));
    return text;
}

/// The movements without what went from one holder to another and back within the entry (as value
/// does that an empty lot gets back and must pass on): there may be less of it by now, and it need
/// not be moved at all.
std::vector<Movement> without_returns(std::vector<Movement> movements) {
    for (std::size_t later = 0; later < movements.size(); ++later)
        for (std::size_t earlier = 0; earlier < later; ++earlier) {
            Movement& a = movements[earlier];
            Movement& b = movements[later];
            if (a.lot != b.lot || a.from != b.to || a.to != b.from) continue;
            const std::int64_t quantity = std::min(a.quantity, b.quantity);
            const Money value = std::min(a.value, b.value);
            a.quantity -= quantity;
            b.quantity -= quantity;
            a.value -= value;
            b.value -= value;
        }
    const auto nothing = [](const Movement& movement) {
        return movement.quantity == 0 && movement.value.is_zero();
    };
    movements.erase(std::remove_if(movements.begin(), movements.end(), nothing), movements.end());
    return movements;
}

void refuse_dependents(store::Database& database, std::int64_t posting,
                       const std::vector<Movement>& movements) {
    std::vector<base::Problem> problems;
    for (const auto& [where, needed] : net_effect(movements)) {
        const auto& [holder, lot] = where;
        const std::string kind = store::kind_of_holder(database, holder);
        // These two may owe: suppliers everything, what was made the journals that came of it.
        if (kind == "outside" || (kind == "made" && lot == 0)) continue;
        const store::Balance has = store::balance_of(database, holder, lot);
        // Only what must be taken out of the holder again can be missing.
        const bool quantity_gone = needed.quantity > 0 && has.quantity < needed.quantity;
        const bool value_gone = needed.value > Money() && has.value < needed.value;
        if (!quantity_gone && !value_gone) continue;
        problems.push_back(
            {{},
             fmt::format("{} has been used since", store::name_of_holder(database, holder)),
             first_reverse(store::postings_taking_from(database, holder, posting))});
    }
    if (!problems.empty()) throw base::Error(base::Kind::refused, problems);
}

/// An offcut that went and was found again is whole: what became of it once cannot come back into
/// it.
void refuse_into_whole_offcuts(store::Database& database, std::int64_t posting,
                               const std::vector<Movement>& movements) {
    for (const auto& [where, needed] : net_effect(movements)) {
        const auto& [holder, lot] = where;
        if (needed.quantity >= 0) continue;
        const auto offcut = store::offcut_by_id(database, holder);
        if (!offcut || offcut->lot_id != lot) continue;
        const std::int64_t has = store::balance_of(database, holder, lot).quantity;
        if (base::Wide(has) - needed.quantity <= offcut->size.measure()) continue;
        throw base::refused(
            fmt::format("offcut {} is there again: it came back another way since", offcut->code),
            first_reverse(store::postings_giving_to(database, holder, posting)));
    }
}

/// A batch goes back and forth step by step: a step cannot be undone under a later one that stands
/// (planning under a batch that is cut, though planning moved nothing), and a step that was undone
/// comes back only where it was left: not when the batch went another way since, nor when what it
/// followed was undone too.
void refuse_later_events(store::Database& database, std::int64_t posting) {
    const std::int64_t origin = store::origin_of(database, posting);
    const auto batch = store::batch_of_event(database, origin);
    if (!batch) return;
    const auto events = store::standing_events(database, batch->id);
    const std::int64_t last = events.empty() ? 0 : events.back().posting_id;
    if (last > origin)
        throw base::refused(fmt::format("batch {} has gone on since: it is {}", batch->number,
                                        store::name_of(batch->status)),
                            fmt::format("first reverse: {}", last));
    if (last == 0 && store::first_event(database, batch->id).posting_id != origin)
        throw base::refused(fmt::format("batch {} was taken back altogether since", batch->number),
                            fmt::format("first reverse what took back its entry {}",
                                        store::first_event(database, batch->id).posting_id));
}

/// Number of the entry to reverse first, for something noted by `noted` to stand again.
std::string last_of_chain(store::Database& database, std::int64_t noted) {
    while (const auto reversal = store::reversal_of(database, noted)) noted = reversal->id;
    return fmt::format("first reverse: {}", noted);
}

/// What is kept under a number, begun by one entry and gone on with by others.
struct Numbered {
    const char* name;
    store::Belonging (*of_posting)(store::Database& database, std::int64_t posting);
    /// Entries that go on with it and stand.
    std::vector<store::Posting> (*following)(store::Database& database, std::int64_t number);
    std::int64_t (*begun_by)(store::Database& database, std::int64_t number);
};

const std::array<Numbered, 2> numbered = {
    {{"order", store::orders_of_posting, store::postings_following,
      [](store::Database& database, std::int64_t number) {
          return store::find_order(database, number).value().placed.id;
      }},
     {"fair", store::fairs_of_posting, store::postings_at_fair,
      [](store::Database& database, std::int64_t number) {
          return store::find_fair(database, number).value().noted.id;
      }}}};

/// An order is not taken back under what came for it, nor a fair under what was sold there; and
/// what belongs to one does not come back without it.
void refuse_without_its_ground(store::Database& database, std::int64_t posting) {
    const std::int64_t origin = store::origin_of(database, posting);
    const bool standing = store::stands(database, origin);
    for (const Numbered& kept : numbered) {
        const store::Belonging own = kept.of_posting(database, origin);
        if (standing && own.begins) {
            const auto since = kept.following(database, *own.begins);
            if (!since.empty())
                throw base::refused(fmt::format("{} {} has gone on since", kept.name, *own.begins),
                                    first_reverse(since));
        }
        if (standing) continue;
        for (const std::int64_t number : own.follows) {
            const std::int64_t begun = kept.begun_by(database, number);
            if (!store::stands(database, begun))
                throw base::refused(
                    fmt::format("{} {}, which this belongs to, was taken back", kept.name, number),
                    last_of_chain(database, begun));
        }
    }
}

/// Something found while a batch was in work came out of it, and can go back only as long as it is.
void refuse_into_closed_batch(store::Database& database, std::int64_t posting,
                              const std::vector<Movement>& movements) {
    const auto own = store::batch_of_event(database, store::origin_of(database, posting));
    for (const Movement& movement : movements) {
        const auto batch = store::batch_by_id(database, movement.from);
        if (!batch || (own && own->id == batch->id) || batch->status == store::BatchStatus::cut)
            continue;
        throw base::refused(fmt::format("batch {}, which this came out of, is {} by now",
                                        batch->number, store::name_of(batch->status)),
                            fmt::format("see: barrow history batch {}", batch->number));
    }
}

/// What an entry took off each lot's shelf, together.
std::map<std::int64_t, costing::LotTake> taken_off(store::Database& database,
                                                   const std::vector<Movement>& movements) {
    std::map<std::int64_t, costing::LotTake> taken;
    for (const auto& [where, net] : net_effect(movements)) {
        if (net.quantity > 0 || net.value > Money()) continue;
        const std::int64_t holder = where.first;
        if (store::kind_of_holder(database, holder) != "shelf") continue;
        costing::LotTake& own = taken[holder];
        own.lot = holder;
        own.quantity -= net.quantity;
        own.value -= net.value;
    }
    return taken;
}

bool booked_under_average(store::Database& database, std::int64_t posting) {
    return store::cost_order_before(database, posting) == name_of(CostOrder::moving_average);
}

/// What was taken back may have been booked while the shop kept the moving average, or be the
/// decision to keep it: then value would stay where nothing is left, or come to another lot than
/// the things it was paid for. `took` tells of an entry that took something, not of one that
/// brought it back.
void settle_shelves(store::Database& database, store::MovementWriter& writer, std::int64_t origin,
                    bool took, const std::vector<Movement>& movements, CostOrder before) {
    const CostOrder now = read_settings(database).cost_order;
    if (before == CostOrder::moving_average && now != before) return level_all(database, writer);
    if (took && now != CostOrder::moving_average && booked_under_average(database, origin))
        level_returned(database, writer, taken_off(database, movements));
    std::set<std::int64_t> materials;
    for (const Movement& movement : movements)
        if (movement.lot)
            materials.insert(store::lot_by_id(database, *movement.lot).value().material_id);
    level_emptied(database, writer, materials, now == CostOrder::moving_average);
}

} // namespace

Reversed reverse(Context& context, std::int64_t posting) {
    return writing(context, [&] {
        store::Database& database = context.database;
        const auto original = store::posting_by_id(database, posting);
        if (!original)
            throw base::bad_input("entry", fmt::format("there is no entry {}", posting),
                                  "see the latest with: barrow log");
        if (const auto earlier = store::reversal_of(database, posting))
            throw base::refused(
                fmt::format("entry {} was reversed already, by entry {}", posting, earlier->id),
                fmt::format("to undo that: barrow reverse {}", earlier->id));
        refuse_later_events(database, posting);
        refuse_without_its_ground(database, posting);
        const auto movements = without_returns(store::movements_of(database, posting));
        refuse_dependents(database, posting, movements);
        refuse_into_whole_offcuts(database, posting, movements);
        refuse_into_closed_batch(database, posting, movements);
        const CostOrder order = read_settings(database).cost_order;
        const std::int64_t origin = store::origin_of(database, posting);
        const bool took = store::stands(database, origin);
        Reversed reversed;
        reversed.original = *original;
        reversed.posting = post(context, "reverse", context.today, posting);
        store::MovementWriter writer(database, reversed.posting);
        // Backwards, so that no holder is asked for what it gets back only later. (clang 14 asks
        // for a view of ranges here, and cannot read those of GCC 12.)
        // NOLINTNEXTLINE(modernize-loop-convert)
        for (auto it = movements.rbegin(); it != movements.rend(); ++it) {
            writer.move({0, 0, "reverse", it->lot, it->to, it->from, it->quantity, it->value});
            ++reversed.movements;
        }
        settle_shelves(database, writer, origin, took, movements, order);
        store::refresh_batches_of(database, reversed.posting);
        if (reversed.original.made_on > context.today)
            throw base::refused(fmt::format("entry {} is of {}: it cannot be taken back on {}",
                                            posting, base::to_text(reversed.original.made_on),
                                            base::to_text(context.today)),
                                "set the clock right, or wait for that day");
        require_its_day(database, reversed.posting);
        return reversed;
    });
}

} // namespace barrow::workshop
