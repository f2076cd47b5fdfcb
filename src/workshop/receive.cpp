#include "workshop/receive.hpp"

#include "base/text.hpp"
#include "store/ledger.hpp"
#include "workshop/catalogue.hpp"
#include "workshop/settings.hpp"

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
};

class ReceiptReader {
public:
    ReceiptReader(Context& context, const Settings& settings, std::vector<base::Problem>& problems)
        : context_(context), settings_(settings), problems_(problems) {}

    ReceiptLine read(const Row& row) {
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
        const std::string code = fields.text("material", true);
        if (code.empty()) return line;
        try {
            line.material = material_called(context_.database, code, fields.where("material"));
        } catch (const base::Error& error) {
            problems_.push_back(error.problems().front());
            return line;
        }
        line.lot.material_id = line.material.id;
        read_supplier(fields, line);
        read_size(fields, line);
        const auto packs = read_units(fields, line);
        read_cost(fields, packs, line);
        check_size(fields, line);
        return line;
    }

private:
    void read_supplier(Fields& fields, ReceiptLine& line) {
        line.lot.supplier_id = line.material.supplier_id;
        const std::string code = fields.text("supplier");
        if (code.empty()) return;
        try {
            line.lot.supplier_id =
                supplier_called(context_.database, code, fields.where("supplier")).id;
        } catch (const base::Error& error) {
            problems_.push_back(error.problems().front());
        }
    }

    void read_size(Fields& fields, ReceiptLine& line) {
        line.lot.unit = line.material.fresh;
        const auto side = [&](const std::string& name, std::int64_t& value) {
            const base::Length length = fields.length(name, settings_.unit);
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

    /// Units received, from units or packs; gives the number of packs for the price.
    std::optional<base::Rational> read_units(Fields& fields, ReceiptLine& line) {
        const bool bulk = line.material.form == Form::bulk;
        const auto packs = fields.count("packs", 1, most_units);
        if (fields.has("units") == fields.has("packs")) {
            fields.complain("units", fields.has("units") ? "is given beside packs" : "is empty",
                            "say how many: either units or packs");
            return std::nullopt;
        }
        if (packs) {
            line.units = *packs * line.material.pack_units;
            return base::Rational(*packs);
        }
        const auto units = bulk ? fields.amount("units", line.material.bulk_unit == "g")
                                : fields.count("units", 1, most_units);
        if (!units) return std::nullopt;
        if (*units == 0) fields.complain("units", "is zero");
        line.units = *units;
        return base::Rational::of(*units, line.material.pack_units);
    }

    void read_cost(Fields& fields, const std::optional<base::Rational>& packs, ReceiptLine& line) {
        if (fields.has("cost") == fields.has("price")) {
            fields.complain("cost", fields.has("cost") ? "is given beside price" : "is empty",
                            "say what it cost: either cost (of all) or price (of a pack); "
                            "0 for a free sample");
            return;
        }
        const auto cost = fields.money("cost", settings_.currency);
        const auto price = fields.money("price", settings_.currency);
        if (cost) line.lot.cost = *cost;
        if (price && packs) line.lot.cost = base::times(*price, *packs);
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
    std::vector<base::Problem>& problems_;
};

/// Lines that came together: one date, one supplier, one delivery text.
bool same_delivery(const ReceiptLine& a, const ReceiptLine& b) {
    return std::tie(a.lot.received_on, a.lot.supplier_id, a.delivery)
           == std::tie(b.lot.received_on, b.lot.supplier_id, b.delivery);
}

void book(Context& context, const std::vector<ReceiptLine>& delivery, costing::ShareBy share_by,
          std::vector<Received>& received) {
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
        lot.id = store::add_lot(context.database, lot);
        writer.move({0, 0, "receive", lot.id, store::outside, lot.id, lot.quantity, lot.cost});
        received.push_back({posting, lot, line.material.code, line.material.name,
                            line.material.form, line.material.bulk_unit == "g", line.units,
                            costs[i] - line.lot.cost});
    }
}

} // namespace

const std::vector<std::string>& receipt_fields() {
    static const std::vector<std::string> fields = {
        "date",   "material", "units", "packs",    "cost",    "price", "supplier", "width",
        "height", "length",   "loops", "delivery", "freight", "tax",   "note"};
    return fields;
}

std::vector<Received> receive(Context& context, const std::vector<Row>& rows,
                              costing::ShareBy share_by) {
    return writing(context, [&] {
        const Settings settings = read_settings(context.database);
        std::vector<base::Problem> problems;
        ReceiptReader reader(context, settings, problems);
        std::vector<ReceiptLine> lines;
        for (const Row& row : rows) lines.push_back(reader.read(row));
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
            book(context, delivery, share_by, received);
        }
        return received;
    });
}

} // namespace barrow::workshop
