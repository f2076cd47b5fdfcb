#include "workshop/designs.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "design/design_file.hpp"
#include "store/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::workshop {

namespace {

Brought bring_one(Context& context, const DesignText& text) {
    const design::Design design = design::read_design(text.text, text.file);
    const design::Worked worked = design::work_out(design);
    store::Database& database = context.database;
    Brought brought;
    const auto before = store::find_design(database, design.code);
    store::StoredDesign stored;
    stored.code = design.code;
    stored.name = design.name;
    stored.text = text.text;
    stored.file = text.file;
    stored.brought_on = context.today;
    brought.design = store::keep_design(database, stored);
    brought.is_new = !before;
    brought.changed = before && before->text_id != brought.design.text_id;
    for (const design::WorkedPart& part : worked.parts) {
        auto& missing = brought.missing_materials;
        if (!store::find_material(database, part.material)
            && std::find(missing.begin(), missing.end(), part.material) == missing.end())
            missing.push_back(part.material);
    }
    return brought;
}

} // namespace

std::vector<Brought> bring_designs(Context& context, const std::vector<DesignText>& texts) {
    return writing(context, [&] {
        std::vector<Brought> brought;
        for (const DesignText& text : texts) brought.push_back(bring_one(context, text));
        return brought;
    });
}

design::Worked show_design(store::Database& database, const std::string& code,
                           const design::Changes& changes) {
    return reading(database, [&] {
        const store::StoredDesign stored = design_called(database, code, "design");
        return design::work_out(design::read_design(stored.text, stored.file), changes);
    });
}

store::StoredDesign design_called(store::Database& database, const std::string& code,
                                  const std::string& where) {
    if (auto design = store::find_design(database, code)) return *design;
    std::vector<std::string> codes;
    for (const store::StoredDesign& design : store::all_designs(database))
        codes.push_back(design.code);
    std::string hint = base::did_you_mean(code, codes);
    if (hint.empty())
        hint = codes.empty() ? std::string("bring one in with: barrow design bring FILE")
                             : fmt::format("the shop has {}", fmt::join(codes, ", "));
    throw base::bad_input(where, fmt::format("there is no design {}", code), hint);
}

std::vector<store::StoredDesign> list_designs(store::Database& database) {
    return reading(database, [&] { return store::all_designs(database); });
}

} // namespace barrow::workshop
