#include "print/buying/needs.hpp"

#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

namespace barrow::print {
namespace {

using workshop::Reorder;

Table wanted_table(const Reorder& reorder) {
    Table table({{"Journals", Kind::count},
                 {"Design"},
                 {"finished already", Kind::count},
                 {"in work", Kind::count},
                 {"to make", Kind::count}});
    for (const Reorder::Run& run : reorder.runs)
        table.row({count(run.wanted), run.name, run.finished > 0 ? count(run.finished) : Cell(),
                   run.in_work > 0 ? count(run.in_work) : Cell(), count(run.to_make())});
    return table;
}

Table needs_table(const supply::SupplierOrder& order, const base::Currency& currency) {
    Table table({{"Code", Kind::label},
                 {"Material"},
                 {"for journals", Kind::quantity},
                 {"to level", Kind::quantity},
                 {"on order", Kind::quantity},
                 {"packs", Kind::count},
                 {"that is", Kind::quantity},
                 {"cost", Kind::money}});
    for (const supply::OrderLine& line : order.lines) {
        const supply::Supply& s = line.supply;
        const auto units = [&](std::int64_t n) {
            return n == 0 ? std::string() : workshop::units_text(s.form, s.bulk_is_mass, n);
        };
        table.row({link(Link::To::material, s.material), s.name, units(line.for_journals),
                   units(line.for_level), units(s.on_order), count(line.packs), units(line.units),
                   line.cost ? money(*line.cost, currency) : Cell("no price")});
    }
    return table;
}

void add_supplier(Blocks& blocks, const supply::SupplierOrder& order,
                  const base::Currency& currency) {
    blocks.add(Heading{order.supplier.empty()
                           ? std::string("Without a supplier:")
                           : fmt::format("{} ({}): order by {}{}", order.supplier_name,
                                         order.supplier, base::to_text(order.order_by),
                                         order.late ? ", which has passed" : "")});
    blocks.under(needs_table(order, currency));
    blocks.under(Text{fmt::format("Total {}{}", with_currency(order.total, currency),
                                  order.total_is_whole ? "" : " and what has no price")});
}

/// What is on order and may not be there in time.
Text doubt_text(const Reorder::Doubt& doubt) {
    const std::string units =
        workshop::units_text(doubt.form, doubt.bulk_is_mass, doubt.waiting.units);
    const std::string day = base::to_text(doubt.waiting.expected_on);
    return note(
        doubt.counted
            ? fmt::format("order {} should have brought {} of {} by {}. Counted all the same.",
                          doubt.waiting.order, units, doubt.material, day)
            : fmt::format("order {} brings {} of {} only on {}: too late, not counted.",
                          doubt.waiting.order, units, doubt.material, day));
}

} // namespace

Blocks blocks(const Reorder& reorder) {
    Blocks blocks("What to order");
    if (!reorder.runs.empty()) {
        blocks.add(Heading{fmt::format("To have by {}:", base::to_text(reorder.wanted_by))});
        blocks.under(wanted_table(reorder));
    }
    for (const supply::SupplierOrder& order : reorder.orders)
        add_supplier(blocks, order, reorder.settings.currency);
    if (reorder.orders.empty())
        blocks.add(Text{"Nothing to order: shelf, offcut box and orders on their way cover it."});
    bool under = reorder.orders.empty();
    for (const Reorder::Doubt& doubt : reorder.doubts) {
        if (under)
            blocks.under(doubt_text(doubt));
        else
            blocks.add(doubt_text(doubt));
        under = true;
    }
    return blocks;
}

std::string screen(const Reorder& reorder) {
    return terminal(blocks(reorder));
}

} // namespace barrow::print
