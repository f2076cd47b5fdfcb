#pragma once

#include "base/error.hpp"
#include "design/file/design_file.hpp"
#include "design/ready/ready.hpp"
#include "design/work/work_out.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <optional>
#include <string>

namespace barrow::design::test {

inline std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

inline Worked worked_from(const std::string& text, const Changes& changes = {},
                          const Facts& facts = {}) {
    return work_out(read_design(text, "test.toml"), changes, facts);
}

/// What is said of a design that cannot be read or worked out.
inline std::string complaint(const std::string& text, const Changes& changes = {},
                             const Facts& facts = {}) {
    try {
        worked_from(text, changes, facts);
        return "(accepted)";
    } catch (const base::Error& error) {
        return error.what();
    }
}

/// So many millimetres, as a decimal.
inline base::Length mm(const std::string& decimal) {
    return as_length({base::read_rational(decimal).value(), a_length}).value();
}

/// A calculator of the program with these values.
inline Worked calculated(const std::string& name,
                         const std::map<std::string, std::string>& values) {
    const ReadyDesign* calculator = find_ready(calculators(), name);
    REQUIRE(calculator != nullptr);
    return work_out(read_design(calculator->text, name), {values, {}});
}

/// The value explained under a name; empty when there is none.
inline std::string value_of(const Worked& worked, const std::string& name) {
    for (const Explanation& explanation : worked.explanations)
        if (explanation.name == name) return explanation.value;
    return {};
}

inline const WorkedPart& part_called(const Worked& worked, const std::string& name) {
    for (const auto* list : {&worked.parts, &worked.fillers})
        for (const WorkedPart& part : *list)
            if (part.name == name) return part;
    FAIL("there is no part " << name);
    throw std::logic_error("unreachable");
}

inline const Quantity* number_of(const WorkedBinding& binding, const std::string& name) {
    for (const BindingNumber& number : binding.numbers)
        if (number.name == name) return &number.value;
    return nullptr;
}

/// Whether a warning says that, and how grave it is.
inline bool any_holds(const std::vector<Warning>& warnings, const std::string& what,
                      std::optional<Severity> severity = std::nullopt) {
    return std::any_of(warnings.begin(), warnings.end(), [&](const Warning& warning) {
        return warning.text.find(what) != std::string::npos
               && (!severity || warning.severity == *severity);
    });
}

inline bool any_holds(const std::vector<std::string>& texts, const std::string& what) {
    return std::any_of(texts.begin(), texts.end(), [&](const std::string& text) {
        return text.find(what) != std::string::npos;
    });
}

} // namespace barrow::design::test
