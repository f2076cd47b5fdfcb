#pragma once

#include "design/work_out.hpp"
#include "store/designs.hpp"
#include "workshop/context.hpp"

#include <string>
#include <vector>

namespace barrow::workshop {

/// A design file as it was read from disk.
struct DesignText {
    std::string text;
    std::string file; ///< its name
};

/// What bringing a design in did.
struct Brought {
    store::StoredDesign design;
    bool is_new = false;
    bool changed = false; ///< a newer text of a known design
    /// Materials its parts name that the shop does not have yet: the design can be kept, not made.
    std::vector<std::string> missing_materials;
};

/// Keeps designs in the shop, with their texts; all of them or none. Each is worked out with its
/// usual values first, so that one that cannot be worked out is never kept. Throws base::Error
/// (Kind::bad_input) as read_design and work_out do.
std::vector<Brought> bring_designs(Context& context, const std::vector<DesignText>& texts);

/// A design of the shop worked out, with what is changed. Throws base::Error as work_out does.
design::Worked show_design(store::Database& database, const std::string& code,
                           const design::Changes& changes);

/// The design of that code. Throws base::Error (Kind::bad_input, `where` as given) with the
/// nearest codes when there is none.
store::StoredDesign design_called(store::Database& database, const std::string& code,
                                  const std::string& where);

std::vector<store::StoredDesign> list_designs(store::Database& database);

} // namespace barrow::workshop
