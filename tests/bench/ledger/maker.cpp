#include "maker.hpp"

#include "store/ledger/ledger.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/lots.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/making/designs.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <chrono>
#include <deque>
#include <map>
#include <optional>
#include <vector>

namespace barrow::bench {

std::string code_of(std::int64_t material) {
    return fmt::format("MAT-{:04}", material);
}

namespace {

using base::Money;
using Statement = SQLite::Statement;

constexpr std::int64_t side = 300 * 8'000; // sheets of 300 mm
constexpr std::int64_t days = 3'650;

/// What is left of the lot a material is taken from.
struct Front {
    std::int64_t lot = 0, units = 0;
    std::int64_t value = 0;
};

struct Remnant {
    std::int64_t holder = 0, lot = 0, material = 0, quantity = 0, value = 0;
};

struct Held {
    std::int64_t quantity = 0, value = 0;
};

class Maker {
public:
    Maker(store::Database& database, const Size& size)
        : database_(database), size_(size), fronts_(static_cast<std::size_t>(size.materials)) {}

    MadeShop run() {
        const auto start = std::chrono::steady_clock::now();
        database_.sql().exec("BEGIN IMMEDIATE");
        const auto triggers = take_triggers();
        add_materials();
        // A batch and what belongs to it write about 22 movements.
        const std::int64_t batches = size_.movements / 22 + 1;
        while (made_.movements < size_.movements) {
            day_ = base::plus_days(first_, std::min(days, made_.batches * days / batches));
            make_batch();
        }
        count_derived();
        for (const std::string& trigger : triggers) database_.sql().exec(trigger);
        database_.sql().exec("COMMIT");
        made_.offcuts_there = static_cast<std::int64_t>(box_.size());
        const std::chrono::duration<double> time = std::chrono::steady_clock::now() - start;
        made_.seconds = time.count();
        return made_;
    }

private:
    std::uint64_t dice(std::uint64_t sides) {
        state_ = state_ * 6364136223846793005U + 1442695040888963407U;
        return (state_ >> 33U) % sides;
    }

    static bool is_sheet(std::int64_t material) {
        return material >= common_materials && material % 3 != 0;
    }
    static std::int64_t unit_of(std::int64_t material) {
        return is_sheet(material) ? side * side : 1;
    }

    void add_materials() {
        for (std::int64_t i = 0; i < size_.materials; ++i) {
            store::Material material;
            material.code = code_of(i);
            material.name = "Thing " + std::to_string(i);
            material.form = is_sheet(i) ? base::Form::sheet : base::Form::count;
            if (is_sheet(i)) material.fresh = {side, side};
            if (is_sheet(i)) material.least_useful = {40 * 8'000, 40 * 8'000};
            material.place = "shelf " + std::to_string(i % 40);
            ids_.push_back(store::add_material(database_, material));
        }
        Statement design(database_.sql(),
                         "INSERT INTO design (id, code, name) VALUES (1, 'old', 'Old')");
        design.exec();
        Statement text(database_.sql(),
                       "INSERT INTO design_text (id, design_id, number, text, file, "
                       "brought_on) VALUES (1, 1, 1, '', '', '2017-01-02')");
        text.exec();
    }

    std::int64_t post(const char* kind) {
        insert_posting_.bind(1, kind);
        insert_posting_.bind(2, base::to_text(day_));
        again(insert_posting_);
        return ++made_.postings;
    }

    /// Takes the triggers off that count up what is derived from movements; count_derived does it
    /// in one go, ten times as fast.
    std::vector<std::string> take_triggers() {
        std::vector<std::string> names, texts;
        Statement query(database_.sql(),
                        "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' "
                        "AND sql LIKE '%AFTER INSERT ON movement%'");
        while (query.executeStep()) {
            names.push_back(query.getColumn(0).getString());
            texts.push_back(query.getColumn(1).getString());
        }
        query.reset();
        for (const std::string& name : names) database_.sql().exec("DROP TRIGGER " + name);
        return texts;
    }

    void count_derived() {
        database_.sql().exec(
            "CREATE TEMP TABLE moved AS SELECT holder, lot, sum(q) AS q, sum(v) AS v FROM ("
            "  SELECT to_holder AS holder, ifnull(lot_id, 0) AS lot, quantity AS q, value AS v "
            "  FROM movement UNION ALL "
            "  SELECT from_holder, ifnull(lot_id, 0), -quantity, -value FROM movement) "
            "GROUP BY holder, lot; "
            "INSERT INTO balance (holder_id, lot_id, quantity, value, may_owe) "
            "SELECT holder, lot, q, v, kind = 'outside' OR (kind = 'made' AND lot = 0) "
            "FROM moved JOIN holder ON holder.id = holder WHERE q <> 0 OR v <> 0; "
            "INSERT INTO kind_value (kind, value) "
            "SELECT kind, sum(v) FROM moved JOIN holder ON holder.id = holder GROUP BY kind; "
            "DROP TABLE moved;");
    }

