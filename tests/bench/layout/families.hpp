#pragma once

#include "layout/job.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace barrow::bench {

/// One instance to solve and what is known about it.
struct Case {
    std::string name;
    layout::Job job;
    std::optional<layout::Cost> best = {};    ///< best known cost or value
    std::optional<layout::Cost> optimum = {}; ///< where proven
    std::optional<layout::Cost> free = {};    ///< best known without the guillotine condition
};

/// A family of instances; read only when asked for.
struct Family {
    std::string name;
    std::function<std::vector<Case>()> read;
};

/// Families of published instances below the folder (its README tells their origins), in the
/// variants measured: -O keeps pieces upright, -R lets them be turned by 90 degrees.
std::vector<Family> published_families(const std::string& folder);

/// Jobs on a maker's own scale, made by a seeded generator.
std::vector<Family> maker_families();

/// Many jobs of all kinds that makers have, and tight ones made by cutting sheets up, which can all
/// be laid out.
std::vector<Family> made_families();

} // namespace barrow::bench
