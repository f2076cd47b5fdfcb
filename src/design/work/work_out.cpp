#include "design/work/work_out.hpp"

#include "design/work/desk.hpp"

#include <fmt/format.h>

#include <utility>

namespace barrow::design {
namespace {

void define_names(Desk& desk) {
    settle_slots(desk); // before anything else: it also refuses changes that name nothing
    set_parameters(desk);
    for (const Definition& definition : desk.design.definitions)
        desk.names.define(definition.name, &definition.formula);
    name_facts(desk);
    name_cover(desk);
    name_block(desk);
    name_binding(desk);
}

void work_definitions(Desk& desk) {
    for (const Definition& definition : desk.design.definitions)
        desk.attempt(definition.formula.place(), [&] {
            desk.if_known([&] {
                desk.explain("let", definition.name, definition.formula);
                return true;
            });
        });
}

void work_operations(Desk& desk) {
    for (const Operation& operation : desk.design.operations)
        desk.attempt(operation.place, [&] {
            const Quantity value = desk.names.value(operation.minutes);
            if (value.dimension != plain || value.number < base::Rational(0))
                Desk::refuse(operation.minutes, value, "minutes as a plain number, zero or more");
            base::Rational& sum = operation.per_batch ? desk.worked.minutes_per_batch
                                                      : desk.worked.minutes_per_journal;
            sum = sum + value.number;
        });
}

} // namespace

Worked work_out(const Design& design, const Changes& changes, const Facts& facts) {
    Desk desk(design, changes, facts);
    desk.worked.code = design.code;
    desk.worked.name = design.name;
    define_names(desk);
    work_definitions(desk);
    explain_facts(desk);
    work_cover(desk);
    check_contents(desk);
    work_block(desk);
    work_binding(desk);
    work_parts(desk);
    work_glue(desk);
    work_operations(desk);
    work_checks(desk);
    desk.throw_if_any();
    if (desk.worked.parts.empty())
        throw base::bad_input(design.file, "with these values no part is left");
    return std::move(desk.worked);
}

} // namespace barrow::design
