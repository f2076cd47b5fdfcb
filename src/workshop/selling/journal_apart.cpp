#include "workshop/selling/journal_apart.hpp"

#include "base/error.hpp"
#include "base/rational.hpp"
#include "base/text.hpp"
#include "store/books/history.hpp"
#include "store/ledger/ledger.hpp"
#include "store/making/batches.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/lots.hpp"
#include "workshop/selling/journal_care.hpp"
#include "workshop/shared/days.hpp"
#include "workshop/shared/fields.hpp"
#include "workshop/shared/quantity_text.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/offcut_box.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace barrow::workshop {
namespace {

using base::Money;
using store::Movement;

/// What a batch's journals still hold of one lot.
struct Source {
    store::Lot lot;
    std::int64_t quantity = 0;
    Money value;
    std::int64_t there = 0; ///< of the quantity; less when some was found again outside journals
};

/// One thing to be moved back: a quantity of a lot, to its shelf or into an offcut.
struct Part {
    std::size_t back = 0; ///< which CameBack it belongs to
    std::int64_t lot = 0;
    std::int64_t quantity = 0;
    Money value;
};

/// An amount understood: whole units, or the size of one piece.
struct Salvage {
    std::int64_t units = 0;
    std::optional<base::StockSize> size;
};

Salvage read_amount(const store::Material& material, const std::string& text,
                    std::optional<base::Unit> unit) {
    Row row;
    row.fields["--get " + material.code] = text;
    std::vector<base::Problem> problems;
    Fields fields(row, problems);
    const std::string name = "--get " + material.code;
    const auto number = base::read_rational(base::trimmed(text));
    // Of wire a bare number is loops: no journal has whole strips in it.
    const bool size = base::is_cut(material.form) && (!number || material.form == base::Form::wire);
    if (size) {
        std::string plain(base::trimmed(text));
        if (material.form == base::Form::wire && plain.find("loop") != std::string::npos)
            plain.resize(plain.find("loop"));
        return {0, read_size(material.form, std::string(base::trimmed(plain)), unit, name)};
    }
    const auto units = material.form == base::Form::bulk
                           ? fields.amount(name, material.bulk_unit == "g", true)
                           : fields.count(name, 1, most_units, true);
    if (units && *units == 0) fields.complain(name, "is zero", "say how much comes back");
    throw_if_any(problems);
    return {*units, {}};
}

/// The entries that took a journal apart and stand.
std::set<std::int64_t> entries_apart(store::Database& database, std::int64_t journal) {
    std::set<std::int64_t> entries;
    for (const store::ToldMovement& line : store::movements_touching(database, journal))
        if (line.posting.kind == "take apart" && store::stands(database, line.posting.id))
            entries.insert(line.posting.id);
    return entries;
}

class TakingApart {
public:
    TakingApart(Context& context, const std::string& serial)
        : context_(context), database_(context.database) {
        apart_.settings = read_settings(database_);
        apart_.journal = journals_in_hand(database_, {serial}).front();
        find_sources();
    }

    TakenApart run(const std::vector<WantedBack>& wanted) {
        for (const WantedBack& back : wanted) want(back);
        const Money has = store::balance_of(database_, apart_.journal.id, 0).value;
        cap_values(has);
        apart_.posting = post(context_, "take apart", context_.today);
        store::MovementWriter writer(database_, apart_.posting);
        Money back;
        for (Part& part : parts_) {
            move_back(writer, part);
            back += part.value;
        }
        writer.move({0, 0, "apart", std::nullopt, apart_.journal.id, store::made, 0, back});
        apart_.written_off = has - back;
        writer.move({0, 0, "write_off", std::nullopt, apart_.journal.id, store::written_off, 1,
                     apart_.written_off});
        require_its_day(database_, apart_.posting);
        return std::move(apart_);
    }

private:
    /// What went from the batch into its journals, less what has come back out of others since and
    /// what was found again of it.
    void find_sources() {
        const store::Journal& journal = apart_.journal;
        for (const Movement& move : store::movements_of(database_, journal.posting_id)) {
            if (move.kind != "finish" || !move.lot || move.from != journal.batch_id) continue;
            sources_.push_back(
                {store::lot_by_id(database_, *move.lot).value(), move.quantity, move.value, 0});
        }
        for (const store::Journal& other :
             store::journals_of_posting(database_, journal.posting_id))
            for (const std::int64_t entry : entries_apart(database_, other.id))
                for (const Movement& move : store::movements_of(database_, entry))
                    if (move.kind == "take_in") take_off(*move.lot, move.quantity, move.value);
        for (Source& source : sources_)
            source.there = std::min(
                source.quantity, store::balance_of(database_, store::made, source.lot.id).quantity);
    }

