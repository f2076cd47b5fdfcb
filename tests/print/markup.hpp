#pragma once

#include <map>
#include <string>
#include <vector>

namespace barrow::test {

/// A tag that opens, with its attributes.
struct Tag {
    std::string name;
    std::map<std::string, std::string> with;
};

/// Tags of an XML text in order, with their attributes. Fails the test when the text is not well
/// formed (XML 1.0, productions 39 to 44): every tag closed in turn, every attribute quoted and
/// given once, no bare ampersand or "<". A comment may stand at the very end, and nowhere else.
std::vector<Tag> tags_of(const std::string& text);

/// What stands between the tags, each run of it for itself, with its references resolved.
std::vector<std::string> texts_of(const std::string& text);

} // namespace barrow::test