    void move(store::MovementWriter& writer, const char* kind, std::optional<std::int64_t> lot,
              std::int64_t from, std::int64_t to, std::int64_t quantity, std::int64_t value) {
        if (quantity == 0 && value == 0) return;
        writer.move({0, 0, kind, lot, from, to, quantity, Money::of_minor(value)});
        ++made_.movements;
    }

    void receive(std::int64_t material) {
        const std::int64_t posting = post("receive");
        store::MovementWriter writer(database_, posting);
        store::Lot lot;
        const auto units =
            static_cast<std::int64_t>(material < common_materials ? 60 + dice(60) : 4 + dice(12));
        lot.posting_id = posting;
        lot.material_id = ids_[static_cast<std::size_t>(material)];
        if (is_sheet(material)) lot.unit = {side, side};
        lot.quantity = units * unit_of(material);
        lot.cost = Money::of_minor(static_cast<std::int64_t>(100 + dice(3'000)));
        lot.received_on = day_;
        lot.id = store::add_lot(database_, lot);
        move(writer, "receive", lot.id, store::outside, lot.id, lot.quantity, lot.cost.minor());
        fronts_[static_cast<std::size_t>(material)] = {lot.id, units, lot.cost.minor()};
        ++made_.lots;
    }

    /// Makes sure there are two units, so that one is left: no shelf runs empty on the last day.
    Front& front(std::int64_t material) {
        Front& front = fronts_[static_cast<std::size_t>(material)];
        if (front.units < 1) receive(material);
        return front;
    }

    void make_batch() {
        std::vector<std::int64_t> wanted = {made_.batches % common_materials};
        for (int i = 0; i < 5; ++i)
            wanted.push_back(common_materials
                             + static_cast<std::int64_t>(dice(
                                 static_cast<std::uint64_t>(size_.materials - common_materials))));
        for (const std::int64_t material : wanted) front(material);
        const std::int64_t posting = post("make");
        const std::int64_t batch = add_batch(posting);
        store::MovementWriter writer(database_, posting);
        std::map<std::int64_t, Held> held;
        for (const std::int64_t material : wanted) use(writer, posting, batch, material, held);
        while (box_.size() > box_wanted()) use_offcut(writer, batch, held);
        finish(writer, posting, batch, held);
        sell();
        ++made_.batches;
    }

    std::size_t box_wanted() const {
        return static_cast<std::size_t>(size_.offcuts * (made_.movements + 1) / size_.movements);
    }

    std::int64_t add_batch(std::int64_t posting) {
        const std::int64_t batch = store::add_holder(database_, "batch");
        insert_batch_.bind(1, batch);
        insert_batch_.bind(2, made_.batches + 1);
        again(insert_batch_);
        insert_run_.bind(1, batch);
        again(insert_run_);
        insert_event_.bind(1, batch);
        insert_event_.bind(2, posting);
        again(insert_event_);
        return batch;
    }

    static void again(Statement& statement) {
        statement.exec();
        statement.reset();
    }

    void use(store::MovementWriter& writer, std::int64_t posting, std::int64_t batch,
             std::int64_t material, std::map<std::int64_t, Held>& held) {
        Front& from = front(material);
        if (from.units == 0) return;
        const std::int64_t unit = unit_of(material);
        const std::int64_t value = from.value / from.units;
        move(writer, "use", from.lot, from.lot, batch, unit, value);
        from.value -= value;
        --from.units;
        held[from.lot].quantity += unit;
        held[from.lot].value += value;
        if (is_sheet(material))
            keep(writer, posting, batch, material, from.lot, value, held[from.lot]);
    }

    /// A sheet leaves a strip of a fifth of it.
    void keep(store::MovementWriter& writer, std::int64_t posting, std::int64_t batch,
              std::int64_t material, std::int64_t lot, std::int64_t cost, Held& held) {
        store::Offcut offcut;
        offcut.posting_id = posting;
        offcut.material_id = ids_[static_cast<std::size_t>(material)];
        offcut.lot_id = lot;
        offcut.size = {side / 5, side};
        offcut.kept_on = day_;
        offcut = store::add_offcut(database_, offcut);
        const std::int64_t quantity = side / 5 * side;
        move(writer, "keep", lot, batch, offcut.id, quantity, cost / 5);
        held.quantity -= quantity;
        held.value -= cost / 5;
        box_.push_back({offcut.id, lot, material, quantity, cost / 5});
        insert_cut_.bind(1, posting);
        insert_cut_.bind(2, batch);
        insert_cut_.bind(3, lot);
        insert_cut_.bind(4, side);
        insert_cut_.bind(5, cost);
        insert_cut_.bind(6, side * side - quantity);
        insert_cut_.bind(7, quantity);
        insert_cut_.bind(8, cost / 5);
        again(insert_cut_);
    }

    void use_offcut(store::MovementWriter& writer, std::int64_t batch,
                    std::map<std::int64_t, Held>& held) {
        std::swap(box_[dice(box_.size())], box_.back());
        const Remnant offcut = box_.back();
        box_.pop_back();
        move(writer, "use", offcut.lot, offcut.holder, batch, offcut.quantity, offcut.value);
        held[offcut.lot].quantity += offcut.quantity;
        held[offcut.lot].value += offcut.value;
    }

    void finish(store::MovementWriter& writer, std::int64_t posting, std::int64_t batch,
                const std::map<std::int64_t, Held>& held) {
        std::int64_t value = 0;
        for (const auto& [lot, part] : held) {
            move(writer, "finish", lot, batch, store::made, part.quantity, part.value);
            value += part.value;
        }
        insert_finished_.bind(1, posting);
        insert_finished_.bind(2, batch);
        insert_finished_.bind(3, value);
        again(insert_finished_);
        for (std::int64_t j = 1; j <= 3; ++j) {
            const std::int64_t journal = store::add_holder(database_, "journal");
            const std::int64_t part = j < 3 ? value / 3 : value - value / 3 * 2;
            insert_journal_.bind(1, journal);
            insert_journal_.bind(2, posting);
            insert_journal_.bind(3, fmt::format("{}-{:02}", made_.batches + 1, j));
            insert_journal_.bind(4, batch);
            insert_journal_.bind(5, part);
            again(insert_journal_);
            move(writer, "finish", std::nullopt, store::made, journal, 1, part);
            journals_.push_back({journal, 0, 0, 1, part});
        }
    }

    /// A fair every tenth batch: the oldest journals go.
    void sell() {
        if (made_.batches % 10 != 9 || journals_.size() < 500) return;
        const std::int64_t posting = post("sell");
        store::MovementWriter writer(database_, posting);
        for (int i = 0; i < 30; ++i) {
            const Remnant journal = journals_.front();
            journals_.pop_front();
            move(writer, "sell", std::nullopt, journal.holder, store::sold, 1, journal.value);
            insert_sale_.bind(1, posting);
            insert_sale_.bind(2, journal.holder);
            again(insert_sale_);
        }
    }

    store::Database& database_;
    Size size_;
    std::vector<Front> fronts_;
    std::vector<std::int64_t> ids_;
    std::vector<Remnant> box_;
    std::deque<Remnant> journals_;
    base::Date first_ = base::read_date("2017-01-02", "first day");
    base::Date day_ = first_;
    std::uint64_t state_ = 20270314;
    MadeShop made_;
    Statement insert_posting_{database_.sql(),
                              "INSERT INTO posting (kind, made_on, recorded_at, who) "
                              "VALUES (?1, ?2, ?2 || 'T12:00:00Z', 'Ada Fenn')"};
    Statement insert_batch_{database_.sql(),
                            "INSERT INTO batch (id, number, status) VALUES (?, ?, 'finished')"};
    Statement insert_run_{
        database_.sql(), "INSERT INTO batch_run (batch_id, run, design_text_id, journals, minutes, "
                         "materials, labour, overheads) VALUES (?, 0, 1, 3, 60000, 0, 0, 0)"};
    Statement insert_event_{database_.sql(),
                            "INSERT INTO batch_event (batch_id, posting_id, status) "
                            "VALUES (?, ?, 'finished')"};
    Statement insert_cut_{
        database_.sql(),
        "INSERT INTO cut_sheet (posting_id, batch_id, source_id, width, height, cost, "
        "pieces, kept, kept_value, waste) VALUES (?1, ?2, ?3, ?4, ?4, ?5, ?6, ?7, ?8, 0)"};
    Statement insert_finished_{
        database_.sql(), "INSERT INTO finished_run (posting_id, batch_id, run, journals, minutes, "
                         "materials, labour, overheads) VALUES (?, ?, 0, 3, 60000, ?, 1200, 0)"};
    Statement insert_journal_{
        database_.sql(), "INSERT INTO journal (id, posting_id, serial, batch_id, run, materials, "
                         "labour, overheads) VALUES (?, ?, ?, ?, 0, ?, 400, 0)"};
    Statement insert_sale_{database_.sql(),
                           "INSERT INTO sale (posting_id, journal_id, price) VALUES (?, ?, 1800)"};
};

} // namespace

MadeShop fill(store::Database& database, const Size& size) {
    return Maker(database, size).run();
}

} // namespace barrow::bench
