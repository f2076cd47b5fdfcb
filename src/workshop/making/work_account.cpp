#include "workshop/making/work_account.hpp"

#include "base/error.hpp"
#include "workshop/stock/levelling.hpp"

#include <algorithm>

namespace barrow::workshop {

using base::Money;

WorkAccount::WorkAccount(store::Database& database, store::MovementWriter& writer,
                         std::int64_t batch)
    : database_(database), writer_(writer), batch_(batch) {}

void WorkAccount::take_lot(std::int64_t material, const costing::LotTake& take) {
    for (const costing::LotTake& part : workshop::parts_of(database_, take)) {
        writer_.move({0, 0, "use", part.lot, take.lot, batch_, part.quantity, part.value});
        held_[material][part.lot] += part.value;
    }
}

std::vector<WorkAccount::Part> WorkAccount::divide(const std::map<std::int64_t, Money>& held,
                                                   std::int64_t first, std::int64_t quantity,
                                                   Money value) {
    const auto own = held.find(first);
    const Money from_own = std::min(value, own == held.end() ? Money() : own->second);
    std::vector<Part> parts = {{first, quantity, from_own}};
    const Money rest = value - from_own;
    if (rest.is_zero()) return parts;
    std::vector<base::Wide> weights;
    std::vector<std::int64_t> lots;
    for (const auto& [lot, amount] : held) {
        if (lot == first) continue;
        lots.push_back(lot);
        weights.push_back(amount.minor());
    }
    const auto shares = base::split(rest, weights);
    for (std::size_t i = 0; i < lots.size(); ++i) {
        if (shares[i] > held.at(lots[i]))
            throw base::broken("more value was to leave a batch than it holds");
        parts.push_back({lots[i], 0, shares[i]});
    }
    return parts;
}

void WorkAccount::take_offcut(std::int64_t material, std::int64_t offcut, std::int64_t lot,
                              std::int64_t quantity, Money value) {
    std::map<std::int64_t, Money> has;
    std::int64_t whole = 0;
    for (const store::Balance& balance : store::balances_of(database_, offcut)) {
        has[balance.lot] = balance.value;
        whole += balance.quantity;
    }
    std::vector<Part> parts;
    if (quantity == whole) {
        for (const auto& [from_lot, amount] : has)
            parts.push_back({from_lot, from_lot == lot ? quantity : 0, amount});
    } else {
        parts = divide(has, lot, quantity, value);
    }
    for (const Part& part : parts) {
        writer_.move({0, 0, "use", part.lot, offcut, batch_, part.quantity, part.value});
        held_[material][part.lot] += part.value;
    }
}

void WorkAccount::keep(std::int64_t material, std::int64_t offcut, std::int64_t lot,
                       std::int64_t quantity, Money value) {
    for (const Part& part : divide(held_[material], lot, quantity, value)) {
        writer_.move({0, 0, "keep", part.lot, batch_, offcut, part.quantity, part.value});
        held_[material][part.lot] -= part.value;
    }
}

Money WorkAccount::finish() {
    Money sum;
    for (const store::Balance& balance : store::balances_of(database_, batch_)) {
        writer_.move(
            {0, 0, "finish", balance.lot, batch_, store::made, balance.quantity, balance.value});
        sum += balance.value;
    }
    held_.clear();
    return sum;
}

} // namespace barrow::workshop
