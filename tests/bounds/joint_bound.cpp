#include "bounds/joint_bound.hpp"

#include "bounds/share_lp.hpp"
#include "layout/joint/joint_lp.hpp"

#include <algorithm>

namespace barrow::layout {

Cost joint_bound(const JointQuestion& question, std::int64_t work) {
    JointLp lp(question, work);
    if (!lp.generate()) return lp.bound();
    return std::max(lp.bound(), ShareLp(question, lp, work).bound());
}

} // namespace barrow::layout
