#include "workshop/books/history.hpp"

#include "base/error.hpp"
#include "base/rational.hpp"
#include "base/text.hpp"
#include "store/books/history.hpp"
#include "store/making/batches.hpp"
#include "store/selling/journals.hpp"
#include "store/stock/lots.hpp"
#include "workshop/making/batch.hpp"
#include "workshop/selling/journal_care.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/leaving.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace barrow::workshop {
namespace {

using store::ToldMovement;

std::int64_t read_number(const std::string& text, const std::string& what, const char* hint) {
    const auto number = base::read_rational(base::trimmed(text));
    if (!number || !number->is_whole())
        throw base::bad_input(what, fmt::format("\"{}\" is not a number", text), hint);
    return number->number();
}

bool is_stock(const std::string& kind) {
    return kind == "shelf" || kind == "offcut";
}

class Telling {
public:
    Telling(store::Database& database, Subject of) : database_(database) {
        history_.settings = read_settings(database);
        history_.of = of;
    }

    History run(const std::string& code) {
        switch (history_.of) {
        case Subject::material: tell_material(code); break;
        case Subject::lot: tell_lot(code); break;
        case Subject::offcut: tell_offcut(code); break;
        case Subject::batch: tell_batch(code); break;
        case Subject::journal: tell_journal(code); break;
        }
        return std::move(history_);
    }

private:
    void tell_material(const std::string& code) {
        const store::Material material = material_called(database_, code, "material");
        be_of(material);
        history_.code = material.code;
        tell(store::movements_of_material(database_, material.id));
    }

    void tell_lot(const std::string& code) {
        const char* hint = "see the numbers with: barrow lots CODE";
        const std::int64_t number = read_number(code, "lot", hint);
        const auto lot = store::lot_by_id(database_, number);
        if (!lot) throw base::bad_input("lot", fmt::format("there is no lot {}", number), hint);
        be_of(material(lot->material_id));
        history_.code = std::to_string(number);
        lot_ = number;
        tell(store::movements_of_lot(database_, number));
    }

    void tell_offcut(const std::string& code) {
        const store::Offcut offcut = offcut_labelled(database_, code);
        be_of(material(offcut.material_id));
        history_.code = offcut.code;
        holder_ = offcut.id;
        tell(store::movements_touching(database_, offcut.id));
    }

    void tell_batch(const std::string& code) {
        const store::Batch batch = batch_numbered(
            database_, read_number(code, "batch", "see all with: barrow batch list"));
        history_.code = std::to_string(batch.number);
        holder_ = batch.id;
        tell(store::movements_touching(database_, batch.id));
        add_still_entries(batch.id);
    }

    void tell_journal(const std::string& code) {
        const store::Journal journal = journal_called(database_, code);
        history_.code = journal.serial;
        const auto batch = store::batch_by_id(database_, journal.batch_id).value();
        history_.name = batch.runs.at(static_cast<std::size_t>(journal.run)).name;
        holder_ = journal.id;
        tell(store::movements_touching(database_, journal.id));
    }

    void be_of(const store::Material& material) {
        history_.name = material.name;
        history_.form = material.form;
        history_.bulk_is_mass = material.bulk_unit == "g";
    }

    void tell(std::vector<ToldMovement> movements) {
        history_.lines.reserve(movements.size());
        for (ToldMovement& told : movements) {
            HistoryLine line = line_of(told);
            count(told, line);
            if (!history_.lines.empty() && same_way(history_.lines.back(), line, told)) {
                HistoryLine& earlier = history_.lines.back();
                earlier.quantity += line.quantity;
                earlier.units += line.units;
                earlier.value += line.value;
                earlier.after = line.after;
            } else {
                history_.lines.push_back(std::move(line));
            }
            last_from_ = told.movement.from;
            last_to_ = told.movement.to;
        }
    }

    bool same_way(const HistoryLine& earlier, const HistoryLine& line,
                  const ToldMovement& told) const {
        return earlier.posting.id == line.posting.id && last_from_ == told.movement.from
               && last_to_ == told.movement.to && earlier.kind == line.kind
               && earlier.material == line.material;
    }

    /// Takes the texts out of what is told: they are many.
    HistoryLine line_of(ToldMovement& told) {
        HistoryLine line;
        line.posting = std::move(told.posting);
        line.kind = std::move(told.movement.kind);
        line.from_kind = std::move(told.from_kind);
        line.to_kind = std::move(told.to_kind);
        line.from = name(told, line, told.from, line.from_kind);
        line.to = name(told, line, told.to, line.to_kind);
        line.quantity = told.movement.quantity;
        line.value = told.movement.value;
        if (told.material_id != 0) {
            const store::Material& own = material(told.material_id);
            line.material = own.code;
            line.form = own.form;
            line.bulk_is_mass = own.bulk_unit == "g";
        }
        if (line.from_kind == "shelf" || line.to_kind == "shelf") line.units = units_of(told);
        if (line.kind == "sell")
            line.price = store::price_of_sale(database_, line.posting.id, told.movement.from);
        return line;
    }

