#include "layout/bound/needs.hpp"

#include <algorithm>
#include <set>

namespace barrow::layout {
namespace {

constexpr std::size_t most_pairs = 500'000; // of an item and a sheet
constexpr std::size_t most_parts = 60;

using Holders = std::vector<bool>; ///< for each sheet, whether it holds the item

Holders holders_of(const Instance& instance, const Item& item) {
    Holders holders;
    for (const Sheet& sheet : instance.sheets) holders.push_back(instance.holds(sheet, item));
    return holders;
}

bool within(const Holders& inner, const Holders& outer) {
    for (std::size_t s = 0; s < inner.size(); ++s)
        if (inner[s] && !outer[s]) return false;
    return true;
}

Instance part_on(const Instance& instance, const Holders& sheets,
                 const std::vector<Holders>& holders) {
    Instance part = instance;
    part.items.clear();
    part.sheets.clear();
    for (std::size_t i = 0; i < holders.size(); ++i)
        if (within(holders[i], sheets)) part.items.push_back(instance.items[i]);
    for (std::size_t s = 0; s < sheets.size(); ++s)
        if (sheets[s]) part.sheets.push_back(instance.sheets[s]);
    return part;
}

} // namespace

std::vector<Instance> parts_by_need(const Instance& instance, std::int64_t& steps) {
    std::vector<Instance> parts;
    const std::size_t pairs = instance.items.size() * instance.sheets.size();
    if (pairs > most_pairs) return parts;
    std::vector<Holders> holders;
    for (const Item& item : instance.items) holders.push_back(holders_of(instance, item));
    std::set<Holders> sets(holders.begin(), holders.end());
    sets.erase(Holders(instance.sheets.size(), true));
    steps += static_cast<std::int64_t>(pairs) * 4;
    for (const Holders& sheets : sets) {
        if (parts.size() == most_parts) return parts;
        parts.push_back(part_on(instance, sheets, holders));
        steps += static_cast<std::int64_t>(pairs) * 2;
    }
    return parts;
}

} // namespace barrow::layout
