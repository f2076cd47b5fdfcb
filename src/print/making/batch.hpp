#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/making/batch.hpp"
#include "workshop/making/batch_report.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// A batch: its entries, what was planned and what it came to.
Blocks blocks(const workshop::BatchReport& report);
std::string screen(const workshop::BatchReport& report);
/// JSON: "batch".
std::string document(const workshop::BatchReport& report);

/// Batches, a line each.
Blocks blocks(const std::vector<workshop::BatchListLine>& lines);
std::string screen(const std::vector<workshop::BatchListLine>& lines);
/// JSON: "batches".
std::string document(const std::vector<workshop::BatchListLine>& lines);

/// A batch just cut: the new offcuts with their labels, and the offcuts that were cut from.
Blocks blocks(const workshop::Cut& cut, const workshop::Settings& settings);
std::string screen(const workshop::Cut& cut, const workshop::Settings& settings);

/// A batch just finished: what each journal cost.
Blocks blocks(const workshop::Finished& finished, const workshop::Settings& settings);
std::string screen(const workshop::Finished& finished, const workshop::Settings& settings);

/// A batch planned, cut and finished in one step: what each journal cost, and the new offcuts.
Blocks blocks(const workshop::Made& made);
std::string screen(const workshop::Made& made);

} // namespace barrow::print
