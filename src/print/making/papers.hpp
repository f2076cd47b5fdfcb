#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/making/batch_report.hpp"
#include "workshop/making/cost.hpp"
#include "workshop/stock/stockroom.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace barrow::print {

/// Which journals of a run have which papers, where the design leaves a choice; else empty.
Table papers_table(const workshop::Costing& costing, std::size_t run);

/// The same of one run of a batch, as it was planned.
Table papers_table(const workshop::BatchReport& report, std::int64_t run);

/// Of one journal: "inside COVE-1, outside MOSS-2".
std::string papers_text(const std::vector<store::JournalPaper>& papers);

} // namespace barrow::print
