#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace barrow::base {

/// Without white space at both ends.
std::string_view trimmed(std::string_view text);

/// ASCII letters in lower (upper) case; everything else as it is.
std::string lowered(std::string_view text);
std::string raised(std::string_view text);

/// Fewest single-character insertions, deletions, replacements and swaps of neighbours that turn
/// one text into the other (optimal string alignment), case ignored.
std::size_t edit_distance(std::string_view a, std::string_view b);

/// The candidates nearest to `given`, nearest first, ties in their own order: at most `most` of
/// them, none farther than 3 edits or half of the given length. A candidate that begins with what
/// was given counts as one edit away.
std::vector<std::string> nearest(std::string_view given, const std::vector<std::string>& candidates,
                                 std::size_t most = 3);

/// "; did you mean A, B or C?", or nothing: the common ending of "unknown code" messages.
std::string did_you_mean(std::string_view given, const std::vector<std::string>& candidates);

/// Columns a UTF-8 text takes on a terminal: one for each code point, two for wide East Asian and
/// emoji ranges, none for combining marks. A byte that is not UTF-8 counts as one.
std::size_t display_width(std::string_view text);

/// True when every byte sequence is well-formed UTF-8.
bool is_utf8(std::string_view text);

/// "1 sheet", "2 sheets".
std::string counted(long long number, std::string_view singular, std::string_view plural = {});

} // namespace barrow::base
