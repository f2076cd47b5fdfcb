#pragma once

#include "base/date.hpp"
#include "workshop/stock/stockroom.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::workshop {

/// Stock as it stood at the end of a day.
struct StockOn {
    base::Date on;
    Stock stock; ///< materials with something there; nothing is reserved or low in the past
    base::Money in_work;
    std::int64_t journals = 0;
    base::Money in_journals; ///< their materials
};

/// Stock and value at the end of `on`, by the days entries are true of; for today the same as
/// `stock`. Cost grows with what was there and with the entries of at most one quarter, not with
/// the ledger. Throws base::Error (Kind::bad_input) for a day after today.
StockOn stock_on(store::Database& database, const base::Date& on, const base::Date& today);

/// A quantity in the form's measure and what it cost.
struct Amount {
    std::int64_t quantity = 0;
    base::Money value;
};

/// What one month took of one material.
struct UsageLine {
    std::string month; ///< "2027-03"
    std::string material;
    std::string name;
    base::Form form = base::Form::count;
    bool bulk_is_mass = false;
    Amount in_journals; ///< went into journals finished in that month
    Amount kept;        ///< kept as offcuts, or found again as such
    Amount written_off; ///< spoiled, lost, given up; below zero when more was found again
};

struct Usage {
    Settings settings;
    base::Date from, to;
    std::vector<UsageLine> lines; ///< by month, then code
    base::Money in_journals, kept, written_off;
};

/// What was used of each material in each month from `from` to `to`. What was taken back counts
/// against the month of the taking back. Cost grows with the entries of the period asked for.
/// Throws base::Error (Kind::usage) when the period ends before it begins.
Usage usage(store::Database& database, const base::Date& from, const base::Date& to);

/// A material that lies about.
struct SlowLine {
    StockLine stock;
    base::Date since;  ///< its last use, or the coming of the oldest of what is there
    long days = 0;     ///< since then
    bool dead = false; ///< nothing was used since the oldest of what is there came in
    std::optional<base::Date> last_use; ///< ever
};

struct SlowStock {
    Settings settings;
    long days = 0;               ///< at least so long
    std::vector<SlowLine> lines; ///< longest first
    base::Money value;
};

/// Materials on hand that were not used for `days` days: slow when they were used since they came
/// in, dead when not. Cost grows with the materials on hand, the entries of these days, and the
/// lots of what is listed.
SlowStock slow_stock(store::Database& database, long days, const base::Date& today);

/// What the offcut box holds of one material, or of one age.
struct BoxSum {
    std::string code; ///< of the material, or "under 3 months" and so on
    std::string name;
    base::Form form = base::Form::sheet;
    std::int64_t offcuts = 0;
    std::int64_t quantity = 0; ///< of a material, in its form's measure
    base::Money value;
};

struct BoxByAge {
    Settings settings;
    std::vector<OffcutLine> lines; ///< longest kept first
    std::vector<BoxSum> materials; ///< by code
    std::vector<BoxSum> ages;      ///< youngest first
    base::Money value;
};

/// The offcut box by age. Lists everything that is in it, and reads no more than that.
BoxByAge box_by_age(store::Database& database, const base::Date& today);

/// Something the shop holds value in, at both ends of a period.
struct Ends {
    base::Money opening, closing;
};

/// Where the money went in a tax year: opening + bought - closing = used, step by step.
struct Year {
    Settings settings;
    base::Date from, to;
    Ends materials;          ///< on shelves and in offcuts
    Ends work;               ///< batches under way
    Ends journals;           ///< finished, their materials
    base::Money bought;      ///< less what was sent back or taken back
    base::Money came_back;   ///< out of journals taken apart
    base::Money put_to_work; ///< materials cut and taken, less offcuts kept and what was put back
    base::Money materials_lost; ///< written off
    base::Money made;           ///< cost of the journals finished
    base::Money work_lost;      ///< batches given up
    base::Money sold;           ///< cost of the journals sold
    base::Money journals_lost;  ///< given away, damaged, rest of those taken apart
    std::int64_t journals_made = 0;
    std::int64_t journals_sold = 0;
    base::Money takings; ///< what the journals sold brought in
    base::Money fairs;   ///< what the fairs held in the period cost: pitches, the way there
    /// By how much the three accounts, from the stock at both ends, differ from what the ledger
    /// moved between them. Nothing in a sound shop.
    base::Money difference;

    Ends all() const {
        return {materials.opening + work.opening + journals.opening,
                materials.closing + work.closing + journals.closing};
    }
    base::Money written_off() const { return materials_lost + work_lost + journals_lost; }
    base::Money used() const { return all().opening + bought - all().closing; }
    /// What was written off is a cost of the year too (IAS 2.34).
    base::Money gross_profit() const { return takings - sold - written_off(); }
};

/// Cost of goods made and sold from `from` to `to`, materials only. The ends come from the value
/// kept of past quarters, what lies between them from the movements: two ways that must agree to
/// the unit. Cost grows with the entries of the period and of at most a quarter before each end.
/// Throws base::Error (Kind::usage) when the period ends before it begins.
Year year(store::Database& database, const base::Date& from, const base::Date& to);

} // namespace barrow::workshop
