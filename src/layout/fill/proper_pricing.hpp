#pragma once

#include "layout/bound/pricing.hpp"
#include "layout/fill/fill.hpp"

#include <vector>

namespace barrow::layout {

/// Finds, for each sheet, a pattern of most worth that has no more of any kind than is wanted: a
/// proper pattern (Nitsche, Scheithauer & Terno, EJOR 112 (1999) 654-663, cited from memory, on the
/// linear program that knows no others). By the search for the most valued choice, so that what is
/// proven may be a little more than what is found.
class ProperPricing : public Pricing {
public:
    explicit ProperPricing(const Instance& instance) : instance_(instance) {}

    double scale_for(const std::vector<double>& prices) const override;
    void run(const std::vector<std::int64_t>& prices,
             const std::vector<std::int64_t>& most) override;
    bool dear() const override { return true; }
    std::int64_t best(std::size_t sheet) const override { return found_[sheet].value; }
    std::int64_t proven(std::size_t sheet) const override { return found_[sheet].bound; }
    Block block(std::size_t sheet) const override;
    std::int64_t steps() const override { return steps_; }

private:
    const Instance& instance_;
    std::vector<Filling> found_; ///< on each sheet
    std::int64_t steps_ = 0;
};

} // namespace barrow::layout
