#include "bounds/arrangement_bound.hpp"

#include "bounds/joint_bound.hpp"
#include "costing/arrange/choosers.hpp"
#include "costing/arrange/dealing.hpp"
#include "costing/arrange/paper_question.hpp"

#include <numeric>

namespace barrow::costing {

layout::Cost arrangement_bound(const std::vector<Run>& runs,
                               const std::vector<ShelfMaterial>& shelf, std::int64_t work) {
    const std::vector<Chooser> choosers = choosers_of(runs, shelf);
    std::vector<std::size_t> all(choosers.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    const auto question = paper_question(runs, shelf, choosers, all,
                                         exclusive_sets(all, choosers, false), Buying::twice);
    return question ? layout::joint_bound(question->question, work) : 0;
}

} // namespace barrow::costing
