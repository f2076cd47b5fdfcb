#include "design/binding/binding.hpp"

#include <array>

namespace barrow::design {

std::span<const BindingKind* const> binding_kinds() {
    static const std::array<const BindingKind*, 4> kinds = {&wire_binding(), &ribbon_binding(),
                                                            &sewn_binding(), &rings_binding()};
    return kinds;
}

const BindingKind* find_binding(std::string_view name) {
    for (const BindingKind* kind : binding_kinds())
        if (kind->name == name) return kind;
    return nullptr;
}

} // namespace barrow::design
