#include "costing/bill/divisions.hpp"

#include "costing/stock.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <optional>
#include <random>

using namespace barrow::costing;
using barrow::base::Length;

namespace {

using Widths = std::vector<std::int64_t>; ///< of pieces, from the left

std::vector<Length> lengths(const Widths& millimetres) {
    std::vector<Length> result;
    for (const std::int64_t mm : millimetres) result.push_back(Length::mm(mm));
    return result;
}

/// The division that is weighed first: fewest pieces, widest from the left.
std::optional<Division> first_division(Length width, const std::vector<Length>& folds,
                                       Length overlap, Length widest) {
    barrow::design::WorkedPart part;
    part.width = width;
    part.joining.at = folds;
    part.joining.overlap = overlap;
    const auto all = divisions_of(part, {widest});
    if (all.empty()) return std::nullopt;
    return all.front();
}

std::optional<Widths> widths(const std::optional<Division>& pieces) {
    if (!pieces) return std::nullopt;
    Widths result;
    for (const PanelPiece& piece : *pieces)
        result.push_back(piece.width.units() / Length::units_per_mm);
    return result;
}

/// Every division at every set of folds; the one with fewest pieces, then the widest from the left.
std::optional<Widths> by_brute_force(std::int64_t width, const Widths& folds, std::int64_t overlap,
                                     std::int64_t widest) {
    std::optional<Widths> best;
    for (std::size_t set = 0; set < (std::size_t{1} << folds.size()); ++set) {
        Widths pieces;
        std::int64_t start = 0;
        for (std::size_t i = 0; i < folds.size(); ++i) {
            if ((set >> i & 1U) == 0) continue;
            pieces.push_back(folds[i] + overlap - start);
            start = folds[i];
        }
        pieces.push_back(width - start);
        bool fits = true;
        for (const std::int64_t piece : pieces) fits = fits && piece <= widest;
        if (!fits) continue;
        if (!best || pieces.size() < best->size()
            || (pieces.size() == best->size() && pieces > *best))
            best = pieces;
    }
    return best;
}

} // namespace

TEST_CASE("a panel that fits is left whole", "[joins]") {
    CHECK(
        widths(first_division(Length::mm(300), lengths({100, 200}), Length::mm(8), Length::mm(300)))
        == Widths{300});
}

TEST_CASE("a cover's paper is joined at the fold that leaves the smallest last piece", "[joins]") {
    // By hand: a paper of 356 mm on a cover with folds at 128, 158, 288 and 318 mm of it, from
    // sheets of 304 mm, overlapping by 8 mm. Up to the fold at 288 it is 296 mm wide, up to the
    // one at 318 it would be 326: so 296, and from 288 on the last 68.
    const auto pieces = first_division(Length::mm(356), lengths({128, 158, 288, 318}),
                                       Length::mm(8), Length::mm(304));
    REQUIRE(widths(pieces) == Widths{296, 68});
    CHECK((*pieces)[0].start == Length::mm(0));
    CHECK((*pieces)[1].start == Length::mm(288));
}

TEST_CASE("the overlap counts against the sheet, the last piece needs none", "[joins]") {
    CHECK(widths(first_division(Length::mm(200), lengths({100}), Length::mm(8), Length::mm(108)))
          == Widths{108, 100});
    CHECK_FALSE(first_division(Length::mm(200), lengths({100}), Length::mm(8), Length::mm(107)));
    CHECK(widths(first_division(Length::mm(200), lengths({100}), Length::mm(0), Length::mm(100)))
          == Widths{100, 100});
}

TEST_CASE("a panel without a fold in reach cannot be divided", "[joins]") {
    CHECK_FALSE(first_division(Length::mm(200), {}, Length::mm(8), Length::mm(150)));
    CHECK_FALSE(first_division(Length::mm(400), lengths({150}), Length::mm(8), Length::mm(200)));
}

TEST_CASE("divisions agree with brute force over all sets of folds", "[joins]") {
    std::mt19937_64 random(41);
    const auto below = [&](std::uint64_t limit) {
        return static_cast<std::int64_t>(random() % limit);
    };
    int divided = 0;
    int impossible = 0;
    for (int round = 0; round < 5000; ++round) {
        const std::int64_t width = 20 + below(400);
        Widths folds;
        for (std::int64_t at = 1 + below(60); at < width && folds.size() < 9; at += 1 + below(90))
            folds.push_back(at);
        const std::int64_t overlap = below(12);
        const std::int64_t widest = 10 + below(300);
        const auto expected = by_brute_force(width, folds, overlap, widest);
        const auto got = first_division(Length::mm(width), lengths(folds), Length::mm(overlap),
                                        Length::mm(widest));
        CAPTURE(width, folds, overlap, widest);
        REQUIRE(widths(got) == expected);
        if (expected && expected->size() > 1) ++divided;
        if (!expected) ++impossible;
    }
    CHECK(divided > 500);
    CHECK(impossible > 200);
}

TEST_CASE("with few folds every set of them is weighed", "[joins]") {
    barrow::design::WorkedPart part;
    part.width = Length::mm(300);
    part.joining.at = lengths({100, 150, 220});
    // Folds 100, 150 and 220, sheets of 160: all sets with no piece wider than 160 are
    // {150}, {100, 220}, {150, 220}, {100, 150} and {100, 150, 220}.
    std::vector<Widths> all;
    for (const Division& division : divisions_of(part, {Length::mm(160)}))
        all.push_back(*widths(division));
    CHECK(all
          == std::vector<Widths>{
              {150, 150}, {150, 70, 80}, {100, 120, 80}, {100, 50, 150}, {100, 50, 70, 80}});
    part.joining.least_piece = Length::mm(75);
    all.clear();
    for (const Division& division : divisions_of(part, {Length::mm(160)}))
        all.push_back(*widths(division));
    CHECK(all == std::vector<Widths>{{150, 150}, {100, 120, 80}});
}

TEST_CASE("a part that may be joined anywhere is joined where a sheet ends", "[joins]") {
    barrow::design::WorkedPart part;
    part.width = Length::mm(360);
    part.joining.anywhere = true;
    part.joining.overlap = Length::mm(10);
    part.joining.least_piece = Length::mm(20);
    const auto all = divisions_of(part, {Length::mm(300), Length::mm(120)});
    REQUIRE_FALSE(all.empty());
    CHECK(*widths(all.front()) == Widths{300, 70});
    const auto has = [&](const Widths& wanted) {
        return std::any_of(all.begin(), all.end(),
                           [&](const Division& division) { return *widths(division) == wanted; });
    };
    CHECK(has({70, 300}));  // the sheet at the right end
    CHECK(has({190, 180})); // halves
    CHECK(has({120, 250})); // an offcut of 120 at the left end
    part.joining.never = {{Length::mm(0), Length::mm(340), "front"}};
    for (const Division& division : divisions_of(part, {Length::mm(400), Length::mm(300)}))
        CHECK((division.size() == 1 || division[1].start >= Length::mm(340)));
}
