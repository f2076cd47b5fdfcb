#pragma once

#include "costing/arrange/choosers.hpp"
#include "costing/cutting/cutting_job.hpp"
#include "layout/joint/joint.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace barrow::costing {

/// Who may take which paper and how the panels may then be made, as one question to the layout
/// engine: papers are its jobs, choosers its choices. What is counted or poured is left out.
struct PaperQuestion {
    /// One unit of a chooser from one paper, each of its uses divided in one way.
    struct Option {
        std::size_t paper = 0;              ///< index into the shelf
        std::vector<std::size_t> divisions; ///< beside Chooser::uses, index into divisions_of
    };

    layout::JointQuestion question;
    std::vector<std::vector<Option>> options; ///< beside the question's choices and their options
};

/// The question for these of the choosers; nothing when there are too many ways, no way at all for
/// one of them, or nothing to be cut. `exclusive`: sets of choosers of which no paper may have more
/// journals in all than the run has (see exclusive_sets). `buying`: twice or never.
std::optional<PaperQuestion>
paper_question(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
               const std::vector<Chooser>& choosers, const std::vector<std::size_t>& who,
               const std::vector<std::vector<std::size_t>>& exclusive, Buying buying);

} // namespace barrow::costing
