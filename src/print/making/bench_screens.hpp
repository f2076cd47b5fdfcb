#pragma once

#include "print/stock/box_screens.hpp"
#include "workshop/making/batch.hpp"
#include "workshop/making/batch_report.hpp"
#include "workshop/making/what_fits.hpp"
#include "workshop/making/yields.hpp"

#include <map>
#include <string>
#include <vector>

namespace barrow::print {

/// Screens and documents of batches; as in screens.hpp and
/// json_documents.hpp.
std::string screen(const workshop::BatchReport& report);
std::string screen(const std::vector<workshop::BatchListLine>& lines);
std::string screen(const workshop::Cut& cut, const workshop::Settings& settings);
std::string screen(const workshop::Finished& finished, const workshop::Settings& settings);
std::string screen(const workshop::Fits& fits);
std::string screen(const workshop::Yields& yields);
std::string document(const workshop::BatchReport& report);
std::string document(const std::vector<workshop::BatchListLine>& lines);
std::string document(const workshop::Fits& fits);
std::string document(const workshop::Yields& yields);

} // namespace barrow::print
