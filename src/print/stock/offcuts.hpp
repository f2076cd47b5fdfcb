#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/stock/offcut_box.hpp"
#include "workshop/stock/stockroom.hpp"

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace barrow::print {

/// What is in the offcut box.
Blocks blocks(const workshop::OffcutBox& box);
std::string screen(const workshop::OffcutBox& box);
/// JSON: "offcuts".
std::string document(const workshop::OffcutBox& box);

/// Offcuts just put into the box, with the labels to write on them.
Blocks blocks(const workshop::NewOffcuts& made, const workshop::Settings& settings);
std::string screen(const workshop::NewOffcuts& made, const workshop::Settings& settings);

/// The labels to write on new offcuts; `materials` by id.
Table label_table(const std::vector<store::Offcut>& offcuts,
                  const std::map<std::int64_t, store::Material>& materials, base::Unit unit);

} // namespace barrow::print
