#pragma once

#include "layout/finish/drawing.hpp"

namespace barrow::layout {

/// The cuts of a sheet in the order a person makes them. Among the cuts possible at a time: first
/// those that need the measure the stop stands at, then the longest, then those whose measure most
/// others share. So strips come before what is cut from them, equal strips follow each other, and
/// the stop is moved seldom. Every measure is taken from the low edge.
std::vector<Cut> cuts_in_order(const Job& job, const Part& sheet);

/// How often the stop is set, the first time included.
std::int64_t stop_settings(const std::vector<Cut>& cuts);

} // namespace barrow::layout
