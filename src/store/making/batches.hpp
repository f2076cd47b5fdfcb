#pragma once

#include "base/money.hpp"
#include "base/rational.hpp"
#include "store/file/database.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::store {

/// One design of a batch as it was planned; see schema/3_making.sql.
struct BatchRun {
    std::int64_t design_text_id = 0;
    std::int64_t journals = 0;
    base::Rational minutes; ///< whole run
    base::Money materials;
    base::Money labour;
    base::Money overheads;
    std::map<std::string, std::string> set; ///< parameters changed
    std::map<std::string, std::string> use; ///< materials changed
    std::string code; ///< what it was called when it was planned: "quayside", "quayside.large"
    std::string name;
};

/// What a part was planned to take and cost.
struct BatchPart {
    std::int64_t run = 0;
    std::string part;
    std::int64_t material_id = 0;
    std::int64_t quantity = 0;
    base::Money cost;
    std::string slot; ///< whose choice of paper it follows (BatchPaper); empty: it has none
};

/// Journals `first` to `last` of a run (counted from 1) have this paper in a slot that left a
/// choice. Ranges are the same for all slots of a run.
struct BatchPaper {
    std::int64_t run = 0;
    std::int64_t first = 1;
    std::int64_t last = 1;
    std::string slot;
    std::int64_t material_id = 0;
    std::string material = {}; ///< its code, and its name, as they are now: when read
    std::string name = {};
};

enum class BatchStatus { undone, planned, cut, finished, abandoned };

/// "undone", "planned", "cut", "finished", "abandoned".
std::string_view name_of(BatchStatus status);

struct Batch {
    std::int64_t id = 0; ///< also its holder
    std::int64_t number = 0;
    BatchStatus status = BatchStatus::undone;
    std::vector<BatchRun> runs;
};

/// Something that became of a batch, and the posting that did it.
struct BatchEvent {
    std::int64_t posting_id = 0;
    BatchStatus status = BatchStatus::planned;
};

/// Makes the batch with its runs and its holder, giving it the next number. It stands nowhere
/// until an event is added.
Batch add_batch(Database& database, Batch batch);
void add_batch_part(Database& database, std::int64_t batch, std::int64_t seq,
                    const BatchPart& part);
void add_batch_paper(Database& database, std::int64_t batch, const BatchPaper& paper);

/// Adds an event and moves the batch to where it now stands.
void add_batch_event(Database& database, std::int64_t batch, const BatchEvent& event);

/// Moves every batch that the posting (or, for a reversal, what it reverses in the end) did
/// something to, to where it stands now that a posting was reversed.
void refresh_batches_of(Database& database, std::int64_t posting);

std::optional<Batch> find_batch(Database& database, std::int64_t number);
std::optional<Batch> batch_by_id(Database& database, std::int64_t id);
/// The batch that the posting did something to, if it did.
std::optional<Batch> batch_of_event(Database& database, std::int64_t posting);
/// All batches, newest first, without their runs.
std::vector<Batch> all_batches(Database& database);
/// Those planned or cut, newest first, without their runs. Costs nothing for those that are over.
std::vector<Batch> batches_under_way(Database& database);
std::vector<BatchPart> parts_of(Database& database, std::int64_t batch);
/// By run, journals, and slots as the parts that follow them come in the design.
std::vector<BatchPaper> papers_of(Database& database, std::int64_t batch);
/// The event a batch began with, reversed or not.
BatchEvent first_event(Database& database, std::int64_t batch);
/// Events in order, those of reversed postings left out.
std::vector<BatchEvent> standing_events(Database& database, std::int64_t batch);

} // namespace barrow::store
