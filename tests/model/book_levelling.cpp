// What happens to cost on the shelves when the moving average is left, or lots are emptied
// otherwise than by using them.

#include "model/book.hpp"

#include <algorithm>

namespace model {

/// Off a shelf goes value of every lot it holds value of, in proportion.
void Book::leave_shelf(Count id, Count to, Amount what) {
    std::vector<Wide> values;
    const auto held = piles_of(id);
    for (const auto& [own, amount] : held) values.push_back(amount.value);
    const auto shares = model::split(what.value, values);
    for (std::size_t i = 0; i < held.size(); ++i)
        move(id, to, held[i].first, {held[i].first == id ? what.quantity : 0, shares[i]});
}

/// Lots that have more than they should give it to those that have less, each in its turn.
void Book::pass_on(const std::vector<Lot>& there, const std::vector<Count>& wanted) {
    std::vector<Count> off;
    for (std::size_t i = 0; i < there.size(); ++i)
        off.push_back(all_of(there[i].id).value - wanted[i]);
    for (std::size_t giver = 0; giver < there.size(); ++giver)
        for (const auto& [own, amount] : piles_of(there[giver].id)) {
            Count has = amount.value;
            for (std::size_t taker = 0; taker < there.size(); ++taker) {
                const Count part = std::min({has, off[giver], -off[taker]});
                if (part <= 0) continue;
                move(there[giver].id, there[taker].id, own, {0, part});
                has -= part;
                off[giver] -= part;
                off[taker] += part;
            }
        }
}

/// Every lot gets what its things cost on average.
void Book::even_out(Count material) {
    const auto there = shelf(material);
    if (units_on_shelf(material) == 0) return settle_emptied({material});
    Count value = 0;
    std::vector<Wide> things;
    for (const Lot& one : there) {
        value += all_of(one.id).value;
        things.push_back(all_of(one.id).quantity);
    }
    pass_on(there, model::split(value, things));
}

/// What came back of a material costs the same for each thing of it. `taken` is what had taken it.
void Book::even_out_returned(const std::vector<Move>& taken) {
    std::map<Count, std::map<Count, Amount>> nets; // material, shelf
    std::map<std::pair<Count, Count>, Amount> piled;
    for (const Move& step : taken) {
        Amount& from = piled[{step.from, step.lot}];
        from.quantity += step.what.quantity;
        from.value += step.what.value;
        Amount& to = piled[{step.to, step.lot}];
        to.quantity -= step.what.quantity;
        to.value -= step.what.value;
    }
    for (const auto& [where, net] : piled) {
        const bool is_shelf = std::any_of(
            lots.begin(), lots.end(), [h = where.first](const Lot& one) { return one.id == h; });
        if (!is_shelf || net.quantity < 0 || net.value < 0) continue;
        Amount& own = nets[lot(where.first).material][where.first];
        own.quantity += net.quantity;
        own.value += net.value;
    }
    for (const auto& [material, back] : nets) {
        const auto there = shelf(material);
        Count value = 0;
        Wide whole = 0;
        std::vector<Wide> things;
        std::vector<Count> wanted;
        for (const Lot& one : there) {
            const auto found = back.find(one.id);
            const Amount own = found == back.end() ? Amount{} : found->second;
            value += own.value;
            whole += own.quantity;
            things.push_back(own.quantity);
            wanted.push_back(all_of(one.id).value - own.value);
        }
        if (whole == 0) continue;
        const auto shares = model::split(value, things);
        for (std::size_t i = 0; i < there.size(); ++i) wanted[i] += shares[i];
        pass_on(there, wanted);
    }
}

/// No value stays on an empty shelf: other lots of the material bear it; when there are none, it is
/// lost.
void Book::settle_emptied(const std::vector<Count>& own) {
    for (const Count material : own) {
        const auto there = shelf(material);
        if (units_on_shelf(material) == 0) {
            for (const Lot& one : there)
                for (const auto& [of, amount] : piles_of(one.id))
                    move(one.id, written_off, of, {0, amount.value});
            continue;
        }
        if (order() == Order::moving_average) continue;
        Count left = 0;
        std::vector<Wide> things;
        for (const Lot& one : there) {
            const Amount has = all_of(one.id);
            things.push_back(has.quantity);
            if (has.quantity == 0) left += has.value;
        }
        auto wanted = model::split(left, things);
        for (std::size_t i = 0; i < there.size(); ++i)
            if (things[i] > 0) wanted[i] += all_of(there[i].id).value;
        if (left > 0) pass_on(there, wanted);
    }
}

} // namespace model
