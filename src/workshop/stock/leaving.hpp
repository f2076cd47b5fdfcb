#pragma once

#include "store/stock/lots.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/settings.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace barrow::workshop {

/// A lot with its material, for a list.
struct LotLine {
    store::LotOnShelf there;
    std::string material; ///< code
    base::Form form = base::Form::count;
    bool bulk_is_mass = false;
    std::int64_t received_units = 0;
    std::int64_t units = 0;
    std::string supplier; ///< code
};

struct Lots {
    Settings settings;
    std::vector<LotLine> lines; ///< oldest receipt first
};

/// The lots of a material that are still on the shelf. Throws base::Error (Kind::bad_input) for a
/// code there is not.
Lots lots(store::Database& database, const std::string& material);

/// Something that left the shop other than in a journal.
struct Left {
    std::int64_t posting = 0;
    std::string what;  ///< "3 sheets of FERN-12", "offcut K7M-4"
    base::Money value; ///< that went with it
    /// Of something sent back: what the supplier pays for it, and what of its cost is lost with it
    /// (written off), or what he pays beyond the cost it had.
    base::Money refund = {}, lost = {}, beyond = {};
};

/// Sends units of a lot back to the supplier. They leave the shelf at the cost the shop's order
/// gives them: under the moving average at the average of all, so that what stays costs what it
/// did. The supplier pays `refund` for them, as a person writes it; if that is empty, what the
/// goods themselves cost, without freight and tax. What he does not pay is a loss and written off,
/// with any cost left when that was the last of the material. Throws base::Error: Kind::bad_input
/// for a lot there is not, Kind::refused when it holds less or planned batches have reserved them
/// (named in the error).
Left return_to_supplier(Context& context, std::int64_t lot, const std::string& units,
                        const std::string& refund = {});

/// Writes units of a material off (spoiled, lost, given away) in the shop's cost order. `units` as
/// a person writes them: "3", "40 ml". Throws base::Error (Kind::refused) when less is on the
/// shelf, when planned batches have reserved so much that less is free (they are named), or when
/// no reason is given (context.note).
Left write_off_material(Context& context, const std::string& code, const std::string& units);

/// Writes an offcut off, whole. Throws base::Error (Kind::refused) when a planned batch has it
/// reserved.
Left write_off_offcut(Context& context, const std::string& label);

/// The offcut with that label, as a person may type it. Throws base::Error (Kind::bad_input):
/// when the check sign does not fit (a slip of the pen), or when there is no such offcut.
store::Offcut offcut_labelled(store::Database& database, const std::string& label);

/// The same, and it must still be there. Throws base::Error (Kind::refused) naming the entries
/// that used it up.
store::OffcutOnHand offcut_there(store::Database& database, const std::string& label);

/// The same, and no planned batch may have it reserved. Throws base::Error (Kind::refused) naming
/// the batch.
store::OffcutOnHand offcut_free(store::Database& database, const std::string& label);

} // namespace barrow::workshop
