#pragma once

#include "design/work/work_out.hpp"

#include <cstdint>
#include <string>

namespace barrow::costing {

/// So many journals of one design, worked out.
struct Run {
    design::Worked design;
    std::int64_t journals = 0;
};

/// Which part of which run something is for. Parts are counted through the design's parts, then
/// its fillers, then what joins and fillers take of glue or tape on top.
struct Origin {
    std::size_t run = 0;
    std::size_t part = 0;
    friend auto operator<=>(const Origin&, const Origin&) = default;
};

/// What a maker calls it. Requires an origin of that run.
std::string part_name(const Run& run, std::size_t part);

/// The design's part or filler behind an origin; nothing for glue or tape on top.
const design::WorkedPart* part_behind(const Run& run, std::size_t part);

} // namespace barrow::costing
