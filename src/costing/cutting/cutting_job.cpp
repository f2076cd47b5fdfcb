#include "costing/cutting/cutting_job.hpp"

#include "base/error.hpp"
#include "costing/cutting/filling.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::costing {
namespace {

using design::Turn;
using layout::Cost;

/// Minor units of money are multiplied by this for the layout, to leave room for the hair's
/// breadth by which a sheet to buy costs more and a small offcut less.
constexpr Cost cost_scale = 1'000;
/// Offcuts count in the layout as one part in this of what their area would cost fresh, in
/// hundredths of a fresh sheet: few different costs make few different totals, so that a bound
/// meets its plan sooner.
constexpr Cost offcut_discount = 10;
constexpr Cost offcut_steps = 100;
/// So many sheets of a size, on the shelf, are weighed against one to buy.
constexpr std::int64_t most_weighed = 10'000;

layout::Turn layout_turn(Turn turn) {
    switch (turn) {
    case Turn::none: return layout::Turn::none;
    case Turn::half: return layout::Turn::half;
    case Turn::quarter: return layout::Turn::quarter;
    }
    throw base::broken("a turn of no kind");
}

class JobMaker {
public:
    JobMaker(const Demand& demand, Buying buying)
        : demand_(demand), material_(*demand.material), buying_(buying) {}

    CuttingJob run() {
        result_.fresh_weight = fresh_weight();
        add_pieces();
        add_offcuts();
        if (!demand_.offcuts_only) {
            add_lots();
            add_to_buy();
        }
        return std::move(result_);
    }

private:
    void add_pieces() {
        result_.job = bare_job(material_);
        for (std::size_t i = 0; i < demand_.cuts.size(); ++i) {
            result_.job.pieces.push_back(layout_piece(demand_.cuts[i], i));
        }
    }

    layout::Margin margin() const {
        const Trim& trim = material_.trim;
        return {trim.left.units(), trim.right.units(), trim.top.units(), trim.bottom.units()};
    }

    /// What a fresh unit counts in the layout. Free samples and unknown prices still count as
    /// one minor unit: a plan that wastes free sheets is no better for it.
    Cost fresh_weight() const {
        Cost minor = 1;
        if (material_.unit_price) minor = std::max(minor, material_.unit_price->ceiling());
        for (const ShelfLot& lot : material_.lots) {
            if (lot.quantity == 0) continue;
            minor = std::max<Cost>(1, unit_value(lot));
            break;
        }
        return minor * cost_scale;
    }

    static std::int64_t unit_value(const ShelfLot& lot) {
        return static_cast<std::int64_t>(
            base::divide_half_away(Wide{lot.value.minor()} * lot.size.measure(), lot.quantity));
    }

    void add_stock(layout::Stock stock, const StockSize& size) {
        stock.id = fmt::format("s{}", result_.job.stock.size());
        stock.width = size.width;
        stock.height = size.height;
        result_.job.stock.push_back(std::move(stock));
    }

    void add_offcuts() {
        const Cost fresh = fresh_weight();
        for (std::size_t i = 0; i < material_.offcuts.size(); ++i) {
            const ShelfOffcut& offcut = material_.offcuts[i];
            const auto& spent = demand_.spent;
            if (std::find(spent.begin(), spent.end(), offcut.id) != spent.end()) continue;
            const Wide steps = base::divide_up(Wide{offcut_steps} * offcut.size.measure(),
                                               material_.fresh.measure() * offcut_discount);
            layout::Stock stock;
            stock.cost = std::max<Cost>(1, static_cast<Cost>(steps)) * (fresh / offcut_steps);
            stock.count = 1;
            stock.offcut = true;
            stock.age = offcut.age_days;
            result_.sources.emplace_back(Source::Kind::offcut, i);
            add_stock(std::move(stock), offcut.size);
        }
    }

    void add_lots() {
        for (std::size_t i = 0; i < material_.lots.size(); ++i) {
            const ShelfLot& lot = material_.lots[i];
            if (lot.quantity == 0) continue;
            auto group = std::find_if(result_.groups.begin(), result_.groups.end(),
                                      [&](const SizeGroup& g) { return g.size == lot.size; });
            if (group == result_.groups.end())
                group = result_.groups.insert(result_.groups.end(), {lot.size, {}, 0});
            group->lots.push_back(i);
            group->units += static_cast<std::int64_t>(lot.quantity / lot.size.measure());
        }
        for (std::size_t g = 0; g < result_.groups.size(); ++g) {
            layout::Stock stock;
            stock.cost =
                std::max<Cost>(1, unit_value(material_.lots[result_.groups[g].lots.front()]))
                * cost_scale;
            stock.count = result_.groups[g].units;
            stock.margin = margin();
            result_.sources.emplace_back(Source::Kind::lot, g);
            add_stock(std::move(stock), result_.groups[g].size);
        }
    }

    /// With sheets of several sizes on the shelf, one to buy might take the place of several, or of
    /// a dearer one: it weighs more than all of them, so that nothing is missed that is there.
    Cost after_all(Cost weight) const {
        if (result_.groups.size() < 2) return weight;
        for (const layout::Stock& stock : result_.job.stock)
            if (!stock.offcut) weight += stock.cost * std::min(*stock.count, most_weighed);
        return weight;
    }

    void add_to_buy() {
        if (buying_ == Buying::never) return;
        const auto same =
            std::find_if(result_.groups.begin(), result_.groups.end(),
                         [&](const SizeGroup& group) { return group.size == material_.fresh; });
        if (buying_ == Buying::after_the_shelf && same != result_.groups.end()
            && result_.groups.size() == 1) {
            // A sheet to buy is cut like one on the shelf: one kind with no limit, and whoever
            // fetches the sheets takes from the shelf first.
            const auto group = static_cast<std::size_t>(same - result_.groups.begin());
            for (std::size_t i = 0; i < result_.sources.size(); ++i)
                if (result_.sources[i] == std::pair(Source::Kind::lot, group))
                    result_.job.stock[i].count.reset();
            return;
        }
        Cost weight = fresh_weight();
        // Never cheaper than what is on the shelf, or the shelf would not be used up first.
        for (const layout::Stock& stock : result_.job.stock)
            if (!stock.offcut) weight = std::max(weight, stock.cost);
        if (buying_ == Buying::after_the_shelf) weight = after_all(weight);
        layout::Stock stock;
        stock.cost = buying_ == Buying::twice ? 2 * weight : weight + weight / offcut_steps;
        stock.margin = margin();
        result_.sources.emplace_back(Source::Kind::to_buy, 0);
        add_stock(std::move(stock), material_.fresh);
    }

    const Demand& demand_;
    const ShelfMaterial& material_;
    Buying buying_;
    CuttingJob result_;
};

} // namespace

layout::Piece layout_piece(const CutWant& want, std::size_t number) {
    layout::Piece piece;
    piece.id = fmt::format("p{}", number);
    piece.width = want.crosswise ? want.size.height : want.size.width;
    piece.height = want.crosswise ? want.size.width : want.size.height;
    piece.count = want.count;
    piece.turn = layout_turn(want.turn);
    return piece;
}

CuttingJob cutting_job(const Demand& demand, Buying buying) {
    return JobMaker(demand, buying).run();
}

} // namespace barrow::costing
