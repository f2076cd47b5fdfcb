#pragma once

#include <cstdint>
#include <map>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

/// The stock book once more, as simply as it can be told: lists in plain memory, whole numbers, and
/// the rules of the trade written down a second time. Shares no code with src/. What it is handed
/// and does not work out itself is where the layout engine lays the pieces; everything that follows
/// (which lots, what cost, who holds what) it finds on its own.
namespace model {

using Count = std::int64_t;
__extension__ using Wide = __int128;

struct Amount {
    Count quantity = 0;
    Count value = 0;
};

/// Thrown when the shop must refuse a command.
struct Refused : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Part of a value that goes with `part` of `whole`, rounded half up.
Count share(Count value, Wide part, Wide whole);

/// A value divided in proportion, rounded by largest remainder, the earlier first on a tie.
std::vector<Count> split(Count value, const std::vector<Wide>& weights);

/// Holders every shop has; all others are numbered as they come: lots, offcuts, batches, journals.
constexpr Count outside = 1, sold = 2, written_off = 3, made = 4;

enum class Order { first_in_first_out, moving_average, pick_the_lot };

struct Material {
    Count id = 0;
    std::string code;
    bool is_cut = false;
    Count width = 1, height = 1; ///< one unit as it is bought
    Count measure() const { return width * height; }
};

struct Lot {
    Count id = 0, material = 0, unit = 0, day = 0, entry = 0;
    Amount received;
    Count extra = 0; ///< of its value: freight and tax
};

struct Offcut {
    Count id = 0, material = 0, lot = 0, width = 0, height = 0;
    std::string label; ///< as the shop wrote it
};

struct Remnant {
    Count width = 0, height = 0;
    bool keeps_label = false;
    Count measure() const { return width * height; }
};

struct Sheet {
    Count material = 0, source = 0, measure = 0, pieces = 0;
    std::vector<Remnant> remnants;
    Count cost = 0;
    Count fillers = 0; ///< of the measure of the pieces, what is not needed
    Count waste() const;
};

struct Take {
    Count lot = 0, material = 0, quantity = 0;
};

struct Part {
    std::size_t run = 0;
    Count material = 0, quantity = 0, cost = 0;
};

struct Plan {
    std::vector<Count> journals; ///< of each run
    std::vector<Sheet> sheets;
    std::vector<Take> takes;
    std::vector<Part> parts;
};

struct Batch {
    Count id = 0, number = 0, journals_ever = 0;
    Plan plan;
};

struct Journal {
    Count id = 0, batch = 0, entry = 0;
    std::string serial;
};

struct Move {
    Count from = 0, to = 0, lot = 0;
    Amount what;
};

struct Entry {
    Count id = 0, day = 0, reverses = 0, reversed_by = 0;
    std::string kind;
    Count batch = 0;     ///< number; 0: none
    std::string becomes; ///< of the batch
    Order order = Order::first_in_first_out;
    Count supply = 0, fair = 0; ///< number of the order, of the fair it belongs to; 0: none
    bool begins = false;        ///< that order or fair
    bool ends = false;          ///< that order
    std::vector<Count> listed;  ///< journals taken along
    std::vector<Move> moves;
};

/// What was asked of a material, and agreed for all of it.
struct Asked {
    Count material = 0, units = 0, cost = 0;
};

struct Supply {
    Count number = 0;
    std::vector<Asked> lines;
};

struct Fair {
    Count number = 0, day = 0;
};

/// What comes for an order: units of a material, at a price of its own or (below zero) as agreed.
struct Coming {
    Count material = 0, units = 0, cost = -1;
};

struct ReceiptLine {
    Count material = 0, units = 0, cost = 0;
    Count unit = 0; ///< measure of one of them, when it is not the usual one
};

/// How cutting differed from the plan.
struct CutReport {
    std::map<Count, Count> spoiled;                    ///< material: units
    std::map<Count, std::pair<bool, Remnant>> changed; ///< number: kept at all, as what
    std::vector<std::pair<Count, Remnant>> extra;      ///< material, size
};

struct CountLine {
    Count counted = 0, in_book = 0;
};

/// What is wanted back out of a journal: whole units, or one piece.
struct WantedBack {
    Count material = 0, units = 0;
    Remnant piece;
};

class Book {
public:
    // What is there.
    std::vector<Material> materials;
    std::vector<Lot> lots;
    std::vector<Offcut> offcuts;
    std::vector<Batch> batches;
    std::vector<Journal> journals;
    std::vector<Entry> entries;
    std::map<std::pair<Count, Count>, Amount> piles; ///< holder, lot (0: whole journals)
    bool counting = false;
    std::map<std::pair<Count, Count>, CountLine> counts; ///< material, offcut (0: the shelf)
    Count offcut_percent = 100;
    std::vector<Supply> supplies; ///< orders placed with suppliers
    std::vector<Fair> fairs;

