#pragma once

#include "base/date.hpp"
#include "base/money.hpp"
#include "store/ledger/ledger.hpp"

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace barrow::store {

/// Called before a posting of that day is written: when it is the first of a new quarter, the
/// balances as they stand become those of the end of the quarter before.
void close_quarters(Database& database, const base::Date& made_on);

/// Last day of the quarter before the one `date` lies in.
base::Date end_of_quarter_before(const base::Date& date);

/// What every shelf, offcut, batch and journal had at the end of `day`, from the last quarter
/// before it and the movements since. Cost grows with what was there and with the movements of at
/// most one quarter (in a shop whose entries were made in their own quarter), not with the ledger.
std::vector<Balance> balances_on(Database& database, const base::Date& day);

/// Value each kind of holder had at the end of `day`; likewise.
std::map<std::string, base::Money> values_on(Database& database, const base::Date& day);

/// What is wrong with the quarters kept, in words: each is compared with the movements up to it.
std::vector<std::string> quarter_faults(Database& database);

} // namespace barrow::store
