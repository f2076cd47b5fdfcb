#include "design/work/names.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "design/formula/not_to_be_had.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

/// Nesting of all formulas that hang on one another, together: far more than a recipe has, far less
/// than the stack bears.
constexpr int most_depth = 1'500;

/// Undoes what a name being worked out has put on the books, however that ends.
class UnderWay {
public:
    UnderWay(bool& flag, std::vector<std::string>& path, std::string_view name, int& depth, int by)
        : flag_(flag), path_(path), depth_(depth), by_(by) {
        flag_ = true;
        path_.emplace_back(name);
        depth_ += by_;
    }
    ~UnderWay() {
        flag_ = false;
        path_.pop_back();
        depth_ -= by_;
    }
    UnderWay(const UnderWay&) = delete;
    UnderWay& operator=(const UnderWay&) = delete;

private:
    bool& flag_;
    std::vector<std::string>& path_;
    int& depth_;
    int by_;
};

} // namespace

void Names::set(const std::string& name, const Quantity& value) {
    Entry entry;
    entry.value = value;
    entry.known = true;
    entries_[name] = std::move(entry);
}

void Names::define(const std::string& name, const Formula* formula) {
    Entry entry;
    entry.formula = formula;
    entries_[name] = std::move(entry);
}

void Names::define(const std::string& name,
                   std::function<Quantity(const std::string& where)> work_out) {
    Entry entry;
    entry.work_out = std::move(work_out);
    entries_[name] = std::move(entry);
}

Lookup Names::lookup_for(const Formula& formula) {
    return [this, &formula](std::string_view name, std::size_t offset) {
        return value(name, formula.place().at(offset));
    };
}

Quantity Names::value(const Formula& formula) {
    return evaluate(formula, lookup_for(formula));
}

bool Names::holds(const Formula& condition) {
    return design::holds(condition, lookup_for(condition));
}

std::string Names::spelled(const Formula& formula) {
    return spelled_out(formula, lookup_for(formula));
}

std::string Names::filled_in(const std::string& text, const std::string& where,
                             const std::string& otherwise) {
    std::string result;
    std::size_t from = 0;
    for (;;) {
        const std::size_t open = text.find('{', from);
        const std::size_t close = text.find('}', open == std::string::npos ? from : open);
        if (open == std::string::npos || close == std::string::npos)
            return result + text.substr(from);
        result += text.substr(from, open - from);
        try {
            result += to_text(value(text.substr(open + 1, close - open - 1), where));
        } catch (const NotToBeHad&) {
            if (otherwise.empty()) throw;
            result += otherwise;
        }
        from = close + 1;
    }
}

Quantity Names::value(std::string_view name, const std::string& where) {
    const auto found = entries_.find(name);
    if (found == entries_.end()) {
        std::vector<std::string> known;
        for (const auto& [other, entry] : entries_) known.push_back(other);
        std::string hint = base::did_you_mean(name, known);
        if (hint.empty() && formula_unit(name)) hint = "it is a unit: put a number before it";
        throw base::bad_input(where, fmt::format("there is no name \"{}\"", name), hint);
    }
    Entry& entry = found->second;
    if (entry.known) return entry.value;
    if (entry.failure) std::rethrow_exception(entry.failure);
    if (entry.under_way) complain_of_circle(name, where);
    try {
        entry.value = worked_out(name, entry, where);
        entry.known = true;
        return entry.value;
    } catch (const base::Error&) {
        // A function's message names the place that asked, so the next place gets its own.
        if (entry.formula != nullptr) entry.failure = std::current_exception();
        throw;
    }
}

Quantity Names::worked_out(std::string_view name, Entry& entry, const std::string& where) {
    const int by = entry.formula != nullptr ? entry.formula->depth() + 1 : 10;
    if (depth_ + by > most_depth)
        throw base::bad_input(where, "too many names hang on one another here",
                              "give some of them plain values");
    const UnderWay mark(entry.under_way, path_, name, depth_, by);
    return entry.formula != nullptr ? value(*entry.formula) : entry.work_out(where);
}

void Names::complain_of_circle(std::string_view name, const std::string& where) const {
    std::string circle;
    const auto start = std::find(path_.begin(), path_.end(), name);
    for (auto it = start; it != path_.end(); ++it) circle += *it + " -> ";
    throw base::bad_input(where, fmt::format("these need each other: {}{}", circle, name),
                          "one of them must be given without the others");
}

} // namespace barrow::design
