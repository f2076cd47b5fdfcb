#pragma once

#include "base/form.hpp"
#include "store/ledger/ledger.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::workshop {

/// What a history can be of.
enum class Subject { material, lot, offcut, batch, journal };

/// "material", "lot", "offcut", "batch", "journal".
std::string_view name_of(Subject subject);

/// What was there once an entry had been made.
struct HeldThen {
    std::int64_t units = 0;    ///< material, lot: whole units on the shelf (bulk: thousandths)
    std::int64_t offcuts = 0;  ///< material, lot: in offcuts, in the form's measure
    std::int64_t quantity = 0; ///< all of it in the form's measure; of a batch: of the line's
                               ///< material; of a journal: 1 or 0
    base::Money value;         ///< of all of it; of a batch: of everything in work
};

/// One thing that happened. Lots of one material that went the same way in one entry are one line.
struct HistoryLine {
    store::Posting posting;
    std::string kind; ///< of the movement ("receive", "use", ...); what the batch became, for an
                      ///< entry that moved nothing ("planned"), or "reverse"
    std::string from_kind,
        to_kind;          ///< of the holders: "shelf", "offcut", ...; empty: moved nothing
    std::string from, to; ///< the holders in words: "offcut K7M-4", "batch 3", a supplier's name
    std::string material; ///< code; empty for a whole journal
    base::Form form = base::Form::count;
    bool bulk_is_mass = false;
    int change = 0; ///< 1: came in, -1: went out, 0: moved within or beside what the history is of
    std::int64_t quantity = 0;        ///< moved, in the form's measure (1 for a whole journal)
    std::int64_t units = 0;           ///< the same in whole units where it left or reached a shelf
    base::Money value;                ///< moved
    std::optional<base::Money> price; ///< of a sale
    HeldThen after;
};

struct History {
    Settings settings;
    Subject of = Subject::material;
    std::string code; ///< of the material; number of the lot or batch; label; serial
    std::string name; ///< of the material or, of a journal, its design
    base::Form form = base::Form::count; ///< of a material, lot or offcut
    bool bulk_is_mass = false;
    std::vector<HistoryLine> lines; ///< in the order in which the entries were made
};

/// Everything that ever happened to one thing, with who, when, why and what was there then. A
/// material's history is that of all its lots, a lot's that of its shelf and everything that came
/// of it: what is there is what is on the shelf and in offcuts. Lines stand in the order of their
/// entries; an entry dated back shows the day it is true of. Reads the movements it lists through
/// the ledger's indices, so cost grows with its own length, not with the ledger. Throws base::Error
/// (Kind::bad_input) when there is no such thing.
History history(store::Database& database, Subject of, const std::string& code);

} // namespace barrow::workshop
