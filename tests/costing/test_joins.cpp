#include "costing/joins.hpp"

#include "costing/stock.hpp"

#include <catch2/catch.hpp>

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

std::optional<Widths> widths(const std::optional<std::vector<PanelPiece>>& pieces) {
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
    CHECK(widths(divide_panel(Length::mm(300), lengths({100, 200}), Length::mm(8), Length::mm(300)))
          == Widths{300});
}

TEST_CASE("a cover's paper is joined at the fold that leaves the smallest last piece", "[joins]") {
    // By hand: a paper of 356 mm on a cover with folds at 128, 158, 288 and 318 mm of it, from
    // sheets of 304 mm, overlapping by 8 mm. Up to the fold at 288 it is 296 mm wide, up to the
    // one at 318 it would be 326: so 296, and from 288 on the last 68.
    const auto pieces = divide_panel(Length::mm(356), lengths({128, 158, 288, 318}), Length::mm(8),
                                     Length::mm(304));
    REQUIRE(widths(pieces) == Widths{296, 68});
    CHECK((*pieces)[0].start == Length::mm(0));
    CHECK((*pieces)[1].start == Length::mm(288));
}

TEST_CASE("the overlap counts against the sheet, the last piece needs none", "[joins]") {
    CHECK(widths(divide_panel(Length::mm(200), lengths({100}), Length::mm(8), Length::mm(108)))
          == Widths{108, 100});
    CHECK_FALSE(divide_panel(Length::mm(200), lengths({100}), Length::mm(8), Length::mm(107)));
    CHECK(widths(divide_panel(Length::mm(200), lengths({100}), Length::mm(0), Length::mm(100)))
          == Widths{100, 100});
}

TEST_CASE("a panel without a fold in reach cannot be divided", "[joins]") {
    CHECK_FALSE(divide_panel(Length::mm(200), {}, Length::mm(8), Length::mm(150)));
    CHECK_FALSE(divide_panel(Length::mm(400), lengths({150}), Length::mm(8), Length::mm(200)));
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
        const auto got = divide_panel(Length::mm(width), lengths(folds), Length::mm(overlap),
                                      Length::mm(widest));
        CAPTURE(width, folds, overlap, widest);
        REQUIRE(widths(got) == expected);
        if (expected && expected->size() > 1) ++divided;
        if (!expected) ++impossible;
    }
    CHECK(divided > 500);
    CHECK(impossible > 200);
}
