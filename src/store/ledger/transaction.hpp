#pragma once

#include "store/file/database.hpp"

#include <functional>
#include <string>

namespace barrow::store {

/// Whether a use case is meant, or only asked what it would do.
enum class Mode { commit, dry_run };

/// Runs `action` in one IMMEDIATE transaction. Just before the commit the ledger invariants are
/// verified for every lot and holder the action touched (see lot_checks.hpp; foreign keys SQLite
/// keeps itself, statement by statement); a failure throws base::broken and nothing is kept. A dry
/// run does all of this and then rolls back. Errors of SQLite come out as base::Error (see
/// guarded); a shop that can only be looked at is Kind::machine.
void write(Database& database, Mode mode, const std::function<void()>& action);

/// While it lives, what is written to the shop is written once under this key (16 to 64
/// characters): the key is kept in the transaction that commits, and where it was used before that
/// transaction is refused (base::Kind::refused) before it does anything. For one `write`: a second
/// one would be refused by the key of the first.
class Once {
public:
    Once(Database& database, std::string key);
    ~Once();
    Once(const Once&) = delete;
    Once& operator=(const Once&) = delete;

private:
    Database& database_;
};

/// Whether something was written under that key.
bool was_written(Database& database, const std::string& key);

/// Runs `action` in one read transaction: everything it reads is of one moment. Where a transaction
/// is open already it belongs to that one.
void read(Database& database, const std::function<void()>& action);

} // namespace barrow::store
