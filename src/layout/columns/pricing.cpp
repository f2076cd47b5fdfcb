#include "layout/columns/pricing.hpp"

#include "layout/model/bundles.hpp"

#include <algorithm>
#include <cmath>

namespace barrow::layout {
namespace {

/// Keeps the densest filling of the largest sheet below 2^52.
double scale_by_area(const Instance& instance, const std::vector<double>& prices) {
    double densest = 0;
    std::int64_t area = 0;
    for (const Sheet& sheet : instance.sheets) area = std::max(area, sheet.area());
    for (std::size_t i = 0; i < prices.size(); ++i)
        densest = std::max(densest, prices[i] / static_cast<double>(instance.items[i].area()));
    if (densest == 0) return 1;
    const double room = 4e15 / (densest * static_cast<double>(area));
    return std::floor(std::min(room, 1e9));
}

} // namespace

double TablePricing::scale_for(const std::vector<double>& prices) const {
    return std::floor(table_.safe_scale(prices, 1e15));
}

void TablePricing::run(const std::vector<std::int64_t>& prices,
                       const std::vector<std::int64_t>& most) {
    std::vector<std::int32_t> values(prices.size());
    for (std::size_t i = 0; i < prices.size(); ++i)
        values[i] = most[i] > 0 ? static_cast<std::int32_t>(prices[i]) : 0;
    table_.run(values);
}

LinePricing::LinePricing(const Instance& instance, const Grid& grid)
    : instance_(instance), raster_(grid.x) {}

double LinePricing::scale_for(const std::vector<double>& prices) const {
    return scale_by_area(instance_, prices);
}

void LinePricing::put_in(Bundle& bundle, std::int64_t price) {
    const std::int64_t length = instance_.items[bundle.kind].width * bundle.copies;
    const std::int64_t worth = price * bundle.copies;
    bundle.taken.assign(values_.size(), false);
    auto rest = static_cast<std::size_t>(raster_.size()) - 1;
    for (std::size_t p = values_.size(); p-- > 0;) {
        const Length here = raster_.at(static_cast<std::int32_t>(p));
        if (here < length) break;
        while (raster_.at(static_cast<std::int32_t>(rest)) > here - length) --rest;
        if (values_[rest] + worth <= values_[p]) continue;
        values_[p] = values_[rest] + worth;
        bundle.taken[p] = true;
    }
}

void LinePricing::run(const std::vector<std::int64_t>& prices,
                      const std::vector<std::int64_t>& most) {
    values_.assign(static_cast<std::size_t>(raster_.size()), 0);
    bundles_.clear();
    const Length longest = raster_.at(raster_.size() - 1);
    for (std::size_t i = 0; i < prices.size(); ++i) {
        if (prices[i] <= 0) continue;
        const Length width = instance_.items[i].width;
        each_bundle(std::min<std::int64_t>(most[i], longest / width), [&](std::int64_t copies) {
            bundles_.push_back({i, copies, {}});
            put_in(bundles_.back(), prices[i]);
        });
    }
    steps_ = static_cast<std::int64_t>(values_.size() * bundles_.size()) * 3 + 100;
}

std::int64_t LinePricing::best(std::size_t sheet) const {
    return values_[static_cast<std::size_t>(raster_.below(instance_.sheets[sheet].width))];
}

Block LinePricing::block(std::size_t sheet) const {
    Block block;
    std::int32_t point = raster_.below(instance_.sheets[sheet].width);
    for (std::size_t i = bundles_.size(); i-- > 0;) {
        const Bundle& bundle = bundles_[i];
        if (!bundle.taken[static_cast<std::size_t>(point)]) continue;
        const auto kind = static_cast<std::int32_t>(bundle.kind);
        for (std::int64_t n = 0; n < bundle.copies; ++n)
            put_beside(Along::x, block, leaf_of(instance_, kind, false));
        const std::int64_t length = instance_.items[bundle.kind].width * bundle.copies;
        point = raster_.below(static_cast<Length>(raster_.at(point) - length));
    }
    return block;
}

SetPricing::SetPricing(const Instance& instance, const SetShapes& shapes)
    : instance_(instance), shapes_(shapes), best_(instance.sheets.size()) {
    for (const SetShapes::Set& set : shapes.sets()) {
        begins_.push_back(counts_.size());
        for (std::size_t kind = 0; kind < instance.items.size(); ++kind)
            if (const std::int64_t count = shapes.count(set, kind); count > 0)
                counts_.emplace_back(static_cast<std::int32_t>(kind),
                                     static_cast<std::int32_t>(count));
    }
    begins_.push_back(counts_.size());
}

double SetPricing::scale_for(const std::vector<double>& prices) const {
    return scale_by_area(instance_, prices);
}

void SetPricing::run(const std::vector<std::int64_t>& prices,
                     const std::vector<std::int64_t>& most) {
    best_.assign(instance_.sheets.size(), {});
    for (std::size_t set = 0; set + 1 < begins_.size(); ++set) {
        std::int64_t value = 0;
        bool allowed = true;
        for (std::size_t c = begins_[set]; c < begins_[set + 1]; ++c) {
            const auto kind = static_cast<std::size_t>(counts_[c].first);
            value += prices[kind] * counts_[c].second;
            allowed = allowed && counts_[c].second <= most[kind];
        }
        if (!allowed) continue;
        for (std::size_t s = 0; s < best_.size(); ++s)
            if (value > best_[s].value
                && shapes_.shape_on(shapes_.sets()[set], instance_.sheets[s]) >= 0)
                best_[s] = {value, set};
    }
    steps_ = static_cast<std::int64_t>(counts_.size() + begins_.size() * best_.size()) * 2;
}

Block SetPricing::block(std::size_t sheet) const {
    const std::size_t set = best_[sheet].set;
    return shapes_.block(static_cast<std::int32_t>(set),
                         shapes_.shape_on(shapes_.sets()[set], instance_.sheets[sheet]));
}

} // namespace barrow::layout
