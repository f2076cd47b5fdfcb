// Who gets which paper, over a run of 40 journals and a collection of 24 papers: how long it takes
// of the processor and how far above its proven bound it can be at most. Three shelves: papers all
// alike, papers with what is left of them (fewer sheets, offcuts), and papers of several sizes and
// prices.
//
//   bench_arrange

#include "base/rational.hpp"
#include "bounds/arrangement_bound.hpp"
#include "costing/arrange/arrange.hpp"

#include <fmt/format.h>

#include <ctime>
#include <random>

using namespace barrow;
using base::Length;

namespace {

constexpr int papers = 24;
constexpr std::int64_t journals = 40;
constexpr std::int64_t bound_work = 3'000'000;

class Dice {
public:
    std::int64_t roll(std::int64_t low, std::int64_t high) {
        return low
               + static_cast<std::int64_t>(engine_() % static_cast<std::uint64_t>(high - low + 1));
    }

private:
    std::mt19937_64 engine_{24};
};

costing::ShelfMaterial paper(int number, Length width, Length height, std::int64_t sheets,
                             std::int64_t price) {
    costing::ShelfMaterial made;
    made.id = number + 1;
    made.code = fmt::format("P-{}", number);
    made.collection = "set";
    made.form = base::Form::sheet;
    made.fresh = {width.units(), height.units()};
    made.turn = design::Turn::none;
    made.unit_price = base::Rational(price);
    made.least_useful = {Length::mm(60).units(), Length::mm(100).units()};
    const auto area = static_cast<std::int64_t>(made.fresh.measure());
    made.lots.push_back({100 + number, made.fresh, sheets * area,
                         base::Money::of_minor(sheets * price), base::read_date("2027-01-01", "")});
    return made;
}

std::vector<costing::ShelfMaterial> shelf_of_kind(int kind) {
    Dice dice;
    std::vector<costing::ShelfMaterial> shelf;
    for (int i = 0; i < papers; ++i) {
        const Length side = kind == 2 && i % 3 == 0 ? Length::mm(210) : Length::inches(12);
        const Length height = kind == 2 && i % 3 == 0 ? Length::mm(297) : Length::inches(12);
        shelf.push_back(paper(i, side, height, kind == 0 ? 8 : dice.roll(2, 9),
                              kind == 2 ? dice.roll(60, 120) : 90));
        for (std::int64_t n = kind == 0 ? 0 : dice.roll(0, 4); n > 0; --n) {
            costing::ShelfOffcut offcut;
            offcut.id = 1000 * (i + 1) + n;
            offcut.size = {Length::mm(dice.roll(6, 20) * 10).units(),
                           Length::mm(dice.roll(10, 30) * 10).units()};
            shelf.back().offcuts.push_back(offcut);
        }
    }
    return shelf;
}

design::WorkedPart panel(const char* slot, Length width, Length height, bool joined) {
    design::WorkedPart part;
    part.name = slot;
    part.slot = slot;
    part.take = design::Take::piece;
    part.width = width;
    part.height = height;
    if (joined)
        part.joining.at = {Length::mm(128), Length::mm(158), Length::mm(288), Length::mm(318)};
    part.joining.overlap = Length::mm(8);
    return part;
}

/// A cover of 356 x 201 mm inside and out, of two papers, and six tags of a third.
costing::Run run() {
    costing::Run made;
    made.design.code = "bench";
    made.journals = journals;
    for (const char* name : {"outside", "inside", "tags"}) {
        design::WorkedSlot slot;
        slot.name = name;
        slot.collection = "set";
        if (slot.name == "inside") slot.differs_from = {"outside"};
        made.design.slots.push_back(slot);
    }
    made.design.parts = {panel("outside", Length::mm(356), Length::mm(201), true),
                         panel("inside", Length::mm(356), Length::mm(201), true),
                         panel("tags", Length::mm(60), Length::mm(110), false)};
    made.design.parts.back().number = 6;
    return made;
}

/// Seconds of the processor, so that others at work on the machine count less.
double seconds_since(std::clock_t start) {
    return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

} // namespace

int main() {
    fmt::print("{:<28} {:>10} {:>10} {:>8} {:>9} {:>11}\n", "40 journals, 24 papers", "weight",
               "bound", "gap", "seconds", "for bound");
    const char* names[] = {"all alike", "what is left of them", "several sizes and prices"};
    for (int kind = 0; kind < 3; ++kind) {
        const auto shelf = shelf_of_kind(kind);
        const std::vector<costing::Run> runs = {run()};
        std::clock_t start = std::clock();
        const auto arrangement = costing::arrange(runs, shelf, layout::Effort::quick);
        const double took = seconds_since(start);
        start = std::clock();
        const layout::Cost bound = costing::arrangement_bound(runs, shelf, bound_work);
        const double gap = bound > 0 ? 100.0 * static_cast<double>(arrangement.weight - bound)
                                           / static_cast<double>(bound)
                                     : 100.0;
        fmt::print("{:<28} {:>10} {:>10} {:>6.2f} % {:>9.3f} {:>11.3f}\n", names[kind],
                   arrangement.weight, bound, gap, took, seconds_since(start));
    }
}
