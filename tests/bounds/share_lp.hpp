#pragma once

#include "bounds/share_costs.hpp"
#include "layout/joint/joint_lp.hpp"

#include <cstdint>
#include <optional>
#include <set>
#include <utility>
#include <vector>

namespace barrow::layout {

/// The choices dealt out to the jobs in shares: a share says how often each choice falls to a job,
/// and costs what whole sheets do (ShareCosts). Over all shares of all jobs, a linear program by
/// column generation (Dantzig & Wolfe, Oper. Res. 8 (1960)); as a share is whole, its bound is
/// better than that over patterns, though a job is as small as a few sheets. The bound is the
/// Lagrangian one, in whole numbers.
class ShareLp {
public:
    /// `lp` after generate(); both must outlive it.
    ShareLp(const JointQuestion& question, const JointLp& lp, std::int64_t work);

    /// A bound for the question; 0 when there are too many shares to be looked at.
    Cost bound();

private:
    struct Job {
        std::size_t number = 0;
        ShareCosts costs;
    };

    bool set_out();
    void find_homes();
    bool add_job(std::size_t job);
    std::vector<ShareCosts::Limit> limits_of(std::size_t job,
                                             const std::vector<ShareCosts::Axis>& axes) const;
    void rule(Job& job);
    void build();
    bool add_share(std::size_t job, const ShareCosts::Least& share);
    bool price(Cost& bound);

    const JointQuestion& question_;
    const JointLp& lp_;
    std::int64_t steps_left_;
    /// Jobs that each choice may fall to; none when an option asks nothing or of several jobs, and
    /// the choice is left out.
    std::vector<std::vector<std::size_t>> homes_;
    std::vector<Job> jobs_;
    std::set<std::pair<std::size_t, std::vector<std::int64_t>>> known_; ///< job, falls
    std::optional<LinearProgram> program_;
};

} // namespace barrow::layout
