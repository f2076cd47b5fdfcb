#include "workshop/stock/receive.hpp"

#include "base/text.hpp"
#include "store/ledger/ledger.hpp"
#include "workshop/shared/quantity_text.hpp"
#include "workshop/shared/settings.hpp"
#include "workshop/stock/bought.hpp"
#include "workshop/stock/catalogue.hpp"

#include <fmt/format.h>

#include <tuple>

namespace barrow::workshop {
namespace {

using base::Form;
using base::Money;

/// A receipt row, understood but not yet booked.
struct ReceiptLine {
    store::Material material;
    store::Lot lot; ///< without posting; cost still without freight and tax
    std::int64_t units = 0;
    Money extra_paid; ///< freight and tax named on this row
    std::string delivery;
    std::optional<std::int64_t> order; ///< that it came for
    std::string reckoned = {};         ///< how the cost follows from the price of a pack
};

class ReceiptReader {
public:
    ReceiptReader(Context& context, const Settings& settings, OpenOrders& orders,
                  std::vector<base::Problem>& problems)
        : context_(context), settings_(settings), orders_(orders), problems_(problems) {}

    /// The lines a row stands for: one, or all that is outstanding of an order when it names no
    /// material.
    std::vector<ReceiptLine> read(const Row& row) {
        Fields fields(row, problems_);
        ReceiptLine line;
        line.lot.received_on = fields.date("date").value_or(context_.today);
        if (line.lot.received_on > context_.today)
            fields.complain("date", "lies in the future", "book a receipt when it has come");
        line.delivery = fields.text("delivery");
        line.lot.note = fields.text("note");
        const auto freight = fields.money("freight", settings_.currency);
        const auto tax = fields.money("tax", settings_.currency);
        line.extra_paid = freight.value_or(Money()) + tax.value_or(Money());
        const auto number = fields.count("order", 1, base::most_measure);
        if (fields.has("order") && !number) return {};
        if (number) {
            const auto order = orders_.find(fields, *number);
            if (!order) return {};
            line.lot.supplier_id = order->supplier_id;
            if (line.lot.received_on < order->placed_on)
                fields.complain("date", fmt::format("lies before order {} was placed", *number));
            line.order = *number;
        }
        if (number && !fields.has("material")) return read_rest_of_order(fields, line);
        auto material = read_material(fields, context_.database);
        if (!material) return {};
        line.material = std::move(*material);
        line.lot.material_id = line.material.id;
        read_sender(fields, line);
        read_size(fields, line);
        const Bought bought = read_bought(fields, line.material);
        line.units = bought.units;
        read_cost(fields, bought.packs, line);
        check_size(fields, line);
        return {line};
    }

private:
    /// One delivery brings all that is still to come, at the agreed cost.
    std::vector<ReceiptLine> read_rest_of_order(Fields& fields, const ReceiptLine& common) {
        for (const char* name :
             {"units", "packs", "cost", "price", "width", "height", "length", "loops"})
            if (fields.has(name))
                fields.complain(name, "is given for a whole order",
                                "name the material it is of, or leave it out");
        std::vector<ReceiptLine> lines;
        for (const StillToCome& left : orders_.outstanding(*common.order)) {
            ReceiptLine line = common;
            // What the delivery cost beside the goods is said once for all its lines.
            if (!lines.empty()) line.extra_paid = Money();
            line.material = store::material_by_id(context_.database, left.material_id).value();
            line.lot.material_id = line.material.id;
            line.lot.unit = line.material.fresh;
            line.units = left.units;
            read_sender(fields, line);
            read_agreed_cost(fields, line);
            check_size(fields, line);
            lines.push_back(std::move(line));
        }
        if (lines.empty())
            fields.complain("order",
                            fmt::format("nothing is outstanding of order {}", *common.order),
                            "name the material, if more came than was asked for");
        return lines;
    }

    void read_agreed_cost(Fields& fields, ReceiptLine& line) {
        const auto cost = orders_.take(*line.order, line.material.id, line.units);
        if (cost)
            line.lot.cost = *cost;
        else
            fields.complain("cost",
                            fmt::format("order {} says nothing of what {} costs", *line.order,
                                        line.material.code),
                            "name the material, and say cost (of all) or price (of a pack)");
    }

    void read_sender(Fields& fields, ReceiptLine& line) {
        if (!line.order) line.lot.supplier_id = line.material.supplier_id;
        const auto named = read_supplier(fields, context_.database);
        if (!named) return;
        if (line.order && line.lot.supplier_id != named->id)
            fields.complain(
                "supplier",
                fmt::format("order {} was not placed with {}", *line.order, named->code),
                "leave it out");
        line.lot.supplier_id = named->id;
    }

    void read_size(Fields& fields, ReceiptLine& line) const {
        line.lot.unit = line.material.fresh;
        const auto bare = fields.bare_unit(settings_.bare_unit);
        const auto side = [&](const std::string& name, std::int64_t& value) {
            const base::Length length = fields.length(name, bare);
            if (!length.is_zero()) value = length.units();
        };
        if (line.material.form == Form::sheet) {
            side("width", line.lot.unit.width);
            side("height", line.lot.unit.height);
        } else if (line.material.form == Form::length) {
            side("length", line.lot.unit.width);
        } else if (line.material.form == Form::wire) {
            if (const auto loops = fields.count("loops", 1, most_units))
                line.lot.unit.width = *loops;
        }
    }

