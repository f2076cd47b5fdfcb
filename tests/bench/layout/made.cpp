#include "families.hpp"

#include "dice.hpp"

#include <algorithm>
#include <array>

namespace barrow::bench {
namespace {

using layout::Job;
using layout::Measure;
using layout::Piece;
using layout::Stock;
using layout::Turn;

struct Paper {
    const char* id;
    Measure width;
    Measure height;
    Measure strip; ///< unusable, along the bottom
    layout::Cost cost;
};

// Sizes and costs of paper, board and cloth for journals: common practice, no source.
constexpr std::array<Paper, 6> papers = {{
    {"8 inch", 8 * inch, 17 * inch / 2, inch / 2, 45},
    {"12 inch", 12 * inch, 25 * inch / 2, inch / 2, 85},
    {"A4", 210 * mm, 297 * mm, 0, 20},
    {"A3", 297 * mm, 420 * mm, 0, 45},
    {"board", 700 * mm, 500 * mm, 0, 240},
    {"cloth", 1400 * mm, 500 * mm, 0, 900},
}};

/// Sides as makers measure them: whole millimetres, tenths, or quarters of an inch.
Measure side(Dice& dice, std::int64_t form, Measure least, Measure most) {
    const Measure grid = form == 0 ? mm : form == 1 ? mm / 10 : inch / 4;
    return dice.roll((least + grid - 1) / grid, most / grid) * grid;
}

void add(Job& job, Measure width, Measure height, std::int64_t count, Turn turn) {
    Piece piece;
    piece.id = "piece" + std::to_string(job.pieces.size() + 1);
    piece.width = width;
    piece.height = height;
    piece.count = count;
    piece.turn = turn;
    job.pieces.push_back(piece);
}

Stock stock_of(const Paper& paper) {
    Stock stock;
    stock.id = paper.id;
    stock.width = paper.width;
    stock.height = paper.height;
    stock.margin.bottom = paper.strip;
    stock.cost = paper.cost;
    return stock;
}

/// One job of a maker: one to three papers, offcuts of the first, some kinds of piece in some
/// copies. In a third of the jobs counts are limited.
Job maker_job(std::uint64_t seed) {
    Dice dice(seed * 7919);
    Job job;
    job.kerf = dice.roll(0, 2) == 0 ? dice.roll(0, 10) * mm / 10 : 0;
    job.useful = {30 * mm, 60 * mm};
    const std::int64_t form = dice.roll(0, 2);
    const std::int64_t turning = dice.roll(0, 3); // none, all, mixed twice
    const std::size_t first = static_cast<std::size_t>(dice.roll(0, 5));
    const std::int64_t fresh = dice.roll(1, 3);
    for (std::int64_t i = 0; i < fresh; ++i)
        job.stock.push_back(stock_of(papers[(first + static_cast<std::size_t>(i)) % 6]));
    const Stock main = job.stock.front();
    const std::int64_t kinds = dice.chance(80) ? dice.roll(3, 12) : dice.roll(13, 40);
    Measure area = 0;
    for (std::int64_t i = 0; i < kinds; ++i) {
        const Measure width = side(dice, form, 20 * mm, main.width * 6 / 10);
        const Measure height =
            side(dice, form, 20 * mm, (main.height - main.margin.bottom) * 6 / 10);
        const std::int64_t count = dice.chance(60) ? dice.roll(1, 12) : dice.roll(12, 60);
        const bool turns = turning == 1 || (turning > 1 && dice.chance(50));
        add(job, width, height, count, turns ? Turn::quarter : Turn::none);
        area += width / mm * (height / mm) * count;
    }
    if (dice.chance(33)) {
        const Measure sheet = main.width / mm * (main.height / mm);
        job.stock.front().count = std::max<std::int64_t>(1, area * dice.roll(3, 13) / sheet / 10);
        if (fresh == 1) { // the same paper may be bought, at a higher price
            Stock more = main;
            more.id = "to buy";
            more.cost *= 2;
            job.stock.push_back(more);
        }
    }
    const std::int64_t offcuts = dice.chance(2) ? 500 : dice.chance(50) ? dice.roll(1, 120) : 0;
    for (std::int64_t i = 0; i < offcuts; ++i) {
        Stock stock;
        stock.id = "offcut" + std::to_string(i + 1);
        stock.width = side(dice, form, 30 * mm, main.width * 9 / 10);
        stock.height = side(dice, form, 50 * mm, main.height * 9 / 10);
        stock.cost = main.cost * (stock.width / mm) * (stock.height / mm)
                     / ((main.width / mm) * (main.height / mm)) / 10;
        stock.count = 1;
        stock.offcut = true;
        stock.age = dice.roll(0, 400);
        job.stock.push_back(stock);
    }
    return job;
}

struct Part {
    Measure width;
    Measure height;
};

/// Cuts one of the parts in two at random, until there are so many.
void cut_up(Dice& dice, std::vector<Part>& parts, std::size_t wanted, Measure grid) {
    for (int tries = 0; parts.size() < wanted && tries < 10'000; ++tries) {
        // The largest of three, so that parts stay of a size.
        std::size_t at = 0;
        for (int i = 0; i < 3; ++i) {
            const auto other =
                static_cast<std::size_t>(dice.roll(0, static_cast<std::int64_t>(parts.size()) - 1));
            if (i == 0
                || parts[other].width * parts[other].height > parts[at].width * parts[at].height)
                at = other;
        }
        Part& part = parts[at];
        const bool across = part.width > part.height ? dice.chance(80) : dice.chance(20);
        Measure& length = across ? part.width : part.height;
        const Measure least = 12 * mm / grid + 1;
        if (length / grid < 2 * least) continue;
        const Measure first = dice.roll(least, length / grid - least) * grid;
        Part rest = part;
        (across ? rest.width : rest.height) = length - first;
        length = first;
        parts.push_back(rest);
    }
}

/// Sheets cut up into pieces, with up to 3 % of each left over: all pieces fit, cut by cut, on as
/// many sheets as there are.
Job tight_job(std::uint64_t seed) {
    Dice dice(seed * 104'729);
    Job job;
    const std::int64_t sheets = dice.roll(1, 4);
    const std::int64_t slack = dice.roll(0, 30); // per mille of each sheet
    const Paper& paper = papers[static_cast<std::size_t>(dice.roll(0, 5))];
    const std::size_t most = dice.chance(80) ? 40 : 100;
    const auto wanted =
        static_cast<std::size_t>(dice.roll(3, static_cast<std::int64_t>(most) / sheets));
    const Measure grid = dice.chance(50) ? mm : mm / 10;
    const bool turns = dice.chance(50);
    Stock stock = stock_of(paper);
    stock.margin = {};
    stock.count = sheets;
    for (std::int64_t s = 0; s < sheets; ++s) {
        std::vector<Part> parts{
            {stock.width / grid * grid, stock.height * (1000 - slack) / 1000 / grid * grid}};
        cut_up(dice, parts, wanted, grid);
        for (const Part& part : parts)
            add(job, part.width, part.height, 1, turns ? Turn::quarter : Turn::none);
    }
    job.stock.push_back(stock);
    return job;
}

/// The same with sheets of several sizes, one or two of each.
Job tight_mixed_job(std::uint64_t seed) {
    Dice dice(seed * 15'485'863);
    Job job;
    const std::int64_t slack = dice.roll(0, 30);
    const bool turns = dice.chance(50);
    const std::int64_t kinds = dice.roll(2, 3);
    const std::size_t first = static_cast<std::size_t>(dice.roll(0, 5));
    for (std::int64_t k = 0; k < kinds; ++k) {
        Stock stock = stock_of(papers[(first + static_cast<std::size_t>(k)) % 6]);
        stock.margin = {};
        stock.count = dice.roll(1, 2);
        for (std::int64_t s = 0; s < *stock.count; ++s) {
            std::vector<Part> parts{
                {stock.width / mm * mm, stock.height * (1000 - slack) / 1000 / mm * mm}};
            cut_up(dice, parts, static_cast<std::size_t>(dice.roll(3, 7)), mm);
            for (const Part& part : parts)
                add(job, part.width, part.height, 1, turns ? Turn::quarter : Turn::none);
        }
        job.stock.push_back(stock);
    }
    return job;
}

template <typename Make>
std::vector<Case> many(const std::string& name, std::uint64_t count, const Make& make) {
    std::vector<Case> cases;
    for (std::uint64_t seed = 1; seed <= count; ++seed) {
        Case entry;
        entry.name = name + std::to_string(seed);
        entry.job = make(seed);
        cases.push_back(std::move(entry));
    }
    return cases;
}

} // namespace

std::vector<Family> made_families() {
    return {{"maker-jobs", [] { return many("job", 300, maker_job); }},
            {"tight", [] { return many("tight", 800, tight_job); }},
            {"tight-mixed", [] { return many("mixed", 200, tight_mixed_job); }}};
}

} // namespace barrow::bench
