#pragma once

#include "store/selling/journals.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/settings.hpp"

#include <optional>
#include <string>
#include <vector>

namespace barrow::workshop {

/// Serials as a person names them. Everything below throws base::Error and changes nothing:
/// Kind::bad_input for a serial there is not (with the nearest in hand) or that is named twice;
/// Kind::refused for a journal that is not in hand, saying when and by which entry it left.
using Serials = std::vector<std::string>;

/// What is to be changed about journals; a text that is empty keeps what is, "-" empties it.
struct JournalChange {
    std::string place;
    std::string price;     ///< wanted on the stall, as a person writes it
    std::string condition; ///< "good" or "second"
    std::string note;
};

/// Changes how journals in hand are described. No entry in the book: nothing moved. Gives them as
/// they are then. Throws as said above; Kind::bad_input for a price or condition that does not fit.
std::vector<store::Journal> change_journals(Context& context, const Serials& serials,
                                            const JournalChange& change);

/// Journals that left the shop whole.
struct JournalsLeft {
    std::int64_t posting = 0;
    base::Date day;
    Settings settings;
    std::vector<store::Journal> journals;
    std::vector<base::Money> prices; ///< beside journals when they were sold, else empty
    base::Money value;               ///< materials that went with them
};

/// How journals are sold.
struct Selling {
    std::string price; ///< of each, as a person writes it; empty: each at the price asked
    std::optional<base::Date> day; ///< else today
};

/// Sells journals. Throws as said above; Kind::bad_input for a price that cannot be read, a
/// missing one, or a day in the future or before the journal was last moved.
JournalsLeft sell_journals(Context& context, const Serials& serials, const Selling& how);

/// Gives journals away; context.note says to whom. Their materials count as written off.
/// Throws as said above; Kind::refused without a note.
JournalsLeft give_journals(Context& context, const Serials& serials);

/// Writes journals off that cannot be sold any more; context.note says what happened. Throws as
/// give_journals.
JournalsLeft damage_journals(Context& context, const Serials& serials);

/// The journal of that serial, in hand or not. Throws base::Error (Kind::bad_input).
store::Journal journal_called(store::Database& database, const std::string& serial);

/// Journals of those serials, all in hand. Throws as said above.
std::vector<store::Journal> journals_in_hand(store::Database& database, const Serials& serials);

} // namespace barrow::workshop
