#pragma once

#include "design/ready/ready.hpp"
#include "design/work/work_out.hpp"
#include "store/making/designs.hpp"
#include "workshop/shared/context.hpp"

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
    std::vector<std::string> variants; ///< codes of its variants
    std::vector<std::string> warnings; ///< what will not work at the bench as it stands
};

/// Keeps designs in the shop, with their texts; all of them or none. Each is worked out with its
/// usual values first, so that one that cannot be worked out is never kept. Throws base::Error
/// (Kind::bad_input) as read_design and work_out do.
std::vector<Brought> bring_designs(Context& context, const std::vector<DesignText>& texts);

/// A design of the shop (or a variant of one: "quayside.large") as it was found, and read.
struct CalledDesign {
    store::StoredDesign stored;
    design::Design design;
};

/// Throws base::Error (Kind::bad_input, `where` as given) with the nearest codes when there is
/// none.
CalledDesign design_read(store::Database& database, const std::string& code,
                         const std::string& where);

/// The text of a stored design, read with everything it builds on.
design::Design read_stored(store::Database& database, const store::StoredDesign& stored);

/// A design of the shop worked out, with what is changed and what the shop knows of its materials.
/// Throws base::Error as work_out does.
design::Worked show_design(store::Database& database, const std::string& code,
                           const design::Changes& changes);

/// A design file worked out as it stands, brought in or not. With a shop, what it knows of its
/// materials counts, and the design may build on those of the shop. `variant` may be empty.
design::Worked check_text(store::Database* database, const DesignText& text,
                          const std::string& variant, const design::Changes& changes);

/// What may be set in a base or a calculator.
struct ReadyParameter {
    std::string name;
    std::string usual; ///< as text: "90 mm"
    std::string about;
};
std::vector<ReadyParameter> parameters_of(const design::ReadyDesign& ready);

/// Names of what it is made of, in the order of its file.
std::vector<std::string> slots_of(const design::ReadyDesign& ready);

/// One of the calculators (design/ready.hpp) worked out with these values; needs no shop.
design::Worked calculate(const std::string& name, const std::map<std::string, std::string>& values);

/// The design of that code, or the one a variant of that code belongs to. Throws base::Error
/// (Kind::bad_input, `where` as given) with the nearest codes when there is none.
store::StoredDesign design_called(store::Database& database, const std::string& code,
                                  const std::string& where);

std::vector<store::StoredDesign> list_designs(store::Database& database);

} // namespace barrow::workshop