    void take_off(std::int64_t lot, std::int64_t quantity, Money value) {
        for (Source& source : sources_) {
            if (source.lot.id != lot) continue;
            source.quantity -= quantity;
            source.value -= value;
        }
    }

    void want(const WantedBack& wanted) {
        const store::Material material = material_called(database_, wanted.material, "--get");
        const Salvage amount = read_amount(material, wanted.amount, apart_.settings.bare_unit);
        CameBack back;
        back.material = material.code;
        back.material_name = material.name;
        back.form = material.form;
        back.bulk_is_mass = material.bulk_unit == "g";
        back.units = amount.units;
        if (amount.size) {
            back.offcut.emplace();
            back.offcut->size = *amount.size;
        }
        apart_.parts.push_back(back);
        if (amount.size) {
            take_piece(material, *amount.size);
        } else {
            take_units(material, amount.units);
        }
    }

    base::Error too_much(const store::Material& material) const {
        const auto batch = store::batch_by_id(database_, apart_.journal.batch_id).value();
        const bool any = std::any_of(sources_.begin(), sources_.end(), [&](const Source& source) {
            return source.lot.material_id == material.id && source.there > 0;
        });
        if (!any)
            return base::refused(fmt::format("no {} is left in the journals of batch {}",
                                             material.code, batch.number),
                                 fmt::format("see: barrow history batch {}", batch.number));
        return base::refused(fmt::format("batch {} did not take that much {}, or it came back out "
                                         "of its journals already",
                                         batch.number, material.code),
                             "count again what has come back");
    }

    void take(Source& source, std::int64_t quantity) {
        const Money value = base::share(source.value, quantity, source.quantity);
        source.quantity -= quantity;
        source.there -= quantity;
        source.value -= value;
        parts_.push_back({apart_.parts.size() - 1, source.lot.id, quantity, value});
    }

    /// Whole units, from the newest of the lots they came from.
    void take_units(const store::Material& material, std::int64_t units) {
        std::int64_t left = units;
        for (auto source = sources_.rbegin(); source != sources_.rend() && left > 0; ++source) {
            if (source->lot.material_id != material.id || source->there <= 0) continue;
            const auto one = static_cast<std::int64_t>(source->lot.unit.measure());
            const std::int64_t part = std::min(left, source->there / one);
            if (part > 0) take(*source, part * one);
            left -= part;
        }
        if (left > 0) throw too_much(material);
    }

    void take_piece(const store::Material& material, const base::StockSize& size) {
        const auto source =
            std::find_if(sources_.rbegin(), sources_.rend(), [&](const auto& candidate) {
                return candidate.lot.material_id == material.id
                       && candidate.there >= size.measure();
            });
        if (source == sources_.rend()) throw too_much(material);
        take(*source, static_cast<std::int64_t>(size.measure()));
    }

    /// Together, parts bear no more than the journal they came out of.
    void cap_values(Money most) {
        Money sum;
        std::vector<base::Wide> weights;
        for (const Part& part : parts_) {
            sum += part.value;
            weights.push_back(part.value.minor());
        }
        if (sum <= most) return;
        const auto shares = base::split(most, weights);
        for (std::size_t i = 0; i < parts_.size(); ++i) parts_[i].value = shares[i];
    }

    void move_back(store::MovementWriter& writer, const Part& part) {
        CameBack& back = apart_.parts[part.back];
        std::int64_t to = part.lot;
        if (back.offcut) {
            store::Offcut& offcut = *back.offcut;
            offcut.posting_id = apart_.posting;
            offcut.material_id = store::lot_by_id(database_, part.lot).value().material_id;
            offcut.lot_id = part.lot;
            offcut.kept_on = context_.today;
            offcut.note = "out of journal " + apart_.journal.serial;
            offcut = store::add_offcut(database_, offcut);
            to = offcut.id;
        }
        writer.move({0, 0, "take_in", part.lot, store::made, to, part.quantity, part.value});
        back.value += part.value;
    }

    Context& context_;
    store::Database& database_;
    std::vector<Source> sources_; ///< in the order in which the batch took from them
    std::vector<Part> parts_;
    TakenApart apart_;
};

} // namespace

TakenApart take_apart(Context& context, const std::string& serial,
                      const std::vector<WantedBack>& wanted) {
    if (wanted.empty())
        throw base::refused(
            "it is not said what comes back out of the journal",
            "name it with --get CODE=AMOUNT; when nothing does: barrow journal damage");
    return writing(context, [&] { return TakingApart(context, serial).run(wanted); });
}

} // namespace barrow::workshop
