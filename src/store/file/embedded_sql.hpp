#pragma once

#include <string_view>
#include <vector>

namespace barrow::store {

/// A file of schema/ or migrations/, built into the program. `number` is 0 for schema files.
struct EmbeddedScript {
    int number;
    std::string_view name;
    std::string_view sql;
};

/// What makes a fresh shop, in the order to be run.
std::vector<EmbeddedScript> schema_scripts();

/// The steps from an empty file to today's shop, in order: number 1, 2, 3, ...
std::vector<EmbeddedScript> migration_scripts();

} // namespace barrow::store
