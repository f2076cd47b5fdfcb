#pragma once

#include "costing/shelf/landed.hpp"
#include "store/stock/lots.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/fields.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::workshop {

/// Fields a receipt row may have: date, material, units or packs, cost or price, order (that it
/// came for), supplier, width, height, length, loops (when the lot has another size than usual),
/// delivery, freight, tax, note.
const std::vector<std::string>& receipt_fields();

/// One lot received.
struct Received {
    std::int64_t posting = 0;
    store::Lot lot;
    std::string material; ///< code
    std::string material_name;
    base::Form form = base::Form::count;
    bool bulk_is_mass = false;
    std::int64_t units = 0; ///< sheets, rolls, strips, counted things; thousandths of bulk
    base::Money extra;      ///< freight and tax included in the cost
    /// How the cost follows from the price of a pack, in words: where the units are no whole packs,
    /// or the price is one that was known. Else empty.
    std::string reckoned = {};
};

/// Units of a material that an order still waits for.
struct StillToCome {
    std::int64_t material_id = 0;
    std::int64_t units = 0;
};

/// The orders that a delivery answers, as receiving sees them. What one row takes, the next row no
/// longer finds outstanding. Stock knows no orders: buying/delivery.hpp reads them from the book.
class OpenOrders {
public:
    struct Order {
        std::int64_t supplier_id = 0;
        base::Date placed_on;
    };

    virtual ~OpenOrders() = default;

    /// The order that a row names; nothing, and a problem of the row, when there is none or when
    /// it was ended or taken back.
    virtual std::optional<Order> find(Fields& fields, std::int64_t number) = 0;

    // Of an order that was found:
    virtual bool has_line(std::int64_t order, std::int64_t material) const = 0;
    virtual std::vector<StillToCome> outstanding(std::int64_t order) const = 0;
    /// Counts units as received and returns their part of the agreed cost of the line; nothing
    /// when no cost was agreed. It is the cumulative agreed cost including these units, minus that
    /// before them, each rounded once: so the parts add up to what was agreed.
    virtual std::optional<base::Money> take(std::int64_t order, std::int64_t material,
                                            std::int64_t units) = 0;
    /// Books that a lot came for the order.
    virtual void came(std::int64_t lot, std::int64_t order, std::int64_t material) = 0;
};

/// Books receipts into the ledger. Rows of one date, supplier and delivery form one delivery and
/// one posting; freight and tax named on any of its rows are shared over all of them. `cost` is
/// what the row's goods cost in all, `price` what one pack costs; with neither, the pack price that
/// is known of the material. Zero is a free sample. A date in
/// the past is taken as it is: the lot then stands in the cost order by that date, but what was
/// used before it was entered keeps the cost it had. What came for an order may leave the cost out:
/// it is then its part of what was agreed, and all parts together are that to the minor unit. A row
/// that names an order and no material brings all that is outstanding of it. All rows or none.
/// Throws base::Error (Kind::bad_input) with every problem of every row.
std::vector<Received> receive(Context& context, const std::vector<Row>& rows,
                              costing::ShareBy share_by, OpenOrders& orders);
/// The same for use cases that already stand in a transaction.
std::vector<Received> receive_in_transaction(Context& context, const std::vector<Row>& rows,
                                             costing::ShareBy share_by, OpenOrders& orders);

} // namespace barrow::workshop
