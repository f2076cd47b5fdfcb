#pragma once

#include "base/date.hpp"
#include "base/form.hpp"
#include "base/money.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace barrow::supply {

/// One material as far as buying it matters. Units: sheets, rolls, strips, counted things; bulk in
/// thousandths of a millilitre or gram.
struct Supply {
    std::string material; ///< code
    std::string name;
    base::Form form = base::Form::count;
    bool bulk_is_mass = false;
    std::string supplier; ///< code; empty when none is named
    std::string supplier_name;
    std::int64_t lead_days = 0;
    std::int64_t pack_units = 1;
    std::optional<base::Money> pack_price;
    /// Units there now. What is cut along its length is counted whole and begun, by the length or
    /// loops there are; of sheets, whole ones.
    std::int64_t on_hand = 0;
    std::int64_t used = 0;     ///< of those, what planned batches and the wanted journals use up
    std::int64_t short_of = 0; ///< what they want beyond shelf and offcuts
    std::int64_t on_order = 0; ///< ordered already, and expected by the wanted day
    std::int64_t reorder_level = 0; ///< fewer left than this: buy up to it
};

/// One material to be ordered.
struct OrderLine {
    Supply supply;
    std::int64_t for_journals = 0; ///< units needed to make the wanted journals
    std::int64_t for_level = 0;    ///< units needed to be back at the reorder level
    std::int64_t packs = 0;
    std::int64_t units = 0;          ///< in those packs
    std::optional<base::Money> cost; ///< of the packs; nothing when the price is not known
};

/// What to order from one supplier.
struct SupplierOrder {
    std::string supplier;
    std::string supplier_name;
    base::Date order_by; ///< the wanted date less the lead time
    bool late = false;   ///< order_by lies before today
    std::vector<OrderLine> lines;
    base::Money total;          ///< of the lines whose price is known
    bool total_is_whole = true; ///< false when some price is not known
};

/// Units still to be bought: what the journals are short of and what the reorder level wants beyond
/// what is left, less what is on order; never below zero.
std::int64_t net_need(const Supply& supply);

/// Net needs (what is wanted less what is on hand and on order, never below zero; Orlicky's
/// netting), raised to the reorder level, rounded up to whole packs, gathered by supplier in the
/// order of their codes, the unnamed supplier last. Materials that need nothing are left out.
std::vector<SupplierOrder> orders_for(const std::vector<Supply>& supplies, const base::Date& wanted,
                                      const base::Date& today);

} // namespace barrow::supply
