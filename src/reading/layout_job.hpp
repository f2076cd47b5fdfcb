#pragma once

#include "layout/job.hpp"

#include <string>
#include <string_view>

namespace barrow::reading {

/// A layout job with the decimal places its numbers were brought to: a measure m of the job is
/// m / 10^measure_places millimetres, a cost (or value) c is c / 10^cost_places.
struct LayoutJobFile {
    layout::Job job;
    int measure_places = 0;
    int cost_places = 0;

    /// As plain decimals, exact.
    std::string measure_text(layout::Measure measure) const;
    std::string cost_text(layout::Cost cost) const;
};

/// Reads the JSON of `barrow layout` (README, "Laying out by itself"). All numbers are decimals
/// and stay exact: they are brought to the fewest places that hold them all.
/// Throws base::Error (Kind::bad_input) with every problem found, each naming file, line and
/// field: not JSON, unknown or missing members (with the nearest known), wrong types, numbers that
/// are not finite decimals of at most nine places, and everything layout::examine finds.
LayoutJobFile read_layout_job(std::string_view text, const std::string& file);

} // namespace barrow::reading
