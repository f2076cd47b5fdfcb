#include "print/text/markup.hpp"

#include "print/text/harmless.hpp"

namespace barrow::print {

std::string markup_text(const std::string& text) {
    std::string result;
    for (const char c : harmless(text)) {
        switch (c) {
        case '&': result += "&amp;"; break;
        case '<': result += "&lt;"; break;
        case '>': result += "&gt;"; break;
        case '"': result += "&quot;"; break;
        case '\'': result += "&#39;"; break;
        default: result += c;
        }
    }
    return result;
}

} // namespace barrow::print
