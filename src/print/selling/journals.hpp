#pragma once

#include "print/blocks/blocks.hpp"
#include "workshop/selling/journal_apart.hpp"
#include "workshop/selling/journal_care.hpp"
#include "workshop/stock/stockroom.hpp"

#include <string>
#include <vector>

namespace barrow::print {

/// Finished journals in hand: what each is, where it is, what it cost.
Blocks blocks(const workshop::Journals& journals);
std::string screen(const workshop::Journals& journals);
/// JSON: "journals".
std::string document(const workshop::Journals& journals);

/// Journals as they are described after a change.
Blocks blocks(const std::vector<store::Journal>& changed, const workshop::Settings& settings);
std::string screen(const std::vector<store::Journal>& changed, const workshop::Settings& settings);

/// Journals that left; `what` was done with them: "sold", "given away".
Blocks blocks(const workshop::JournalsLeft& left, const std::string& what);
std::string screen(const workshop::JournalsLeft& left, const std::string& what);

/// What came back out of a journal taken apart, with the labels to write on new offcuts.
Blocks blocks(const workshop::TakenApart& apart);
std::string screen(const workshop::TakenApart& apart);

} // namespace barrow::print
