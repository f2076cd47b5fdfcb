#pragma once

#include "page/frame/visit.hpp"
#include "store/stock/catalogue.hpp"

namespace barrow::page {

/// The form of a new material, or of one that is there. Which fields matter depends on the form of
/// the material; the page hides the others.
Form material_form(const Visit& visit, const store::Material* material);

/// The suppliers to choose from, none first.
std::vector<std::pair<std::string, std::string>> supplier_choices(store::Database& database);

} // namespace barrow::page
