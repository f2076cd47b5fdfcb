#pragma once

#include "workshop/selling/journal_apart.hpp"
#include "workshop/selling/journal_care.hpp"
#include "workshop/stock/stockroom.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// Finished journals in hand: what each is, where it is, what it cost.
std::string screen(const workshop::Journals& journals);
/// The same as a JSON document ("journals").
std::string document(const workshop::Journals& journals);

/// Journals as they are described after a change.
std::string screen(const std::vector<store::Journal>& changed, const workshop::Settings& settings);

/// Journals that left, `what` having been done with them: "sold", "given away".
std::string screen(const workshop::JournalsLeft& left, const std::string& what);

/// What came back out of a journal, with the labels to write on new offcuts.
std::string screen(const workshop::TakenApart& apart);

} // namespace barrow::print
