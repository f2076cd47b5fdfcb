#pragma once

#include "layout/columns/pricing.hpp"
#include "layout/fill/fill.hpp"

#include <vector>

namespace barrow::layout {

/// Finds for each sheet a pattern of greatest worth with no more of any kind than is wanted: a
/// proper pattern (Nitsche, Scheithauer & Terno, EJOR 112 (1999) 654-663, cited from memory, on the
/// linear program of proper patterns). Uses the search for the most valuable choice, so that the
/// proven worth may exceed the worth found.
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
