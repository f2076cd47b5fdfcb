#pragma once

#include "base/date.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::store {

/// A design with the text of it that is in use.
struct StoredDesign {
    std::int64_t id = 0;
    std::string code;
    std::string name;
    std::int64_t text_id = 0;
    std::int64_t number = 0; ///< of the text: 1, 2, 3, ...
    std::string text;
    std::string file;
    base::Date brought_on;
};

/// Keeps a text of a design: makes the design when its code is new, else adds a text with the
/// next number. A text equal to the one in use is not added again. Gives the design as it is then.
StoredDesign keep_design(Database& database, const StoredDesign& design);

std::optional<StoredDesign> find_design(Database& database, const std::string& code);
std::vector<StoredDesign> all_designs(Database& database);

} // namespace barrow::store
