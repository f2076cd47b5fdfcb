#pragma once

#include "store/selling/fairs.hpp"
#include "workshop/selling/journal_care.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace barrow::workshop {

/// A market day and what came of it.
struct FairView {
    Settings settings;
    store::Fair fair;
    /// Beside fair.journals: what each should bring (AskingPrices); nothing where no price is
    /// known.
    std::vector<std::optional<base::Money>> asked;
    std::int64_t sold = 0;
    base::Money takings;
    // Of the journals sold:
    base::Money materials, labour, overheads;
    base::Money costs; ///< of the fair itself

    /// Taken less materials and what the fair cost: left for the maker's work and overheads.
    base::Money left() const { return takings - materials - costs; }
    /// What is left beyond those, reckoned as the journals were.
    base::Money profit() const { return left() - labour - overheads; }

    /// How many of the journals taken along must be sold, at the prices asked, for what they bring
    /// over their materials to cover the fair. Nothing when no number does, or some have no price.
    std::optional<std::int64_t> to_cover;
};

/// A market day to come or gone.
struct NewFair {
    std::string name;
    base::Date held_on;
    std::string pitch_fee; ///< as a person writes it; empty: none
};

/// Notes a fair under an entry of the book. Throws base::Error (Kind::bad_input).
FairView new_fair(Context& context, const NewFair& wanted);

/// Notes what else the fair cost. Throws base::Error (Kind::bad_input) also where there is no such
/// fair or it was taken back, as all below.
FairView pay_for_fair(Context& context, std::int64_t number, const std::string& what,
                      const std::string& amount);

/// What is taken along: journals by serial, and so many of a design ("quayside", 4): those longest
/// in hand that are not on the list yet. They stay in hand until they are sold, and the price asked
/// for them is fixed. Throws base::Error: Kind::bad_input for a journal there is not or that is on
/// the list; Kind::refused for one not in hand, and where there are too few of a design.
struct Taking {
    Serials serials;
    std::vector<std::pair<std::string, std::int64_t>> designs;
};
FairView take_to_fair(Context& context, std::int64_t number, const Taking& taking);

/// Sells journals at the fair, on its day. What was not on the list is put on it by that. Throws as
/// sell_journals.
std::pair<JournalsLeft, FairView> sell_at_fair(Context& context, std::int64_t number,
                                               const Serials& serials, const std::string& price);

FairView fair_numbered(store::Database& database, std::int64_t number);

/// Latest first, those taken back left out.
struct Fairs {
    Settings settings;
    std::vector<FairView> fairs;
};
Fairs fairs(store::Database& database);

} // namespace barrow::workshop