    static std::int64_t units_of(const ToldMovement& told) {
        return told.unit == 0 ? 0 : told.movement.quantity / told.unit;
    }

    /// Counts the movement into what is there and notes how that then stands.
    void count(const ToldMovement& told, HistoryLine& line) {
        const bool out = counts(told.movement, told.movement.from, line.from_kind);
        const bool in = counts(told.movement, told.movement.to, line.to_kind);
        if (out) add(told, line.from_kind, -1);
        if (in) add(told, line.to_kind, 1);
        line.change = (in ? 1 : 0) - (out ? 1 : 0);
        line.after = held_;
        if (history_.of == Subject::batch) line.after.quantity = in_batch_[told.material_id];
    }

    bool counts(const store::Movement& moved, std::int64_t holder, const std::string& kind) const {
        if (holder_ != 0) return holder == holder_;
        if (lot_ != 0) return holder == lot_ || (kind == "offcut" && moved.lot == lot_);
        return is_stock(kind);
    }

    void add(const ToldMovement& told, const std::string& kind, int sign) {
        held_.quantity += sign * told.movement.quantity;
        held_.value += base::Money::of_minor(sign * told.movement.value.minor());
        if (kind == "shelf") held_.units += sign * units_of(told);
        if (kind == "offcut") held_.offcuts += sign * told.movement.quantity;
        if (kind == "batch") in_batch_[told.material_id] += sign * told.movement.quantity;
    }

    /// Entries of a batch that moved nothing: its planning, and the taking back of that.
    void add_still_entries(std::int64_t batch) {
        std::set<std::int64_t> told;
        for (const HistoryLine& line : history_.lines) told.insert(line.posting.id);
        for (const store::BatchEntry& entry : store::entries_of_batch(database_, batch)) {
            if (told.count(entry.posting.id) > 0) continue;
            HistoryLine line;
            line.posting = entry.posting;
            line.kind = entry.status.empty() ? "reverse" : entry.status;
            const auto place = std::find_if(
                history_.lines.begin(), history_.lines.end(),
                [&](const HistoryLine& other) { return other.posting.id > entry.posting.id; });
            if (place != history_.lines.begin()) line.after.value = std::prev(place)->after.value;
            history_.lines.insert(place, line);
        }
    }

    /// What one end of a movement is called here: a delivery by who sent it, what came back out of
    /// journals by which journal that was.
    std::string name(const ToldMovement& told, const HistoryLine& line, std::string& words,
                     const std::string& kind) {
        if (kind == "outside" && told.movement.lot) return told.supplier;
        if (kind == "made" && line.kind == "take_in") return journal_apart(line.posting.id);
        return std::move(words);
    }

    /// Which journal was taken apart by the entry.
    std::string journal_apart(std::int64_t posting) {
        for (const store::Movement& other : store::movements_of(database_, posting))
            if (!other.lot && other.to == store::written_off)
                return store::name_of_holder(database_, other.from);
        return {};
    }

    const store::Material& material(std::int64_t id) {
        const auto known = materials_.find(id);
        if (known != materials_.end()) return known->second;
        return materials_[id] = store::material_by_id(database_, id).value();
    }

    store::Database& database_;
    std::int64_t holder_ = 0; ///< the one holder it is about; 0: shelves and offcuts
    std::int64_t lot_ = 0;    ///< the one lot it is about; 0: all of a material
    HeldThen held_;
    std::map<std::int64_t, std::int64_t> in_batch_; ///< quantity of each material in work
    std::int64_t last_from_ = 0, last_to_ = 0;      ///< holders of the movement told before
    std::map<std::int64_t, store::Material> materials_;
    History history_;
};

} // namespace

std::string_view name_of(Subject subject) {
    switch (subject) {
    case Subject::material: return "material";
    case Subject::lot: return "lot";
    case Subject::offcut: return "offcut";
    case Subject::batch: return "batch";
    case Subject::journal: return "journal";
    }
    throw base::broken("a history of nothing");
}

History history(store::Database& database, Subject of, const std::string& code) {
    return reading(database, [&] { return Telling(database, of).run(code); });
}

} // namespace barrow::workshop
