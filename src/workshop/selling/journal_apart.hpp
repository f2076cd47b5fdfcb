#pragma once

#include "base/form.hpp"
#include "store/selling/journals.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/settings.hpp"

#include <optional>
#include <string>
#include <vector>

namespace barrow::workshop {

/// What is to come back out of a journal: a material's code and how much, as a person writes it.
/// A bare number (bulk: an amount, "3 ml") is whole units and goes back on the shelf; a size
/// ("165mm x 210mm", "30cm", "8 loops") goes into the offcut box under a new label.
struct WantedBack {
    std::string material;
    std::string amount;
};

/// Something that came back.
struct CameBack {
    std::string material; ///< code
    std::string material_name;
    base::Form form = base::Form::count;
    bool bulk_is_mass = false;
    std::int64_t units = 0;              ///< back on the shelf; 0 for an offcut
    std::optional<store::Offcut> offcut; ///< back in the box, with its new label
    base::Money value;
};

/// A journal taken apart.
struct TakenApart {
    std::int64_t posting = 0;
    Settings settings;
    store::Journal journal;
    std::vector<CameBack> parts;
    base::Money written_off; ///< what the journal was worth besides
};

/// Takes a journal apart. What comes back goes to the lots it came from, at the cost it had in the
/// journal's batch (its share of what the batch took of the lot; all together at most what the
/// journal's materials cost); the rest of the journal's value is written off. Throws base::Error:
/// as journals_in_hand; Kind::bad_input for an unknown material or an amount that cannot be read;
/// Kind::refused when the batch took none of the material, or less of it than has come back out of
/// its journals by now.
TakenApart take_apart(Context& context, const std::string& serial,
                      const std::vector<WantedBack>& wanted);

} // namespace barrow::workshop
