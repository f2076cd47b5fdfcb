#pragma once

#include "store/file/database.hpp"

#include <SQLiteCpp/Statement.h>

#include <string>

namespace barrow::store {

/// A statement lent out of those the connection keeps prepared, reset when it is given back: for
/// questions asked over and over within one command, where preparing takes longer than answering.
/// The same text is lent to one at a time: for functions that call no other in between.
class Kept {
public:
    Kept(Database& database, const std::string& text) : statement_(database.kept(text)) {}
    ~Kept() { statement_.tryReset(); }
    Kept(const Kept&) = delete;
    Kept& operator=(const Kept&) = delete;

    SQLite::Statement& operator*() const { return statement_; }
    SQLite::Statement* operator->() const { return &statement_; }

private:
    SQLite::Statement& statement_;
};

} // namespace barrow::store
