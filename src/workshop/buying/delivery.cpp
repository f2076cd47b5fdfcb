#include "workshop/buying/delivery.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "store/buying/orders.hpp"
#include "workshop/stock/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

namespace barrow::workshop {

using base::Money;
using base::Rational;
using store::OrderLine;
using store::OrderStatus;

namespace {

template <typename Order>
auto line_of(Order& order, std::int64_t material) {
    return std::find_if(order.lines.begin(), order.lines.end(),
                        [&](const OrderLine& line) { return line.material_id == material; });
}

/// The orders of the book, each read once in a delivery.
class OrdersOfTheBook : public OpenOrders {
public:
    explicit OrdersOfTheBook(store::Database& database) : database_(database) {}

    std::optional<Order> find(Fields& fields, std::int64_t number) override;

    bool has_line(std::int64_t order, std::int64_t material) const override {
        const store::SupplyOrder& found = orders_.at(order);
        return line_of(found, material) != found.lines.end();
    }

    std::vector<StillToCome> outstanding(std::int64_t order) const override {
        std::vector<StillToCome> left;
        for (const OrderLine& line : orders_.at(order).lines)
            if (line.outstanding() > 0) left.push_back({line.material_id, line.outstanding()});
        return left;
    }

    std::optional<Money> take(std::int64_t order, std::int64_t material,
                              std::int64_t units) override;

    void came(std::int64_t lot, std::int64_t order, std::int64_t material) override {
        store::add_order_receipt(database_, lot, order, material);
    }

private:
    store::Database& database_;
    std::map<std::int64_t, store::SupplyOrder> orders_;
};

std::optional<OpenOrders::Order> OrdersOfTheBook::find(Fields& fields, std::int64_t number) {
    const auto known = orders_.find(number);
    if (known != orders_.end())
        return Order{known->second.supplier_id, known->second.placed.made_on};
    auto order = store::find_order(database_, number);
    if (!order) {
        fields.complain("order", fmt::format("there is no order {}", number),
                        "see them with: barrow order list");
        return std::nullopt;
    }
    if (order->status == OrderStatus::undone || order->status == OrderStatus::ended) {
        fields.complain("order",
                        fmt::format("order {} was {}", number,
                                    order->status == OrderStatus::ended ? "ended" : "taken back"),
                        fmt::format("see: barrow order show {}", number));
        return std::nullopt;
    }
    const store::SupplyOrder& kept = orders_.emplace(number, std::move(*order)).first->second;
    return Order{kept.supplier_id, kept.placed.made_on};
}

std::optional<Money> OrdersOfTheBook::take(std::int64_t order, std::int64_t material,
                                           std::int64_t units) {
    OrderLine& line = *line_of(orders_.at(order), material);
    const std::int64_t before = line.received;
    line.received += units;
    if (!line.cost) return std::nullopt;
    const auto up_to = [&](std::int64_t come) {
        return base::times(*line.cost, Rational::of(come, line.units));
    };
    return up_to(line.received) - up_to(before);
}

/// A code of the letters and digits of a name: "Patterned pad" is PATTERNED-PAD.
std::string code_of_name(const std::string& name) {
    std::string code;
    for (const char c : base::raised(name)) {
        if ((c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9')) {
            code += c;
        } else if (!code.empty() && code.back() != '-') {
            code += '-';
        }
    }
    while (!code.empty() && code.back() == '-') code.pop_back();
    if (code.empty())
        throw base::Error(base::Kind::usage, "a code cannot be made of that name",
                          "give one with --code");
    return code.substr(0, 40);
}

/// Fields of the material as the purchase describes it.
Row material_row(const Purchase& purchase, const std::string& code) {
    Row row;
    row.field_prefix = "--";
    row.fields = {{"code", code}, {"name", purchase.name}, {"supplier", purchase.supplier}};
    std::string form = "count";
    int forms = 0;
    const auto is = [&](const std::string& given, const char* name) {
        if (given.empty()) return false;
        form = name;
        return ++forms > 0;
    };
    const auto has_size = [&](const std::string& size, const char* option) {
        const std::size_t cross = size.find_first_of("xX*");
        if (cross == std::string::npos)
            throw base::Error(base::Kind::usage,
                              fmt::format("{} \"{}\" is not a size", option, size),
                              fmt::format("write width x height: {} \"8in x 8in\"", option));
        row.fields["width"] = size.substr(0, cross);
        row.fields["height"] = size.substr(cross + 1);
    };
    if (is(purchase.sheet, "sheet")) has_size(purchase.sheet, "--sheet");
    if (!purchase.size.empty()) has_size(purchase.size, "--size");
    if (is(purchase.reel, "length")) row.fields["length"] = purchase.reel;
    if (is(purchase.strip, "wire")) row.fields["loops"] = purchase.strip;
    if (is(purchase.bottle, "bulk")) {
        row.fields["bulk_unit"] =
            base::lowered(purchase.bottle).find('g') == std::string::npos ? "ml" : "g";
        row.fields["pack"] = purchase.bottle;
    } else {
        row.fields["pack"] = purchase.pack;
    }
    if (forms > 1)
        throw base::Error(base::Kind::usage, "it is not clear what was bought",
                          "give one of --sheet, --reel, --strip and --bottle; none for things "
                          "that are counted");
    if (!purchase.size.empty() && form != "count")
        throw base::Error(base::Kind::usage, "--size is of things that are counted",
                          "of paper, board and cloth it is --sheet");
    row.fields["form"] = form;
    row.fields["caliper"] = purchase.caliper;
    row.fields["pitch"] = purchase.pitch;
    row.fields["diameter"] = purchase.diameter;
    if (purchase.packs.empty() || purchase.packs == "1") row.fields["pack_price"] = purchase.paid;
    return row;
}

} // namespace

BoughtNow buy(Context& context, const Purchase& purchase) {
    return writing(context, [&] {
        BoughtNow bought;
        auto known = store::find_material(context.database,
                                          purchase.code.empty() ? purchase.name : purchase.code);
        const std::string code = known                   ? known->code
                                 : purchase.code.empty() ? code_of_name(purchase.name)
                                                         : purchase.code;
        if (!known) known = store::find_material(context.database, code);
        bought.is_new = !known;
        if (bought.is_new) {
            keep_materials_in_transaction(context, {material_row(purchase, code)}, Expect::fresh);
        } else if (!(purchase.sheet + purchase.reel + purchase.strip + purchase.bottle
                     + purchase.pack + purchase.size + purchase.caliper + purchase.pitch
                     + purchase.diameter)
                        .empty()) {
            throw base::refused(
                fmt::format("{} is known: its size and pack are not said again", known->code),
                fmt::format("leave them out; for another size of it: barrow receive {0}; to change "
                            "them: barrow material change {0}",
                            known->code));
        }
        Row row;
        row.field_prefix = "--";
        row.fields = {
            {"material", code},      {"packs", purchase.packs.empty() ? "1" : purchase.packs},
            {"cost", purchase.paid}, {"supplier", purchase.supplier},
            {"date", purchase.date}, {"note", purchase.note}};
        OrdersOfTheBook orders(context.database);
        bought.received =
            receive_in_transaction(context, {row}, costing::ShareBy::value, orders).front();
        return bought;
    });
}

std::vector<Received> receive(Context& context, const std::vector<Row>& rows,
                              costing::ShareBy share_by) {
    OrdersOfTheBook orders(context.database);
    return receive(context, rows, share_by, orders);
}

} // namespace barrow::workshop
