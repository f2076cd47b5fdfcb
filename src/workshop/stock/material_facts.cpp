#include "workshop/stock/material_facts.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "workshop/stock/shelf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <initializer_list>

namespace barrow::workshop {
namespace {

using base::Form;
using base::Length;
using base::Rational;
using store::Material;
using Fact = std::optional<std::int64_t>;

enum class Measure { length, thousandths, faces, pitch };

/// A fact, the field it is read from, and the forms it goes with.
struct FactField {
    const char* field;
    Fact Material::*fact;
    Measure measure;
    std::initializer_list<Form> forms;
};

const std::array<FactField, 11>& fact_fields() {
    static const std::array<FactField, 11> all = {{
        {"caliper", &Material::caliper, Measure::length, {Form::sheet, Form::count}},
        {"grammage", &Material::grammage, Measure::thousandths, {Form::sheet, Form::count}},
        {"bulk", &Material::bulk, Measure::thousandths, {Form::sheet, Form::count}},
        {"faces", &Material::faces, Measure::faces, {Form::sheet}},
        {"repeat", &Material::repeat, Measure::length, {Form::sheet, Form::length}},
        {"pitch", &Material::pitch, Measure::pitch, {Form::wire}},
        {"diameter", &Material::diameter, Measure::length, {Form::wire, Form::count}},
        {"width", &Material::thing_width, Measure::length, {Form::count, Form::length}},
        {"height", &Material::thing_height, Measure::length, {Form::count}},
        {"flap", &Material::flap, Measure::length, {Form::count}},
        {"spread", &Material::spread, Measure::thousandths, {Form::bulk}},
    }};
    return all;
}

bool goes_with(const FactField& field, Form form) {
    return std::find(field.forms.begin(), field.forms.end(), form) != field.forms.end();
}

/// Width and height of a sheet are its size, which is read elsewhere.
bool is_size_of_sheet(const FactField& field, Form form) {
    return form == Form::sheet
           && (field.fact == &Material::thing_width || field.fact == &Material::thing_height);
}

/// "310", or with its unit: "310 g/m2".
Fact read_thousandths(Fields& fields, const char* name, const std::string& text) {
    std::string number = text;
    for (const std::string_view unit : {"g/m2", "cm3/g", "ml/m2"}) {
        if (number.size() <= unit.size()) continue;
        if (number.substr(number.size() - unit.size()) == unit)
            number.resize(number.size() - unit.size());
    }
    const auto value = base::read_rational(base::trimmed(number));
    const Rational most(10'000);
    if (!value || *value <= Rational(0) || *value > most
        || !(*value * Rational(1'000)).is_whole()) {
        fields.complain(name, fmt::format("\"{}\" is not a number above zero", text),
                        "at most 10 000, in thousandths at the finest: 310, or 1.25");
        return std::nullopt;
    }
    return (*value * Rational(1'000)).number();
}

Fact read_pitch(Fields& fields, const std::string& text) {
    std::string number = text;
    if (number.size() > 2 && number.substr(number.size() - 2) == ":1")
        number.resize(number.size() - 2);
    const auto loops = base::read_rational(number);
    if (!loops || !loops->is_whole() || *loops < Rational(1) || *loops > Rational(20)) {
        fields.complain("pitch", fmt::format("\"{}\" is not a pitch", text),
                        "loops in an inch: 2:1 or 3:1");
        return std::nullopt;
    }
    return loops->number();
}

Fact read_value(Fields& fields, const FactField& field, std::optional<base::Unit> bare,
                const std::string& text) {
    switch (field.measure) {
    case Measure::length: {
        const Length length = fields.length(field.field, bare);
        if (length.is_zero()) return std::nullopt; // "0" says nothing, and a complaint was made
        return length.units();
    }
    case Measure::thousandths: return read_thousandths(fields, field.field, text);
    case Measure::faces: return fields.count("faces", 1, 2);
    case Measure::pitch: return read_pitch(fields, text);
    }
    throw base::broken("a fact of no measure");
}

std::string text_of(const FactField& field, std::int64_t value, base::Unit unit) {
    switch (field.measure) {
    case Measure::length: return base::to_text(Length::of_units(value), unit);
    case Measure::thousandths: return base::to_text(Rational::of(value, 1'000));
    case Measure::faces: return std::to_string(value);
    case Measure::pitch: return fmt::format("{}:1", value);
    }
    throw base::broken("a fact of no measure");
}

std::optional<Length> length_of(const Fact& fact) {
    if (!fact) return std::nullopt;
    return Length::of_units(*fact);
}

std::optional<Rational> thousandths_of(const Fact& fact) {
    if (!fact) return std::nullopt;
    return Rational::of(*fact, 1'000);
}

design::MaterialFacts facts_of(const Material& material) {
    design::MaterialFacts facts;
    facts.collection = material.collection;
    facts.caliper = length_of(material.caliper);
    facts.grammage = thousandths_of(material.grammage);
    facts.bulk = thousandths_of(material.bulk);
    if (material.faces) facts.two_faced = *material.faces == 2;
    facts.repeat = length_of(material.repeat);
    if (material.pitch) facts.loops_per_inch = Rational(*material.pitch);
    facts.diameter = length_of(material.diameter);
    if (material.form == Form::count) {
        facts.short_side = length_of(material.thing_width);
        facts.long_side = length_of(material.thing_height);
    } else {
        facts.width = length_of(material.thing_width);
    }
    facts.flap = length_of(material.flap);
    facts.spread = thousandths_of(material.spread);
    facts.spread_is_mass = material.bulk_unit == "g";
    if (material.form == Form::sheet)
        facts.sheet = design::SheetFacts{
            Length::of_units(material.fresh.width - material.trim_left - material.trim_right),
            Length::of_units(material.fresh.height - material.trim_top - material.trim_bottom),
            grain_of(material.grain), turn_of(material.pattern)};
    return facts;
}

} // namespace

void read_facts(Fields& fields, std::optional<base::Unit> bare, Material& material) {
    for (const FactField& field : fact_fields()) {
        if (is_size_of_sheet(field, material.form)) continue;
        const std::string text = fields.text(field.field);
        if (text.empty()) continue;
        if (!goes_with(field, material.form)) {
            std::string forms;
            for (const Form form : field.forms)
                forms += fmt::format("{}{}", forms.empty() ? "" : " and ", base::name_of(form));
            if (field.fact == &Material::thing_width || field.fact == &Material::thing_height)
                forms.insert(0, "sheet and ");
            fields.complain(field.field, fmt::format("only goes with the form {}", forms));
            continue;
        }
        if (text == "-") {
            (material.*field.fact).reset();
        } else if (const Fact value = read_value(fields, field, bare, text)) {
            material.*field.fact = value;
        }
    }
    if (material.thing_width && material.thing_height
        && *material.thing_width > *material.thing_height)
        std::swap(material.thing_width, material.thing_height); // a thing has no way up
}

std::map<std::string, std::string> fact_texts(const Material& material, base::Unit unit) {
    std::map<std::string, std::string> texts;
    for (const FactField& field : fact_fields())
        if (const Fact& value = material.*field.fact)
            texts[field.field] = text_of(field, *value, unit);
    return texts;
}

design::Facts facts_of(store::Database& database) {
    design::Facts facts;
    for (const Material& material : store::all_materials(database))
        facts.add(material.code, facts_of(material));
    return facts;
}

} // namespace barrow::workshop
