#include "model/book.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace model {

Count share(Count value, Wide part, Wide whole) {
    return static_cast<Count>((Wide{value} * part * 2 + whole) / (whole * 2));
}

std::vector<Count> split(Count value, const std::vector<Wide>& weights) {
    const Wide total = std::accumulate(weights.begin(), weights.end(), Wide{0});
    std::vector<Count> shares(weights.size());
    if (value == 0) return shares;
    if (total == 0) throw std::logic_error("a value was to be divided among nothing");
    std::vector<std::tuple<Wide, std::size_t>> rests; // negated, so that sorting puts them in order
    Count left = value;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        shares[i] = static_cast<Count>(Wide{value} * weights[i] / total);
        rests.emplace_back(-(Wide{value} * weights[i] % total), i);
        left -= shares[i];
    }
    std::sort(rests.begin(), rests.end());
    for (std::size_t i = 0; left > 0; ++i, --left) ++shares[std::get<1>(rests[i])];
    return shares;
}

Count Sheet::waste() const {
    Count rest = measure - pieces;
    for (const Remnant& remnant : remnants) rest -= remnant.measure();
    return rest;
}

const Material& Book::material(Count id) const {
    for (const Material& one : materials)
        if (one.id == id) return one;
    throw std::logic_error("no such material");
}

const Lot& Book::lot(Count id) const {
    for (const Lot& one : lots)
        if (one.id == id) return one;
    throw std::logic_error("no such lot");
}

const Offcut& Book::offcut(Count id) const {
    for (const Offcut& one : offcuts)
        if (one.id == id) return one;
    throw std::logic_error("no such offcut");
}

Batch& Book::batch_numbered(Count number) {
    for (Batch& batch : batches)
        if (batch.number == number) return batch;
    throw std::logic_error("no such batch");
}

Amount Book::pile(Count holder, Count lot) const {
    const auto found = piles.find({holder, lot});
    return found == piles.end() ? Amount{} : found->second;
}

std::vector<std::pair<Count, Amount>> Book::piles_of(Count holder) const {
    std::vector<std::pair<Count, Amount>> found;
    for (const auto& [key, amount] : piles)
        if (key.first == holder) found.emplace_back(key.second, amount);
    return found;
}

Amount Book::all_of(Count holder) const {
    Amount sum;
    for (const auto& [own, amount] : piles_of(holder)) {
        sum.quantity += amount.quantity;
        sum.value += amount.value;
    }
    return sum;
}

std::vector<Lot> Book::shelf(Count material) const {
    std::vector<Lot> there;
    for (const Lot& one : lots)
        if (one.material == material && !piles_of(one.id).empty()) there.push_back(one);
    std::sort(there.begin(), there.end(), [](const Lot& a, const Lot& b) {
        return std::tie(a.day, a.id) < std::tie(b.day, b.id);
    });
    return there;
}

Count Book::units_on_shelf(Count material) const {
    Count units = 0;
    for (const Lot& one : shelf(material)) units += pile(one.id, one.id).quantity / one.unit;
    return units;
}

bool Book::stands(Count entry) const {
    const Count by = entries.at(static_cast<std::size_t>(entry - 1)).reversed_by;
    return by == 0 || !stands(by);
}

std::string Book::status(Count batch) const {
    std::string status = "undone";
    for (const Entry& entry : entries)
        if (entry.batch == batch && entry.reverses == 0 && stands(entry.id)) status = entry.becomes;
    return status;
}

Order Book::order() const {
    Order order = Order::first_in_first_out;
    for (const Entry& entry : entries)
        if (entry.kind == "cost order" && stands(entry.id)) order = entry.order;
    return order;
}

bool Book::stood_before(Count entry, Count later) const {
    const Count by = entries.at(static_cast<std::size_t>(entry - 1)).reversed_by;
    return by == 0 || by >= later || !stood_before(by, later);
}

Order Book::order_before(Count entry) const {
    Order order = Order::first_in_first_out;
    for (const Entry& one : entries)
        if (one.id < entry && one.kind == "cost order" && stood_before(one.id, entry))
            order = one.order;
    return order;
}

Count Book::reserved(Count holder) const {
    Count sum = 0;
    for (const Batch& batch : batches) {
        if (status(batch.number) != "planned") continue;
        for (const Sheet& sheet : batch.plan.sheets)
            if (sheet.source == holder) sum += sheet.measure;
        for (const Take& take : batch.plan.takes)
            if (take.lot == holder) sum += take.quantity;
    }
    return sum;
}

std::vector<Offcut> Book::offcuts_there() const {
    std::vector<Offcut> there;
    for (const Offcut& one : offcuts)
        if (!piles_of(one.id).empty()) there.push_back(one);
    return there;
}

