#include "costing/cutting/proof.hpp"

#include "base/error.hpp"
#include "layout/checker.hpp"

#include <fmt/format.h>

namespace barrow::costing {

void prove(const layout::Job& job, const layout::Outcome& outcome, const std::string& what) {
    const auto faults = layout::check(job, outcome);
    if (!faults.empty())
        throw base::broken(fmt::format("{} failed its proof: {}", what, faults.front()));
}

} // namespace barrow::costing
