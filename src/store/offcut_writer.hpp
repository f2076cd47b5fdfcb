#pragma once

#include "store/offcuts.hpp"

namespace barrow::store {

/// add_offcut for many offcuts of one entry: keeps its statements.
class OffcutWriter {
public:
    explicit OffcutWriter(Database& database);

    /// Gives the offcut its holder, its number and its label, and keeps it.
    Offcut add(Offcut offcut);

private:
    Database& database_;
    SQLite::Statement next_;
    SQLite::Statement insert_;
};

} // namespace barrow::store
