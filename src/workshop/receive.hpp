#pragma once

#include "costing/landed.hpp"
#include "store/lots.hpp"
#include "workshop/context.hpp"
#include "workshop/fields.hpp"

#include <cstdint>
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
};

/// Books receipts into the ledger. Rows of one date, supplier and delivery form one delivery and
/// one posting; freight and tax named on any of its rows are shared over all of them. `cost` is
/// what the row's goods cost in all, `price` what one pack costs. Zero is a free sample. A date in
/// the past is taken as it is: the lot then stands in the cost order by that date, but what was
/// used before it was entered keeps the cost it had. What came for an order may leave the cost out:
/// it is then its part of what was agreed, and all parts together are that to the minor unit. A row
/// that names an order and no material brings all that is outstanding of it. All rows or none.
/// Throws base::Error (Kind::bad_input) with every problem of every row.
std::vector<Received> receive(Context& context, const std::vector<Row>& rows,
                              costing::ShareBy share_by);

} // namespace barrow::workshop
