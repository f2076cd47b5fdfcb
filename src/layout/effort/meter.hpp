#pragma once

#include "layout/options.hpp"

#include <cstdint>

namespace barrow::layout {

/// Counts the effort of a solve and says when it is spent. Everything that takes time reports its
/// steps; a step is about a nanosecond on the machine this was written on, a unit of work is a
/// thousand steps. Steps depend on the job alone, so the search ends at the same point on every
/// machine. Also reports progress to the caller, who may stop the search.
class Meter {
public:
    Meter(const Options& options, std::int64_t limit) : options_(options), limit_(limit * 1000) {}

    void spend(std::int64_t steps) {
        steps_ += steps;
        if (steps_ >= next_report_) report();
    }

    /// True when the effort is spent or the caller wants to stop.
    bool over() const { return stopped_ || steps_ >= limit_; }
    bool stopped() const { return stopped_; }
    std::int64_t work() const { return steps_ / 1000; }
    std::int64_t steps() const { return steps_; }
    std::int64_t limit() const { return limit_ / 1000; }
    std::int64_t left() const { return limit_ - steps_; } ///< in steps

    /// Best cost and bound so far, for the progress report.
    void found(Cost cost) { cost_ = cost; }
    void proved(Cost bound) { bound_ = bound; }

private:
    void report() {
        next_report_ = steps_ + report_every;
        if (options_.progress && !stopped_)
            stopped_ = !options_.progress({work(), limit(), cost_, bound_});
    }

    static constexpr std::int64_t report_every = 10'000'000;

    const Options& options_;
    std::int64_t limit_;
    std::int64_t steps_ = 0;
    std::int64_t next_report_ = report_every;
    Cost cost_ = 0;
    Cost bound_ = 0;
    bool stopped_ = false;
};

} // namespace barrow::layout
