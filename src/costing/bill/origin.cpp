#include "costing/bill/origin.hpp"

#include "base/error.hpp"

namespace barrow::costing {

const design::WorkedPart* part_behind(const Run& run, std::size_t part) {
    const design::Worked& design = run.design;
    if (part < design.parts.size()) return &design.parts[part];
    part -= design.parts.size();
    return part < design.fillers.size() ? &design.fillers[part] : nullptr;
}

std::string part_name(const Run& run, std::size_t part) {
    if (const design::WorkedPart* behind = part_behind(run, part)) return behind->name;
    const design::Worked& design = run.design;
    const std::size_t extra = part - design.parts.size() - design.fillers.size();
    if (extra >= design.extra_glue.size()) throw base::broken("a part of no design");
    const design::ExtraGlue& glue = design.extra_glue[extra];
    return glue.what == design::ExtraGlue::For::join
               ? "joins of " + design.parts.at(glue.part).name
               : "glue of " + design.fillers.at(glue.part).name;
}

} // namespace barrow::costing
