#include "base/form.hpp"

#include "base/error.hpp"

#include <array>

namespace barrow::base {
namespace {

struct Named {
    Form form;
    std::string_view name;
};

constexpr std::array<Named, 5> names = {{{Form::sheet, "sheet"},
                                         {Form::length, "length"},
                                         {Form::wire, "wire"},
                                         {Form::count, "count"},
                                         {Form::bulk, "bulk"}}};

} // namespace

std::string_view name_of(Form form) {
    for (const Named& named : names)
        if (named.form == form) return named.name;
    throw broken("a form of material without a name");
}

std::optional<Form> read_form(std::string_view text) {
    for (const Named& named : names)
        if (named.name == text) return named.form;
    return std::nullopt;
}

bool is_cut(Form form) {
    return form == Form::sheet || form == Form::length || form == Form::wire;
}

} // namespace barrow::base
