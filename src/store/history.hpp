#pragma once

#include "store/ledger.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::store {

/// Postings after `posting` that took something from the holder and were not reversed.
std::vector<Posting> postings_taking_from(Database& database, std::int64_t holder,
                                          std::int64_t posting);

/// A holder in words: "the lot of FERN-12 received on 2027-03-01", "offcut K7M-4", "batch 3",
/// "journal 3-02", "sold", "written off", "the supplier".
std::string name_of_holder(Database& database, std::int64_t holder);

} // namespace barrow::store
