#pragma once

#include "base/date.hpp"
#include "base/error.hpp"
#include "base/length.hpp"
#include "base/money.hpp"
#include "base/rational.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace barrow::workshop {

/// Most units, packs or loops that one field may give.
inline constexpr std::int64_t most_units = 1'000'000;

/// One row of a table a person wrote: a CSV row, or the options of one command. Values are still
/// text; a field that is absent and one that is empty are the same.
struct Row {
    std::string where;        ///< "papers.csv:7" or empty on the command line
    std::string field_prefix; ///< "" for a file, "--" on the command line
    std::map<std::string, std::string> fields;
};

/// Reads the fields of a row into values, gathering a problem for each that does not fit instead
/// of stopping at the first. Values given back for a problem are harmless stand-ins: call
/// throw_if_any (or hand the problems on) before using them.
class Fields {
public:
    Fields(const Row& row, std::vector<base::Problem>& problems) : row_(row), problems_(problems) {}

    bool has(const std::string& name) const;
    std::string text(const std::string& name, bool required = false);
    /// A code: 1 to 40 letters, digits, - _ . without spaces.
    std::string code(const std::string& name, bool required = false);
    /// Zero or a length (read_measure).
    base::Length length(const std::string& name, std::optional<base::Unit> bare,
                        bool required = false);
    /// What the field `unit` of the row says of lengths without one, else `otherwise`.
    std::optional<base::Unit> bare_unit(std::optional<base::Unit> otherwise);
    std::optional<base::Money> money(const std::string& name, const base::Currency& currency,
                                     bool required = false);
    /// A whole number from `least` to `most`.
    std::optional<std::int64_t> count(const std::string& name, std::int64_t least,
                                      std::int64_t most, bool required = false);
    /// Thousandths of a millilitre or gram: "250 ml", "250", "0.5 l", "1 kg".
    std::optional<std::int64_t> amount(const std::string& name, bool mass, bool required = false);
    std::optional<base::Date> date(const std::string& name, bool required = false);
    /// One of `choices`, or empty.
    std::string choice(const std::string& name, const std::vector<std::string>& choices,
                       bool required = false);

    void complain(const std::string& name, std::string what, std::string hint = {});
    void complain(base::Problem problem) { problems_.push_back(std::move(problem)); }
    std::string where(const std::string& name) const;

private:
    /// Trimmed value; empty when absent (a problem when required).
    std::string raw(const std::string& name, bool required);
    /// Runs `read`, turning what it throws into problems.
    template <typename Read>
    void attempt(Read read);

    const Row& row_;
    std::vector<base::Problem>& problems_;
};

/// A length as a person wrote it. A bare number other than 0 is of the unit `bare`, where the shop
/// or the table names one; else it is refused, since nobody can tell 25 mm from 25 m. Throws
/// base::Error (Kind::bad_input).
base::Length read_measure(std::string_view text, const std::string& where,
                          std::optional<base::Unit> bare);

/// A text to be kept, as it came: UTF-8, in one line, without signs that steer a screen or turn the
/// text round (control characters of either set, line and paragraph separators, marks and overrides
/// of direction). Throws base::Error (Kind::bad_input).
std::string plain_text(std::string text, const std::string& where);

/// Throws base::Error (Kind::bad_input) with all problems when there are any.
void throw_if_any(const std::vector<base::Problem>& problems);

} // namespace barrow::workshop
