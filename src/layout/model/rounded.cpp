#include "layout/model/rounded.hpp"

#include <algorithm>

namespace barrow::layout {

Instance rounded(const Instance& instance, Length most, Rounding rounding) {
    Instance coarse = instance;
    Length longest = 0;
    for (const Sheet& sheet : instance.sheets)
        longest = std::max({longest, sheet.width, sheet.height});
    const Length unit = std::max<Length>(1, (longest + most - 1) / most);
    const Length more = rounding == Rounding::up ? unit - 1 : 0;
    for (Item& item : coarse.items) {
        item.width = (item.width + more) / unit;
        item.height = (item.height + more) / unit;
        if (item.width == 0 || item.height == 0) return {};
    }
    for (Sheet& sheet : coarse.sheets) {
        sheet.width /= unit;
        sheet.height /= unit;
    }
    return coarse;
}

} // namespace barrow::layout