    // Questions.
    const Material& material(Count id) const;
    Amount pile(Count holder, Count lot) const;
    Amount all_of(Count holder) const;
    std::vector<std::pair<Count, Amount>> piles_of(Count holder) const;
    std::vector<Lot> shelf(Count material) const; ///< lots with something left, oldest first
    Count units_on_shelf(Count material) const;
    bool stands(Count entry) const;
    bool stood_before(Count entry, Count later) const; ///< when that later entry was written
    std::string status(Count batch) const;
    Order order() const;
    Order order_before(Count entry) const; ///< as it was then, whatever was reversed since
    Count reserved(Count holder) const;    ///< for planned batches, in the measure
    std::vector<Offcut> offcuts_there() const;
    std::vector<Journal> journals_there() const;
    Count last_day_of(Count holder) const;
    Count came(Count supply, Count material) const;      ///< units, by entries that stand
    Count sent_back(Count supply, Count material) const; ///< of those, likewise
    Count to_come(const Supply& supply) const;           ///< units of all its lines
    bool begun(Count supply, Count fair) const;          ///< the entry that began it stands
    bool ended(Count supply) const;
    std::vector<Count> listed(Count fair) const; ///< journals taken along or sold there
    std::vector<Count> sold_at(Count fair) const;

    // Commands. Each throws Refused where the shop must refuse.
    void receive(Count day, const std::vector<ReceiptLine>& lines, Count extra, bool by_value);
    /// `refund` below zero: what the goods cost, without freight and tax.
    void return_lot(Count day, Count lot, Count units, Count refund);
    void write_off_units(Count day, Count material, Count units);
    void write_off_offcut(Count day, Count offcut);
    void split(Count day, Count offcut, const std::vector<Remnant>& sizes);
    void find(Count day, Count material, const Remnant& size);
    void decide(Count day, Order order);
    void plan(Count day, Plan plan);
    void cut(Count day, Count batch, const CutReport& report);
    void finish(Count day, Count batch, const std::vector<Count>& journals);
    void abandon(Count day, Count batch);
    void make(Count day, Plan plan);
    void journals_leave(Count day, const std::string& kind, const std::vector<Count>& which,
                        Count to);
    void take_apart(Count day, Count journal, const std::vector<WantedBack>& wanted);
    void reverse(Count day, Count entry);
    void start_count();
    void enter_count(Count material, Count offcut, Count counted);
    void post_count(Count day);
    void drop_count();
    void order_supplies(Count day, const std::vector<Asked>& lines);
    void order_comes(Count day, Count number, std::vector<Coming> what, Count freight);
    void order_ends(Count day, Count number);
    void note_fair(Count day, Count held_on);
    void take_to_fair(Count day, Count number, const std::vector<Count>& which);
    void sell_at_fair(Count day, Count number, const std::vector<Count>& which);

private:
    struct LotTake {
        Count lot = 0;
        Amount what;
    };

    Entry& open(const std::string& kind, Count day);
    void refuse_without_ground(const Entry& origin) const;
    void shift(const Move& move);
    void move(Count from, Count to, Count lot, Amount what);
    Count new_offcut(Count material, Count lot, const Remnant& size);
    Batch& batch_numbered(Count number);
    const Lot& lot(Count id) const;
    const Offcut& offcut(Count id) const;

    void leave_shelf(Count lot, Count to, Amount what);
    void even_out(Count material);
    void settle_emptied(const std::vector<Count>& own);
    void even_out_returned(const std::vector<Move>& taken);
    void pass_on(const std::vector<Lot>& there, const std::vector<Count>& wanted);
    std::vector<LotTake> take(Count material, const std::map<Count, Count>& wanted) const;
    std::map<Count, Count> oldest_first(Count material, Count units, bool reserved_too) const;
    Count free_of(Count lot) const;
    std::pair<Count, Count> where_lost(Count material, Count quantity, Count only_lot) const;

    Count keep_plan(Plan plan);
    void carry_out(Batch& batch, const CutReport& report);
    void change_remnants(std::vector<Sheet>& bench, const CutReport& report) const;
    void add_extra(std::vector<Sheet>& bench, const CutReport& report) const;
    void spoil(std::vector<Sheet>& bench, const Batch& batch, const CutReport& report) const;
    void take_lots(std::vector<Sheet>& bench, const Batch& batch);
    void price(std::vector<Sheet>& bench, Count material, const std::vector<LotTake>& takes) const;
    void cut_sheet(Sheet& sheet, const Batch& batch);
    void into_work(const Sheet& sheet, const Batch& batch, Count staying, Count staying_value);
    void complete(Batch& batch, const std::vector<Count>& journals);
    std::vector<Count> materials_of_runs(const Batch& batch) const;
    std::vector<LotTake> sources_of(const Journal& journal) const;
    std::vector<LotTake> counted_away(Count material) const;
    void correct_shelf(Count material, Count difference);
    void correct_offcut(Count offcut, Count difference);

    Count next_holder_ = 5;
    Count next_batch_ = 1;
};

} // namespace model
