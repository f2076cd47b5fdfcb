#include "design/names.hpp"

#include "base/error.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {

void Names::set(const std::string& name, const Quantity& value) {
    entries_[name] = {value, true, false, {}};
}

void Names::define(const std::string& name, const Formula* formula) {
    entries_[name] = {{}, false, false, {formula}};
}

void Names::define_sum(const std::string& name, std::vector<const Formula*> formulas) {
    entries_[name] = {{}, false, false, std::move(formulas)};
}

Lookup Names::lookup_for(const Formula& formula) {
    return [this, &formula](std::string_view name, std::size_t offset) {
        return value_of(name, formula.place().at(offset));
    };
}

Quantity Names::value(const Formula& formula) { return evaluate(formula, lookup_for(formula)); }

std::string Names::spelled(const Formula& formula) {
    return spelled_out(formula, lookup_for(formula));
}

Quantity Names::value_of(std::string_view name, const std::string& where) {
    const auto found = entries_.find(name);
    if (found == entries_.end()) {
        std::vector<std::string> known;
        for (const auto& [other, entry] : entries_) known.push_back(other);
        throw base::bad_input(where, fmt::format("there is no name \"{}\"", name),
                              base::did_you_mean(name, known));
    }
    Entry& entry = found->second;
    if (entry.known) return entry.value;
    if (entry.under_way) complain_of_circle(name, where);
    entry.under_way = true;
    path_.emplace_back(name);
    Quantity total = value(*entry.formulas.front());
    for (std::size_t i = 1; i < entry.formulas.size(); ++i) {
        const Quantity next = value(*entry.formulas[i]);
        if (next.dimension != total.dimension)
            throw base::bad_input(entry.formulas[i]->place().at(),
                                  fmt::format("is {}, but its neighbours are {}",
                                              describe(next.dimension), describe(total.dimension)));
        total.number = total.number + next.number;
    }
    path_.pop_back();
    entry.under_way = false;
    entry.value = total;
    entry.known = true;
    return total;
}

void Names::complain_of_circle(std::string_view name, const std::string& where) const {
    std::string circle;
    const auto start = std::find(path_.begin(), path_.end(), name);
    for (auto it = start; it != path_.end(); ++it) circle += *it + " -> ";
    throw base::bad_input(where, fmt::format("these need each other: {}{}", circle, name),
                          "one of them must be given without the others");
}

} // namespace barrow::design
