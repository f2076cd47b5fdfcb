#include "print/markup.hpp"

#include <catch2/catch.hpp>

#include <regex>
#include <utility>

namespace barrow::test {
namespace {

/// A text without the comment at its end, if it has one (XML 1.0, productions 15 and 27).
std::string without_last_comment(const std::string& text) {
    static const std::regex comment("<!--((?!--)[^<>])*-->\\s*$");
    return std::regex_replace(text, comment, "");
}

} // namespace

std::vector<Tag> tags_of(const std::string& text) {
    static const std::regex tag_form(
        "<(/?)([A-Za-z][A-Za-z0-9]*)((?:\\s+[A-Za-z0-9:-]+=\"[^\"<]*\")*)\\s*(/?)>");
    static const std::regex attribute("([A-Za-z0-9:-]+)=\"([^\"<]*)\"");
    std::vector<Tag> tags;
    std::vector<std::string> open;
    std::size_t at = 0;
    for (std::sregex_iterator match(text.begin(), text.end(), tag_form), end; match != end;
         ++match) {
        const auto begin = static_cast<std::size_t>(match->position());
        CHECK(text.substr(at, begin - at).find_first_of("<>") == std::string::npos);
        at = begin + static_cast<std::size_t>(match->length());
        if (match->str(1) == "/") {
            REQUIRE(!open.empty());
            CHECK(open.back() == match->str(2));
            open.pop_back();
            continue;
        }
        Tag tag{match->str(2), {}};
        const std::string with = match->str(3);
        for (std::sregex_iterator a(with.begin(), with.end(), attribute); a != end; ++a)
            CHECK(tag.with.emplace(a->str(1), a->str(2)).second);
        tags.push_back(tag);
        if (match->str(4).empty()) open.push_back(match->str(2));
    }
    CHECK(open.empty());
    CHECK(without_last_comment(text.substr(at)).find_first_of("<>") == std::string::npos);
    static const std::regex bare("&(?!(amp|lt|gt|quot|apos|#[0-9]+);)");
    CHECK_FALSE(std::regex_search(text, bare));
    return tags;
}

std::vector<std::string> texts_of(const std::string& text) {
    static const std::vector<std::pair<std::string, char>> references = {
        {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&#39;", '\''}, {"&amp;", '&'}};
    std::vector<std::string> texts = {""};
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '<') {
            i = text.find('>', i);
            if (!texts.back().empty()) texts.emplace_back();
            continue;
        }
        texts.back() += text[i];
        for (const auto& [reference, sign] : references) {
            std::string& own = texts.back();
            if (own.size() < reference.size()
                || own.compare(own.size() - reference.size(), reference.size(), reference) != 0)
                continue;
            own.replace(own.size() - reference.size(), reference.size(), 1, sign);
            if (sign == '&') own.back() = '\1'; // not the start of another reference
        }
    }
    for (std::string& own : texts)
        for (char& sign : own)
            if (sign == '\1') sign = '&';
    return texts;
}

} // namespace barrow::test
