#pragma once

#include "store/ledger/ledger.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::store {

/// Postings after `posting` that gave something to the holder and were not reversed.
std::vector<Posting> postings_giving_to(Database& database, std::int64_t holder,
                                        std::int64_t posting);

/// Postings after `posting` that took something from the holder and were not reversed.
std::vector<Posting> postings_taking_from(Database& database, std::int64_t holder,
                                          std::int64_t posting);

/// A holder in words: "the lot of FERN-12 received on 2027-03-01", "offcut K7M-4", "batch 3",
/// "journal 3-02", "sold", "written off", "the supplier".
std::string name_of_holder(Database& database, std::int64_t holder);

/// A movement with everything that is told of it: the entry it belongs to, the holders it went
/// between (kind, and in words as name_of_holder has them), and what it was of.
struct ToldMovement {
    Movement movement;
    Posting posting;
    std::string from_kind;
    std::string to_kind;
    std::string from;
    std::string to;
    std::int64_t material_id = 0; ///< 0: a whole journal
    std::int64_t unit = 0;        ///< measure of one whole unit of the lot; 0: a whole journal
    std::string supplier;         ///< name of the lot's supplier; empty when there is none
};

/// Movements of a lot (and of other lots' value on its shelf), of all lots of a material, or from
/// and to one holder, in the order in which they were written. Found through the indices on lot and
/// holder: cost grows with what is given, not with the ledger.
std::vector<ToldMovement> movements_of_lot(Database& database, std::int64_t lot);
std::vector<ToldMovement> movements_of_material(Database& database, std::int64_t material);
std::vector<ToldMovement> movements_touching(Database& database, std::int64_t holder);

/// The movement that took the holder's last away for good: the latest one from it. Nothing when
/// nothing ever left.
std::optional<ToldMovement> last_movement_from(Database& database, std::int64_t holder);

/// The latest day on which something came to the holder or left it.
std::optional<base::Date> last_day_of(Database& database, std::int64_t holder);

/// What a journal was sold for by that posting, whether it stands or not.
std::optional<base::Money> price_of_sale(Database& database, std::int64_t posting,
                                         std::int64_t journal);

/// Postings that did something to a batch and those that reverse them, in order, also those that
/// moved nothing (planning).
struct BatchEntry {
    Posting posting;
    std::string status; ///< what the batch became; empty for a reversal
};
std::vector<BatchEntry> entries_of_batch(Database& database, std::int64_t batch);

} // namespace barrow::store
