#include "cli/commands.hpp"

#include "cli/options.hpp"
#include "print/stock/materials.hpp"
#include "reading/rows.hpp"
#include "workshop/stock/catalogue.hpp"

#include <fmt/format.h>

#include <memory>

namespace barrow::cli {
namespace {

using Keep = workshop::Kept (*)(workshop::Context&, const std::vector<workshop::Row>&,
                                workshop::Expect);

std::string kept_text(const workshop::Kept& kept, const char* what) {
    return fmt::format("{} added, {} changed, {} unchanged: {}.\n", kept.added, kept.changed,
                       kept.unchanged, what);
}

const std::map<std::string, std::string>& supplier_help() {
    static const std::map<std::string, std::string> help = {
        {"name", "Name in full"},
        {"lead_days", "Days from order to delivery"},
        {"note", "A note; - empties it"}};
    return help;
}

const std::map<std::string, std::string>& material_help() {
    static const std::map<std::string, std::string> help = {
        {"name", "Name in full"},
        {"form", "How it is used up: sheet, length, wire, count or bulk"},
        {"collection", "Papers made to go together"},
        {"supplier", "Code of the supplier"},
        {"width",
         "Of a sheet; of an envelope or another thing, its shorter side; of a ribbon, across"},
        {"height", "Of a sheet; of an envelope or another thing, its longer side"},
        {"length", "Ribbon, lace, cord: length of a roll"},
        {"loops", "Wire: loops of a strip"},
        {"bulk_unit", "Glue, ink: ml or g"},
        {"pack", "Units in a pack (bulk: 250 ml)"},
        {"pack_price", "What a pack costs to buy now"},
        {"keep_from", "Smallest remnant worth keeping: 80mm x 150mm, 30cm, 6 (loops)"},
        {"trim_left", "Unusable border of a fresh sheet"},
        {"trim_right", "Unusable border of a fresh sheet"},
        {"trim_top", "Unusable border of a fresh sheet"},
        {"trim_bottom", "Unusable border of a fresh sheet"},
        {"kerf", "What each cut destroys"},
        {"pattern", "none, one-way or two-way: how far pieces may be turned"},
        {"grain", "Side the grain runs along: width or height"},
        {"reorder_at", "Buy more when fewer than this are left"},
        {"hazard", "For cautions: blade, solvent, spray, small-parts, magnet, cord"},
        {"note", "A note; - empties it"},
        {"place", "Shelf, box or drawer it is kept in; - empties it"},
        {"caliper", "Thickness of one sheet, of an envelope's paper, of a thing: 0.42mm"},
        {"grammage", "Weight in g/m2: 310"},
        {"bulk", "Bulk in cm3/g, which with the grammage gives a caliper: 1.3"},
        {"faces", "Sheet: patterned on 1 side or on 2"},
        {"repeat", "Length after which the pattern begins again"},
        {"pitch", "Wire: loops in an inch, 2:1 or 3:1"},
        {"diameter", "Of wire or rings, across: 5/8in"},
        {"flap", "Envelope: depth of its flap"},
        {"spread", "Glue: ml or g on a square metre"}};
    return help;
}

void add_import(Command& group, Shell& shell, const char* what,
                const std::vector<std::string>& columns, Keep keep) {
    auto* command =
        group.add_subcommand("import", fmt::format("Bring {} in from a CSV file", what));
    const auto file = std::make_shared<std::string>();
    command->add_option("file", *file, "The file; - for standard input")->required();
    add_dry_run(*command, shell);
    command->footer(fmt::format("Columns, in any order: {}", fmt::join(columns, ", ")));
    command->callback([&shell, file, what, &columns, keep] {
        const auto table = reading::read_csv(shell.read_file(*file), *file, columns);
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        shell.say(kept_text(keep(context, reading::rows_of(table), workshop::Expect::any), what));
    });
}

/// `add` and `change` are one use case; they differ in what must not, or must, be there already.
void add_by_field(Command& group, Shell& shell, const char* verb, const char* what,
                  const std::vector<std::string>& fields,
                  const std::map<std::string, std::string>& help, Keep keep,
                  workshop::Expect expect) {
    auto* command = group.add_subcommand(
        verb, fmt::format("{} the {}",
                          verb == std::string_view("add") ? "Add one to" : "Change one of", what));
    const auto code = std::make_shared<std::string>();
    command->add_option("code", *code, "Its code")->required();
    const auto options = std::make_shared<RowOptions>(*command, fields, help);
    add_dry_run(*command, shell);
    command->callback([&shell, code, options, what, keep, expect] {
        store::Database database = shell.open();
        workshop::Context context = shell.context(database);
        workshop::Row row = options->row();
        row.fields["code"] = *code;
        shell.say(kept_text(keep(context, {row}, expect), what));
    });
}

void add_supplier_group(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("supplier", "Who sells you supplies");
    auto* list = group->add_subcommand("list", "All suppliers");
    list->callback([&shell] {
        store::Database database = shell.open();
        const auto suppliers = workshop::list_suppliers(database);
        shell.show([&] { return print::screen(suppliers); },
                   [&] { return print::document(suppliers); });
    });
    add_import(*group, shell, "suppliers", workshop::supplier_fields(), workshop::keep_suppliers);
    add_by_field(*group, shell, "add", "suppliers", workshop::supplier_fields(), supplier_help(),
                 workshop::keep_suppliers, workshop::Expect::fresh);
    add_by_field(*group, shell, "change", "suppliers", workshop::supplier_fields(), supplier_help(),
                 workshop::keep_suppliers, workshop::Expect::known);
}

void add_material_group(Command& app, Shell& shell) {
    auto* group = app.add_subcommand("material", "What you buy for making");
    auto* list = group->add_subcommand("list", "All materials");
    list->callback([&shell] {
        store::Database database = shell.open();
        const auto materials = workshop::list_materials(database);
        const auto settings = workshop::read_settings(database);
        shell.show([&] { return print::screen(materials, settings); },
                   [&] { return print::document(materials, settings); });
    });
    add_import(*group, shell, "materials", workshop::material_fields(), workshop::keep_materials);
    add_by_field(*group, shell, "add", "materials", workshop::material_fields(), material_help(),
                 workshop::keep_materials, workshop::Expect::fresh);
    add_by_field(*group, shell, "change", "materials", workshop::material_fields(), material_help(),
                 workshop::keep_materials, workshop::Expect::known);
}

} // namespace

void add_catalogue_commands(Command& app, Shell& shell) {
    add_material_group(app, shell);
    add_supplier_group(app, shell);
}

} // namespace barrow::cli
