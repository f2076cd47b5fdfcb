#pragma once

#include "design/design.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::design {

/// Every name of a design with its value, worked out on first use, so that definitions may stand
/// in any order. Finds circles.
class Names {
public:
    void set(const std::string& name, const Quantity& value);
    void define(const std::string& name, const Formula* formula);
    /// `name` stands for the sum of the formulas (cover.length of its panels).
    void define_sum(const std::string& name, std::vector<const Formula*> formulas);

    /// Value of a formula. Throws base::Error as evaluate does, for unknown names and circles too.
    Quantity value(const Formula& formula);
    /// The formula with the values of its names.
    std::string spelled(const Formula& formula);

private:
    struct Entry {
        Quantity value;
        bool known = false;
        bool under_way = false;
        std::vector<const Formula*> formulas;
    };

    Lookup lookup_for(const Formula& formula);
    Quantity value_of(std::string_view name, const std::string& where);
    [[noreturn]] void complain_of_circle(std::string_view name, const std::string& where) const;

    std::map<std::string, Entry, std::less<>> entries_;
    std::vector<std::string> path_; ///< names being worked out, outermost first
};

} // namespace barrow::design
