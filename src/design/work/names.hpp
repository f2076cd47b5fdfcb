#pragma once

#include "design/formula/formula.hpp"

#include <exception>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::design {

/// Every name of a design with its value, worked out on first use, so that definitions may stand
/// in any order. Finds circles. A name that could not be worked out fails the same way each time,
/// so that its problem is told once however often it is used.
class Names {
public:
    void set(const std::string& name, const Quantity& value);
    /// The formula must outlive the names.
    void define(const std::string& name, const Formula* formula);
    /// A name worked out by a function; `where` is the place that uses it, for messages.
    void define(const std::string& name,
                std::function<Quantity(const std::string& where)> work_out);

    bool has(std::string_view name) const { return entries_.find(name) != entries_.end(); }

    /// Value of a formula. Throws base::Error as evaluate does, for unknown names and circles too.
    Quantity value(const Formula& formula);
    /// Value of a name. Throws the same.
    Quantity value(std::string_view name, const std::string& where);
    /// Whether a condition holds. Throws the same.
    bool holds(const Formula& condition);
    /// The formula with the values of its names.
    std::string spelled(const Formula& formula);
    /// A text with each {name} replaced by its value. Throws for names there are not. What is not
    /// to be had becomes `otherwise`, or throws NotToBeHad when that is empty.
    std::string filled_in(const std::string& text, const std::string& where,
                          const std::string& otherwise = {});

private:
    struct Entry {
        Quantity value;
        bool known = false;
        bool under_way = false;
        const Formula* formula = nullptr;
        std::function<Quantity(const std::string& where)> work_out;
        std::exception_ptr failure;
    };

    Lookup lookup_for(const Formula& formula);
    Quantity worked_out(std::string_view name, Entry& entry, const std::string& where);
    [[noreturn]] void complain_of_circle(std::string_view name, const std::string& where) const;

    std::map<std::string, Entry, std::less<>> entries_;
    std::vector<std::string> path_; ///< names being worked out, outermost first
    int depth_ = 0;                 ///< of all formulas being worked out together
};

} // namespace barrow::design
