#include "print/making/cautions.hpp"

#include "base/hazard.hpp"

namespace barrow::print {

Cautions cautions(const std::vector<std::string>& hazards) {
    Cautions result{{}, "Labels of products, local rules and licensed practice come first."};
    for (const std::string& name : hazards)
        if (const auto hazard = base::read_hazard(name))
            result.texts.emplace_back(base::caution(*hazard));
    return result;
}

} // namespace barrow::print
