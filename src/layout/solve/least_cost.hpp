#pragma once

#include "layout/solve/search.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace barrow::layout {

/// Searches for the least cost by the stages of the table in least_cost.cpp, cheap ones first,
/// until cost and bound meet or the effort is spent. `without`: names of stages to leave out.
Answer least_cost(const Instance& instance, Effort effort, const std::vector<std::string>& without,
                  Meter& meter);

/// Runs the stages of the table on a search.
void run_stages(Search& search, const std::vector<std::string>& without);

/// The names of the stages that may be left out, in the order of the table.
std::vector<std::string_view> stage_names();

} // namespace barrow::layout
