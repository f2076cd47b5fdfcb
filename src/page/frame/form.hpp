#pragma once

#include "page/server/http.hpp"
#include "workshop/shared/fields.hpp"

#include <string>
#include <utility>
#include <vector>

namespace barrow::page {

/// One field of a form.
struct Field {
    /// How it is filled in. Numbers are typed as text, since "6 1/2in" and "2,5 l" are numbers to a
    /// maker.
    enum class As { text, area, choice, tick, hidden, date };

    std::string name;
    std::string label;
    As as = As::text;
    std::string value = {};
    std::string help = {};                                         ///< a line below it
    std::vector<std::pair<std::string, std::string>> choices = {}; ///< value and words
    bool required = false;
    bool number = false;      ///< a phone shows digits first
    std::string problem = {}; ///< what is wrong with what was typed
    /// Values of the field "form" with which this one matters ("sheet length"); empty: with all.
    std::string only_for = {};
};

/// A form that writes. Each carries a key made anew with the page it stands on, so that sending it
/// twice books it once.
struct Form {
    std::string action; ///< path it is sent to
    std::string button;
    std::vector<Field> fields = {};
    std::vector<std::string> problems = {}; ///< those that belong to no one field
    std::string about = {};                 ///< a sentence above the fields
    bool reads = false;                     ///< sent with GET, writes nothing, has no key
    bool in_one_line = false;               ///< short: fields and button side by side

    /// Fills in what was typed before; a tick that was not sent is empty.
    void fill(const Values& values);
    /// Puts each problem beside its field, else above the form. A problem belongs to the field that
    /// its place ends with ("packs", "receipts.csv:7, packs").
    void blame(const std::vector<base::Problem>& problems);
};

/// The form as HTML. Every field has a label; problems are read out with their field.
std::string html(const Form& form);

/// The fields of a form as a row for a use case: all but "key", blanks at the ends cut off.
workshop::Row row_of(const Values& values);

} // namespace barrow::page
