#include "print/text/wrapped.hpp"

#include "base/text.hpp"

#include <sstream>

namespace barrow::print {

std::string wrapped(const std::string& text, std::size_t width, std::size_t indent) {
    std::istringstream words(text);
    std::string result;
    std::size_t column = 0;
    for (std::string word; words >> word;) {
        const std::size_t own = base::display_width(word);
        if (column > 0 && column + 1 + own > width) {
            result += "\n" + std::string(indent, ' ');
            column = indent;
        } else if (column > 0) {
            result += ' ';
            ++column;
        }
        result += word;
        column += own;
    }
    return result;
}

} // namespace barrow::print
