#include "workshop/stock/offcut_box.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "layout/solve.hpp"
#include "store/ledger/ledger.hpp"
#include "store/ledger/totals.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/lots.hpp"
#include "workshop/shared/days.hpp"
#include "workshop/shared/fields.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/leaving.hpp"

#include <fmt/format.h>

#include <numeric>

namespace barrow::workshop {
namespace {

using base::Form;
using base::StockSize;
using base::Wide;

/// True when the pieces can be cut from the offcut edge to edge (turned as need be).
bool can_be_cut(const store::Material& material, const StockSize& from,
                const std::vector<StockSize>& sizes) {
    layout::Job job;
    job.one_dimensional = material.form != Form::sheet;
    job.kerf = material.kerf;
    layout::Stock stock;
    stock.id = "offcut";
    stock.width = from.width;
    stock.height = from.height;
    stock.cost = 1;
    stock.count = 1;
    job.stock.push_back(stock);
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        layout::Piece piece;
        piece.id = std::to_string(i);
        piece.width = sizes[i].width;
        piece.height = sizes[i].height;
        piece.count = 1;
        piece.turn = job.one_dimensional ? layout::Turn::none : layout::Turn::quarter;
        job.pieces.push_back(piece);
    }
    if (!layout::examine(job).empty()) return false;
    return layout::solve(job).unplaced.empty();
}

store::OffcutOnHand new_offcut(Context& context, std::int64_t posting, std::int64_t material,
                               std::int64_t lot, const StockSize& size, const std::string& place) {
    store::Offcut offcut;
    offcut.posting_id = posting;
    offcut.material_id = material;
    offcut.lot_id = lot;
    offcut.size = size;
    offcut.kept_on = context.today;
    offcut.place = place;
    offcut = store::add_offcut(context.database, offcut);
    return {offcut, static_cast<std::int64_t>(size.measure()), {}};
}

/// Moves the offcut's holdings, lot by lot, into the new ones: its own lot carries the quantity,
/// every lot its value in proportion to area.
void move_into(store::Database& database, store::MovementWriter& writer,
               const store::OffcutOnHand& old, std::vector<store::OffcutOnHand>& parts) {
    std::vector<Wide> areas;
    areas.reserve(parts.size());
    for (const store::OffcutOnHand& part : parts) areas.push_back(part.offcut.size.measure());
    std::int64_t waste = old.quantity;
    for (const store::Balance& held : store::balances_of(database, old.offcut.id)) {
        const bool own = held.lot == old.offcut.lot_id;
        const auto shares = base::split(held.value, areas);
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const std::int64_t quantity = own ? parts[i].quantity : 0;
            writer.move(
                {0, 0, "split", held.lot, old.offcut.id, parts[i].offcut.id, quantity, shares[i]});
            parts[i].value += shares[i];
            waste -= quantity;
        }
    }
    writer.move(
        {0, 0, "write_off", old.offcut.lot_id, old.offcut.id, store::written_off, waste, {}});
}

} // namespace

base::StockSize read_size(Form form, const std::string& text, std::optional<base::Unit> bare,
                          const std::string& where) {
    const auto refuse = [&](const char* hint) {
        return base::bad_input(where, fmt::format("\"{}\" is not a size", text), hint);
    };
    if (form == Form::sheet) {
        const std::size_t cross = text.find('x');
        if (cross == std::string::npos) throw refuse("expected width x height: 120mm x 80mm");
        const auto width = read_measure(text.substr(0, cross), where, bare);
        const auto height = read_measure(text.substr(cross + 1), where, bare);
        if (width.is_zero() || height.is_zero()) throw refuse("a side is zero");
        return {width.units(), height.units()};
    }
    if (form == Form::length) {
        const auto length = read_measure(text, where, bare);
        if (length.is_zero()) throw refuse("the length is zero");
        return {length.units(), 1};
    }
    const auto loops = base::read_rational(std::string(base::trimmed(text)));
    if (form != Form::wire || !loops || !loops->is_whole() || *loops < base::Rational(1))
        throw refuse("expected a number of loops");
    return {loops->number(), 1};
}

store::Offcut describe_offcut(Context& context, const std::string& label, const std::string& place,
                              const std::string& note) {
    return writing(context, [&] {
        store::Offcut offcut = offcut_labelled(context.database, label);
        const auto keep = [](const std::string& given, std::string& value) {
            if (!given.empty()) value = given == "-" ? std::string() : plain_text(given, "offcut");
        };
        keep(place, offcut.place);
        keep(note, offcut.note);
        store::update_offcut(context.database, offcut);
        return offcut;
    });
}

NewOffcuts split_offcut(Context& context, const std::string& label,
                        const std::vector<std::string>& texts) {
    return writing(context, [&] {
        store::Database& database = context.database;
        const store::OffcutOnHand old = offcut_free(database, label);
        const store::Material material =
            store::material_by_id(database, old.offcut.material_id).value();
        const auto bare = read_settings(database).bare_unit;
        std::vector<StockSize> sizes;
        sizes.reserve(texts.size());
        for (const std::string& text : texts)
            sizes.push_back(read_size(material.form, text, bare, "size"));
        if (!can_be_cut(material, old.offcut.size, sizes))
            throw base::refused(
                fmt::format("these sizes cannot be cut from offcut {}", old.offcut.code),
                "measure again, or give fewer");
        NewOffcuts made;
        made.material = material;
        made.posting = post(context, "split", context.today);
        store::MovementWriter writer(database, made.posting);
        for (const StockSize& size : sizes)
            made.offcuts.push_back(new_offcut(context, made.posting, material.id, old.offcut.lot_id,
                                              size, old.offcut.place));
        move_into(database, writer, old, made.offcuts);
        require_its_day(database, made.posting);
        return made;
    });
}

NewOffcuts keep_found(Context& context, const std::string& code, const std::string& text,
                      const std::string& place) {
    return writing(context, [&] {
        store::Database& database = context.database;
        const store::Material material = material_called(database, code, "material");
        if (!base::is_cut(material.form))
            throw base::refused(
                fmt::format("{} is not cut, so it leaves no offcuts", material.code));
        const StockSize size =
            read_size(material.form, text, read_settings(database).bare_unit, "size");
        const auto quantity = static_cast<std::int64_t>(size.measure());
        const auto source = store::where_lost(database, material.id, quantity);
        if (!source)
            throw base::refused(
                fmt::format("so much of {} was never cut: the book cannot have lost it",
                            material.code),
                "if it is new stock, book it: barrow receive");
        NewOffcuts made;
        made.material = material;
        made.posting = post(context, "find", context.today);
        made.offcuts.push_back(new_offcut(context, made.posting, material.id, source->lot, size,
                                          plain_text(place, "--place")));
        store::MovementWriter(database, made.posting)
            .move({0,
                   0,
                   "find",
                   source->lot,
                   source->holder,
                   made.offcuts[0].offcut.id,
                   quantity,
                   {}});
        return made;
    });
}

} // namespace barrow::workshop
