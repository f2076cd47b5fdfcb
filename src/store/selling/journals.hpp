#pragma once

#include "base/money.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::store {

/// What finishing one run of a batch came to; see schema/3_making.sql.
struct FinishedRun {
    std::int64_t posting_id = 0;
    std::int64_t batch_id = 0;
    std::int64_t run = 0;
    std::int64_t journals = 0;
    std::int64_t minutes = 0; ///< thousandths
    base::Money materials, labour, overheads;
};

/// A paper that a journal has in a slot that left a choice.
struct JournalPaper {
    std::string slot;
    std::string material; ///< code
};

/// One finished journal.
struct Journal {
    std::int64_t id = 0; ///< also its holder
    std::int64_t posting_id = 0;
    std::string serial;
    std::int64_t batch_id = 0;
    std::int64_t run = 0;
    base::Money materials, labour, overheads;
    bool second = false; ///< not good enough for the full price
    std::string place;
    std::optional<base::Money> price; ///< wanted, if it differs from the design's
    std::string note;
    std::vector<JournalPaper> papers; ///< where it was asked for: see journals_on_hand

    base::Money cost() const { return materials + labour + overheads; }
};

/// A finished journal with what it is.
struct JournalOnHand {
    Journal journal;
    std::string design_code;
    std::string design_name;
    std::int64_t batch_number = 0;
};

void add_finished_run(Database& database, const FinishedRun& run);
std::vector<FinishedRun> finished_runs(Database& database, std::int64_t posting);

/// Makes the journal and its holder; gives its id.
std::int64_t add_journal(Database& database, const Journal& journal);
void add_journal_paper(Database& database, std::int64_t journal, const std::string& slot,
                       std::int64_t material_id);
/// By slot, as the parts that follow them come in the design.
std::vector<JournalPaper> papers_of_journal(Database& database, std::int64_t journal);
/// How many journals a batch ever had, those of reversed entries included.
std::int64_t journals_ever(Database& database, std::int64_t batch);

std::optional<Journal> find_journal(Database& database, const std::string& serial);
/// Place, price and note may change; what it cost may not.
void update_journal(Database& database, const Journal& journal);
/// Journals finished by one posting.
std::vector<Journal> journals_of_posting(Database& database, std::int64_t posting);
/// Journals finished and still in hand, with their papers, by design, then serial.
std::vector<JournalOnHand> journals_on_hand(Database& database);

} // namespace barrow::store
