#pragma once

#include "base/form.hpp"
#include "base/money.hpp"
#include "store/database.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace barrow::store {

/// One design of a batch; see schema/3_making.sql.
struct BatchRun {
    std::int64_t design_text_id = 0;
    std::int64_t journals = 0;
    base::Money materials;
    base::Money labour;
    base::Money overheads;
    std::map<std::string, std::string> set; ///< parameters changed
    std::map<std::string, std::string> use; ///< materials changed
};

struct Batch {
    std::int64_t id = 0; ///< also its holder
    std::int64_t posting_id = 0;
    std::int64_t number = 0;
    std::vector<BatchRun> runs;
};

/// A sheet, roll or strip as it was cut.
struct BatchSheet {
    std::int64_t id = 0;
    std::int64_t source_id = 0; ///< the lot or offcut
    std::int64_t plan = 0;
    base::StockSize size;
    base::Money cost;
    std::int64_t pieces = 0, kept = 0, waste = 0;
};

struct BatchPiece {
    std::int64_t run = 0;
    std::string part;
    std::int64_t x = 0, y = 0, width = 0, height = 0;
};

/// One finished journal.
struct Journal {
    std::int64_t id = 0; ///< also its holder
    std::int64_t posting_id = 0;
    std::string serial;
    std::int64_t batch_id = 0;
    std::int64_t run = 0;
    base::Money materials, labour, overheads;
    std::string note;
};

/// A finished journal that is there, with what it is.
struct JournalOnHand {
    Journal journal;
    std::string design_code;
    std::string design_name;
    std::int64_t batch_number = 0;
};

/// Makes the batch with its runs and its holder, giving it the next number.
Batch add_batch(Database& database, Batch batch);
/// Writes how a sheet was cut; gives its id.
std::int64_t add_batch_sheet(Database& database, std::int64_t batch, const BatchSheet& sheet,
                             const std::vector<BatchPiece>& pieces);
/// Makes the journal and its holder.
std::int64_t add_journal(Database& database, const Journal& journal);

std::optional<Batch> find_batch(Database& database, std::int64_t number);
std::vector<BatchSheet> sheets_of(Database& database, std::int64_t batch);
std::vector<Journal> journals_of(Database& database, std::int64_t batch);
/// Journals finished and still in hand, by design, then serial.
std::vector<JournalOnHand> journals_on_hand(Database& database);

} // namespace barrow::store
