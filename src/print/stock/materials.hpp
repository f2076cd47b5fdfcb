#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/shared/settings.hpp"
#include "workshop/stock/catalogue.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// The materials the shop knows.
Blocks blocks(const std::vector<workshop::MaterialLine>& materials,
              const workshop::Settings& settings);
std::string screen(const std::vector<workshop::MaterialLine>& materials,
                   const workshop::Settings& settings);
/// JSON: "materials".
std::string document(const std::vector<workshop::MaterialLine>& materials,
                     const workshop::Settings& settings);

/// The suppliers the shop knows.
Blocks blocks(const std::vector<store::Supplier>& suppliers);
std::string screen(const std::vector<store::Supplier>& suppliers);
/// JSON: "suppliers".
std::string document(const std::vector<store::Supplier>& suppliers);

} // namespace barrow::print
