#pragma once

#include "workshop/books/reverse.hpp"
#include "workshop/buying/buying.hpp"
#include "workshop/making/batch.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/receive.hpp"
#include "workshop/stock/stockroom.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// What a person reads of each answer: plain text, ready for a terminal, ending in a line break.
std::string screen(const workshop::Stock& stock);
std::string screen(const workshop::OffcutBox& box);
std::string screen(const workshop::ShopValue& value);
std::string screen(const std::vector<workshop::LogLine>& lines);
std::string screen(const std::vector<workshop::SettingLine>& lines);
std::string screen(const std::vector<store::Supplier>& suppliers);
std::string screen(const std::vector<workshop::MaterialLine>& materials,
                   const workshop::Settings& settings);
std::string screen(const std::vector<workshop::Received>& received,
                   const workshop::Settings& settings);
std::string screen(const std::vector<store::StoredDesign>& designs);
std::string screen(const design::Worked& worked, base::Unit unit);
std::string screen(const workshop::Reorder& reorder);

/// Cost, price and what is short, for each run.
std::string screen(const workshop::Costing& costing);

/// The cut plan: each sheet with its cuts in order, what it gives and what is kept.
std::string bench_sheet(const workshop::Costing& costing);

/// A batch just made: what was taken and kept, what each journal cost.
std::string screen(const workshop::Made& made);

/// Cautions for the hazards named, each on its own line; empty when there are none.
std::string cautions(const std::vector<std::string>& hazards);

} // namespace barrow::print