    void read_cost(Fields& fields, const std::optional<base::Rational>& packs, ReceiptLine& line) {
        if (line.order && !orders_.has_line(*line.order, line.material.id)) {
            fields.complain(
                "material",
                fmt::format("order {} does not ask for {}", *line.order, line.material.code),
                "leave the order out for what came beside it");
            return;
        }
        if (line.order && !fields.has("cost") && !fields.has("price"))
            return read_agreed_cost(fields, line);
        if (line.order) orders_.take(*line.order, line.material.id, line.units);
        const bool stated = fields.has("cost") || fields.has("price");
        if (fields.has("cost") && fields.has("price")) {
            fields.complain("cost", "is given beside price",
                            "say either cost (of all) or price (of a pack)");
            return;
        }
        if (!stated && !line.material.pack_price) {
            fields.complain("cost", "is empty",
                            "say what it cost: cost (of all) or price (of a pack); 0 for a free "
                            "sample");
            return;
        }
        const auto cost = fields.money("cost", settings_.currency);
        const auto price =
            stated ? fields.money("price", settings_.currency) : line.material.pack_price;
        if (cost) line.lot.cost = *cost;
        if (!price || !packs) return;
        line.lot.cost = base::times(*price, *packs);
        if (stated && packs->is_whole()) return;
        const auto text = [&](Money amount) { return base::to_text(amount, settings_.currency); };
        line.reckoned =
            fmt::format("{}: {} for a pack of {}, {} for {}{}", line.material.code, text(*price),
                        units_text(line.material.form, line.material.bulk_unit == "g",
                                   line.material.pack_units),
                        text(line.lot.cost),
                        units_text(line.material.form, line.material.bulk_unit == "g", line.units),
                        stated ? "" : "; the price known is used");
    }

    static void check_size(Fields& fields, ReceiptLine& line) {
        const base::Wide quantity = line.lot.unit.measure() * line.units;
        if (quantity > base::most_measure) {
            fields.complain("units", "is more than one lot can hold", "book it as several lots");
            return;
        }
        line.lot.quantity = static_cast<std::int64_t>(quantity);
    }

    Context& context_;
    const Settings& settings_;
    OpenOrders& orders_;
    std::vector<base::Problem>& problems_;
};

/// Lines that came together: one date, one supplier, one delivery text.
bool same_delivery(const ReceiptLine& a, const ReceiptLine& b) {
    return std::tie(a.lot.received_on, a.lot.supplier_id, a.delivery)
           == std::tie(b.lot.received_on, b.lot.supplier_id, b.delivery);
}

void book(Context& context, const std::vector<ReceiptLine>& delivery, costing::ShareBy share_by,
          OpenOrders& orders, std::vector<Received>& received) {
    std::vector<costing::DeliveryLine> lines;
    Money extra;
    for (const ReceiptLine& line : delivery) {
        lines.push_back({line.lot.cost, line.units});
        extra += line.extra_paid;
    }
    const auto costs = costing::landed_costs(lines, extra, share_by);
    const std::int64_t posting = post(context, "receive", delivery.front().lot.received_on);
    store::MovementWriter writer(context.database, posting);
    for (std::size_t i = 0; i < delivery.size(); ++i) {
        const ReceiptLine& line = delivery[i];
        store::Lot lot = line.lot;
        lot.posting_id = posting;
        lot.cost = costs[i];
        lot.extra = costs[i] - line.lot.cost;
        lot.id = store::add_lot(context.database, lot);
        if (line.order) orders.came(lot.id, *line.order, lot.material_id);
        writer.move({0, 0, "receive", lot.id, store::outside, lot.id, lot.quantity, lot.cost});
        received.push_back({posting, lot, line.material.code, line.material.name,
                            line.material.form, line.material.bulk_unit == "g", line.units,
                            costs[i] - line.lot.cost, line.reckoned});
    }
}

} // namespace

const std::vector<std::string>& receipt_fields() {
    static const std::vector<std::string> fields = {
        "date",   "material", "units", "packs",    "cost",    "price", "order", "supplier", "width",
        "height", "length",   "loops", "delivery", "freight", "tax",   "note",  "unit"};
    return fields;
}

std::vector<Received> receive_in_transaction(Context& context, const std::vector<Row>& rows,
                                             costing::ShareBy share_by, OpenOrders& orders) {
    const Settings settings = read_settings(context.database);
    std::vector<base::Problem> problems;
    ReceiptReader reader(context, settings, orders, problems);
    std::vector<ReceiptLine> lines;
    for (const Row& row : rows)
        for (ReceiptLine& line : reader.read(row)) lines.push_back(std::move(line));
    throw_if_any(problems);
    std::vector<Received> received;
    std::vector<ReceiptLine> delivery;
    std::vector<bool> booked(lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (booked[i]) continue;
        delivery.clear();
        for (std::size_t j = i; j < lines.size(); ++j) {
            if (booked[j] || !same_delivery(lines[i], lines[j])) continue;
            booked[j] = true;
            delivery.push_back(lines[j]);
        }
        book(context, delivery, share_by, orders, received);
    }
    return received;
}

std::vector<Received> receive(Context& context, const std::vector<Row>& rows,
                              costing::ShareBy share_by, OpenOrders& orders) {
    return writing(context,
                   [&] { return receive_in_transaction(context, rows, share_by, orders); });
}

} // namespace barrow::workshop