std::vector<Journal> Book::journals_there() const {
    std::vector<Journal> there;
    for (const Journal& one : journals)
        if (pile(one.id, 0).quantity == 1) there.push_back(one);
    return there;
}

Count Book::last_day_of(Count holder) const {
    Count last = 0;
    for (const Entry& entry : entries)
        for (const Move& step : entry.moves)
            if (step.from == holder || step.to == holder) last = std::max(last, entry.day);
    return last;
}

Entry& Book::open(const std::string& kind, Count day) {
    Entry entry;
    entry.id = static_cast<Count>(entries.size()) + 1;
    entry.kind = kind;
    entry.day = day;
    entries.push_back(entry);
    return entries.back();
}

void Book::shift(const Move& step) {
    const auto add = [&](Count holder, Count sign) {
        Amount& amount = piles[{holder, step.lot}];
        amount.quantity += sign * step.what.quantity;
        amount.value += sign * step.what.value;
        if (amount.quantity == 0 && amount.value == 0) piles.erase({holder, step.lot});
    };
    add(step.to, 1);
    add(step.from, -1);
}

void Book::move(Count from, Count to, Count lot, Amount what) {
    if (what.quantity == 0 && what.value == 0) return;
    const Move step{from, to, lot, what};
    shift(step);
    const Amount rest = pile(from, lot);
    const bool may_owe = from == outside || (from == made && lot == 0);
    if (!may_owe && (rest.quantity < 0 || rest.value < 0))
        throw std::logic_error("the model itself went below zero");
    entries.back().moves.push_back(step);
}

Count Book::new_offcut(Count material, Count lot, const Remnant& size) {
    offcuts.push_back({next_holder_++, material, lot, size.width, size.height, {}});
    return offcuts.back().id;
}

/// Just so much of just these lots. Under the moving average the things go with their share of
/// what all lots of the material are worth together, each lot giving in proportion to its worth.
std::vector<Book::LotTake> Book::take(Count material, const std::map<Count, Count>& wanted) const {
    const std::vector<Lot> there = shelf(material);
    std::vector<LotTake> takes;
    Wide whole = 0, part = 0;
    Count worth = 0;
    std::vector<Wide> worths;
    for (const Lot& one : there) {
        const Amount has = all_of(one.id);
        const auto found = wanted.find(one.id);
        const Count quantity = found == wanted.end() ? 0 : found->second;
        whole += has.quantity;
        part += quantity;
        worth += has.value;
        worths.push_back(has.value);
        takes.push_back(
            {one.id, {quantity, quantity == 0 ? 0 : share(has.value, quantity, has.quantity)}});
    }
    if (order() != Order::moving_average || part == 0) return takes;
    const auto shares = model::split(share(worth, part, whole), worths);
    for (std::size_t i = 0; i < takes.size(); ++i) takes[i].what.value = shares[i];
    return takes;
}

/// Whole units of a lot that no planned batch waits for, in the measure.
Count Book::free_of(Count id) const {
    const Count unit = lot(id).unit;
    return std::max<Count>(0, pile(id, id).quantity - reserved(id)) / unit * unit;
}

/// So many units, the oldest first; what is reserved last, or not at all.
std::map<Count, Count> Book::oldest_first(Count material, Count units, bool reserved_too) const {
    std::map<Count, Count> wanted;
    for (const bool free_ones : {true, false}) {
        if (!free_ones && !reserved_too) break;
        for (const Lot& one : shelf(material)) {
            const Count free = free_of(one.id);
            const Count there = free_ones ? free : pile(one.id, one.id).quantity - free;
            const Count part = std::min(units, there / one.unit);
            if (part > 0) wanted[one.id] += part * one.unit;
            units -= part;
        }
    }
    if (units > 0) throw Refused("fewer units are on the shelf");
    return wanted;
}

/// Where so much of a material was lost: a batch in work, else journals, else what was written off;
/// the newest lot first.
std::pair<Count, Count> Book::where_lost(Count material, Count quantity, Count only_lot) const {
    std::vector<std::tuple<int, Count, Count, Count>> found; // place, newest first, holder
    for (const auto& [key, amount] : piles) {
        const auto [holder, own] = key;
        if (own == 0 || lot(own).material != material || amount.quantity < quantity) continue;
        if (only_lot != 0 && own != only_lot) continue;
        const bool in_work =
            std::any_of(batches.begin(), batches.end(),
                        [h = holder](const Batch& batch) { return batch.id == h; });
        if (!in_work && holder != made && holder != written_off) continue;
        const int place = in_work ? 0 : holder == made ? 1 : 2;
        found.emplace_back(place, -lot(own).day, -own, holder);
    }
    if (found.empty()) throw Refused("so much was never lost");
    const auto& best = *std::min_element(found.begin(), found.end());
    return {std::get<3>(best), -std::get<2>(best)};
}

} // namespace model
