#include "page/stock/material_form.hpp"

#include "workshop/books/exports.hpp"
#include "workshop/stock/catalogue.hpp"

#include <algorithm>

namespace barrow::page {
namespace {

struct Asked {
    const char* name;
    const char* label;
    const char* help;
    const char* only_for;
};

/// In the order in which a maker knows them.
constexpr Asked asked[] = {
    {"bulk_unit", "Measured in", "ml or g", "bulk"},
    {"width", "Width", "8in, 305 mm", "sheet count length"},
    {"height", "Height", "along the pattern", "sheet count"},
    {"length", "Length of a roll", "25 m", "length"},
    {"loops", "Loops on a strip", "", "wire"},
    {"pitch", "Pitch", "loops in an inch: 2:1, 3:1", "wire"},
    {"diameter", "Diameter", "16 mm", "wire count"},
    {"pack", "In a pack", "sheets, pieces, 250 ml", ""},
    {"pack_price", "A pack costs", "", ""},
    {"pattern", "Pattern", "none, one-way, two-way", "sheet"},
    {"faces", "Printed faces", "1 or 2", "sheet"},
    {"grain", "Grain runs along", "width or height", "sheet"},
    {"grammage", "Weight of the paper", "in g/m2", "sheet count"},
    {"caliper", "Thickness", "1.5 mm", "sheet count"},
    {"trim_bottom", "Unusable strip at the bottom", "6 mm", "sheet"},
    {"trim_top", "at the top", "", "sheet"},
    {"trim_left", "at the left", "", "sheet"},
    {"trim_right", "at the right", "", "sheet"},
    {"keep_from", "Smallest piece worth keeping", "80mm x 150mm", "sheet length wire"},
    {"kerf", "A cut takes away", "0 with a blade", "sheet length"},
    {"flap", "Flap", "of an envelope", "count"},
    {"spread", "Spread", "ml or g for a square metre", "bulk"},
    {"reorder_at", "Low below", "units on the shelf", ""},
    {"collection", "Collection", "papers made to go together", ""},
    {"place", "Place", "shelf or drawer", ""},
    {"hazard", "What may hurt", "blade, solvent, spray, small-parts", ""},
    {"note", "Note", "", ""},
};

std::string known(const workshop::ExportedTable& table, const std::string& code,
                  const std::string& field) {
    const auto column = std::find(table.columns.begin(), table.columns.end(), field);
    if (column == table.columns.end()) return {};
    for (const auto& row : table.rows)
        if (row.front() == code)
            return row.at(static_cast<std::size_t>(column - table.columns.begin()));
    return {};
}

bool matters(const std::string& only_for, std::string_view form) {
    return only_for.empty()
           || (" " + only_for + " ").find(" " + std::string(form) + " ") != std::string::npos;
}

} // namespace

std::vector<std::pair<std::string, std::string>> supplier_choices(store::Database& database) {
    std::vector<std::pair<std::string, std::string>> choices = {{"", "None"}};
    for (const store::Supplier& supplier : workshop::list_suppliers(database))
        choices.emplace_back(supplier.code, supplier.name);
    return choices;
}

Form material_form(const Visit& visit, const store::Material* material) {
    Form form{"/stock/new", "Enter it"};
    if (material != nullptr)
        form = {"/stock/material/" + encoded(material->code) + "/change", "Change it"};
    if (material == nullptr) {
        form.fields.push_back(
            {"name", "Name", Field::As::text, "", "as you call it: Moss, double-sided", {}, true});
        form.fields.push_back(
            {"code", "Code", Field::As::text, "", "short, on labels and lists: MOSS-12", {}, true});
        form.fields.push_back({"form",
                               "Form",
                               Field::As::choice,
                               "sheet",
                               "how it is measured and used up",
                               {{"sheet", "Sheets: paper, board, cloth"},
                                {"length", "By length: ribbon, tape, cord"},
                                {"wire", "Binding wire: loops on strips"},
                                {"count", "By number: envelopes, tags, buttons"},
                                {"bulk", "Poured: glue, ink"}},
                               true});
    } else {
        form.fields.push_back({"name", "Name", Field::As::text, material->name});
    }
    const workshop::ExportedTable table = material == nullptr
                                              ? workshop::ExportedTable{}
                                              : workshop::export_table(visit.database, "materials");
    const auto value = [&](const char* name) {
        return material == nullptr ? std::string() : known(table, material->code, name);
    };
    for (const Asked& one : asked) {
        if (material != nullptr && !matters(one.only_for, base::name_of(material->form))) continue;
        Field field{one.name, one.label, Field::As::text, value(one.name), one.help};
        field.number = std::string(one.name) != "collection" && std::string(one.name) != "place"
                       && std::string(one.name) != "note" && std::string(one.name) != "hazard";
        if (material == nullptr) field.only_for = one.only_for;
        form.fields.push_back(field);
    }
    form.fields.push_back({"supplier", "Supplier", Field::As::choice, value("supplier"), "",
                           supplier_choices(visit.database)});
    return form;
}

} // namespace barrow::page
