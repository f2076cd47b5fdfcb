#include "workshop/making/designs.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "design/file/design_file.hpp"
#include "store/stock/catalogue.hpp"
#include "workshop/shared/fields.hpp"
#include "workshop/stock/material_facts.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::workshop {

namespace {

/// Texts of designs by code: those being brought in together first, then those of the shop.
design::DesignFinder finder(store::Database& database,
                            const std::vector<DesignText>* beside = nullptr) {
    return [&database, beside](const std::string& code) -> std::optional<design::DesignText> {
        if (beside != nullptr)
            for (const DesignText& text : *beside)
                if (base::lowered(design::code_in(text.text)) == base::lowered(code))
                    return design::DesignText{text.text, text.file};
        if (const auto stored = store::find_design(database, code))
            return design::DesignText{stored->text, stored->file};
        return std::nullopt;
    };
}

void add_once(std::vector<std::string>& list, const std::string& text) {
    if (std::find(list.begin(), list.end(), text) == list.end()) list.push_back(text);
}

/// What the shop must have for the design to be made and has not.
void find_missing(store::Database& database, const design::Facts& facts,
                  const design::Worked& worked, std::vector<std::string>& missing) {
    const auto need = [&](const std::string& code) {
        if (!store::find_material(database, code)) add_once(missing, code);
    };
    for (const design::WorkedSlot& slot : worked.slots) {
        if (!slot.material.empty()) need(slot.material);
        for (const std::string& code : slot.any_of) need(code);
        if (slot.material.empty() && !slot.collection.empty()
            && facts.in_collection(slot.collection).empty())
            add_once(missing, "of the collection " + slot.collection);
    }
}

/// Works one design of a family out, and notes what lacks. That no sheet of the shop holds a piece
/// of it today is no reason not to keep it: sheets come and go.
void bring_into_view(store::Database& database, const design::Facts& facts,
                     const design::Design& design, Brought& brought) {
    const auto warn = [&](const std::string& warning) {
        add_once(brought.warnings,
                 design.variant.empty() ? warning : design.variant + ": " + warning);
    };
    try {
        const design::Worked worked = design::work_out(design, {}, facts);
        find_missing(database, facts, worked, brought.missing_materials);
        for (const design::Warning& warning : worked.warnings) warn(warning.text);
    } catch (const base::Error& error) {
        if (error.kind() != base::Kind::refused) throw;
        for (const base::Problem& problem : error.problems())
            warn(problem.where + ": " + problem.what);
    }
}

Brought bring_one(Context& context, const DesignText& text, const std::vector<DesignText>& beside) {
    store::Database& database = context.database;
    const design::Design design =
        design::read_design(text.text, text.file, finder(database, &beside));
    const design::Facts facts = facts_of(database);
    Brought brought;
    std::vector<const design::Design*> all = {&design};
    for (const design::Design& variant : design.variants) all.push_back(&variant);
    for (const design::Design* one : all) bring_into_view(database, facts, *one, brought);
    const auto before = store::find_design(database, design.code);
    store::StoredDesign stored;
    stored.code = design.code;
    stored.name = plain_text(design.name, text.file + ", [design] name");
    stored.text = text.text;
    stored.file = plain_text(text.file, "the name of the file");
    stored.brought_on = context.today;
    brought.design = store::keep_design(database, stored);
    brought.is_new = !before;
    brought.changed = before && before->text_id != brought.design.text_id;
    for (const design::Design& variant : design.variants) brought.variants.push_back(variant.code);
    return brought;
}

/// The design one of whose variants has a code of its own that is `code`.
std::optional<store::StoredDesign> design_of_variant(store::Database& database,
                                                     const std::string& code) {
    for (const store::StoredDesign& stored : store::all_designs(database)) {
        try {
            if (find_variant(read_stored(database, stored), code) != nullptr) return stored;
        } catch (const base::Error&) {
            continue; // what is wrong with that one is told by its own commands
        }
    }
    return std::nullopt;
}

} // namespace

std::vector<Brought> bring_designs(Context& context, const std::vector<DesignText>& texts) {
    return writing(context, [&] {
        std::vector<Brought> brought;
        brought.reserve(texts.size());
        for (const DesignText& text : texts) brought.push_back(bring_one(context, text, texts));
        return brought;
    });
}

design::Design read_stored(store::Database& database, const store::StoredDesign& stored) {
    return design::read_design(stored.text, stored.file, finder(database));
}

CalledDesign design_read(store::Database& database, const std::string& code,
                         const std::string& where) {
    CalledDesign called{design_called(database, code, where), {}};
    const design::Design family = read_stored(database, called.stored);
    const design::Design* found = design::find_variant(family, code);
    if (found == nullptr) {
        std::vector<std::string> codes;
        for (const design::Design& variant : family.variants) codes.push_back(variant.code);
        throw base::bad_input(where, fmt::format("{} has no variant {}", family.code, code),
                              codes.empty() ? std::string("it has none")
                                            : fmt::format("it has {}", fmt::join(codes, ", ")));
    }
    called.design = *found;
    return called;
}

design::Worked show_design(store::Database& database, const std::string& code,
                           const design::Changes& changes) {
    return reading(database, [&] {
        return design::work_out(design_read(database, code, "design").design, changes,
                                facts_of(database));
    });
}

design::Worked check_text(store::Database* database, const DesignText& text,
                          const std::string& variant, const design::Changes& changes) {
    const auto check = [&](const design::DesignFinder& find, const design::Facts& facts) {
        const design::Design family = design::read_design(text.text, text.file, find);
        const std::string code = variant.empty() ? family.code : family.code + "." + variant;
        const design::Design* found = design::find_variant(family, code);
        if (found == nullptr)
            throw base::bad_input(text.file, fmt::format("there is no variant \"{}\"", variant));
        return design::work_out(*found, changes, facts);
    };
    if (database == nullptr) return check({}, {});
    return reading(*database, [&] { return check(finder(*database), facts_of(*database)); });
}

std::vector<ReadyParameter> parameters_of(const design::ReadyDesign& ready) {
    std::vector<ReadyParameter> parameters;
    const design::Design design = design::read_design(ready.text, ready.name);
    parameters.reserve(design.parameters.size());
    for (const design::Parameter& parameter : design.parameters)
        parameters.push_back({parameter.name, design::to_text(parameter.usual), parameter.about});
    return parameters;
}

std::vector<std::string> slots_of(const design::ReadyDesign& ready) {
    std::vector<std::string> names;
    const design::Design design = design::read_design(ready.text, ready.name);
    names.reserve(design.slots.size());
    for (const design::SlotSpec& slot : design.slots) names.push_back(slot.name);
    return names;
}

design::Worked calculate(const std::string& name,
                         const std::map<std::string, std::string>& values) {
    const design::ReadyDesign* calculator = design::find_ready(design::calculators(), name);
    if (calculator == nullptr) throw base::broken("no calculator of that name");
    return design::work_out(design::read_design(calculator->text, name), {values, {}});
}

store::StoredDesign design_called(store::Database& database, const std::string& code,
                                  const std::string& where) {
    if (auto design = store::find_design(database, code)) return *design;
    if (auto family = store::find_design(database, design::split_code(code).design)) return *family;
    if (auto family = design_of_variant(database, code)) return *family;
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
