#pragma once

#include <string>
#include <string_view>

namespace barrow::print {

/// Text as it may be shown to a person, in one line and in the order it is written: a line break
/// or a tab becomes one space, and every other control character becomes U+FFFD (the replacement
/// character). So a note cannot move the cursor, begin a false line or turn the text after it
/// around, and the result is valid in XML 1.0 and HTML.
///
/// Control characters here are C0 and DEL, C1 (U+0080 to U+009F), the line and paragraph
/// separators, and the bidirectional controls of Unicode Standard Annex 9, section 2 (U+061C,
/// U+200E, U+200F, U+202A to U+202E, U+2066 to U+2069). The noncharacters U+FFFE and U+FFFF, which
/// XML forbids, and bytes that are not UTF-8 are replaced too.
std::string harmless(std::string_view text);

} // namespace barrow::print
