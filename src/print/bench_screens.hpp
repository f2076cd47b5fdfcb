#pragma once

#include "workshop/batch.hpp"
#include "workshop/batch_report.hpp"
#include "workshop/leaving.hpp"
#include "workshop/offcut_box.hpp"
#include "workshop/stocktake.hpp"
#include "workshop/yields.hpp"

#include <map>
#include <string>
#include <vector>

namespace barrow::print {

/// Screens and documents of batches, the offcut box, lots and stocktakes; as in screens.hpp and
/// json_documents.hpp.
std::string screen(const workshop::BatchReport& report);
std::string screen(const std::vector<workshop::BatchListLine>& lines);
std::string screen(const workshop::Cut& cut, const workshop::Settings& settings);
std::string screen(const workshop::Finished& finished, const workshop::Settings& settings);
std::string screen(const workshop::Lots& lots);
std::string screen(const workshop::Fits& fits);
std::string screen(const workshop::Yields& yields);
std::string screen(const workshop::NewOffcuts& made, const workshop::Settings& settings);
std::string screen(const workshop::CountSheet& sheet);
/// Offcuts with the labels to write on them; `materials` by id.
std::string labels(const std::vector<store::Offcut>& offcuts,
                   const std::map<std::int64_t, store::Material>& materials, base::Unit unit);

std::string document(const workshop::BatchReport& report);
std::string document(const std::vector<workshop::BatchListLine>& lines);
std::string document(const workshop::Lots& lots);
std::string document(const workshop::Fits& fits);
std::string document(const workshop::Yields& yields);
std::string document(const workshop::CountSheet& sheet);

} // namespace barrow::print
