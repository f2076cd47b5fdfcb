#pragma once

#include "workshop/books/history.hpp"

#include <string>

namespace barrow::print {

/// What a line of a history tells, in words that fit what the history is of: "received from
/// Pellwether Papermakers", "taken for batch 3", "kept as offcut K7M-4", "sold for 24.00".
std::string history_words(const workshop::HistoryLine& line, const workshop::History& history);

} // namespace barrow::print
