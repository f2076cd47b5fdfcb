#include "families.hpp"

#include "dice.hpp"

namespace barrow::bench {
namespace {

using layout::Job;
using layout::Piece;
using layout::Stock;
using layout::Turn;

void add_piece(Job& job, std::int64_t width, std::int64_t height, std::int64_t count, Turn turn) {
    Piece piece;
    piece.id = "piece" + std::to_string(job.pieces.size() + 1);
    piece.width = width;
    piece.height = height;
    piece.count = count;
    piece.turn = turn;
    job.pieces.push_back(piece);
}

void add_fresh(Job& job, std::int64_t width, std::int64_t height, std::int64_t cost) {
    Stock stock;
    stock.id = "fresh" + std::to_string(job.stock.size() + 1);
    stock.width = width;
    stock.height = height;
    stock.cost = cost;
    job.stock.push_back(stock);
}

/// Offcuts of random size, worth their share of a 12 in sheet at 85, at most.
void add_offcuts(Job& job, Dice& dice, int count) {
    for (int i = 0; i < count; ++i) {
        Stock stock;
        stock.id = "offcut" + std::to_string(i + 1);
        stock.width = dice.roll(40, 300) * mm;
        stock.height = dice.roll(60, 300) * mm;
        stock.cost = 85 * stock.width / (12 * inch) * stock.height / (12 * inch);
        stock.count = 1;
        stock.offcut = true;
        stock.age = dice.roll(0, 400);
        job.stock.push_back(stock);
    }
}

/// 40 journals of three designs: 12 kinds of piece, some with a direction, 5 fresh papers and 80
/// offcuts.
Job journals(std::uint64_t seed) {
    Dice dice(seed);
    Job job;
    job.useful = {30 * mm, 60 * mm};
    job.trimmer = 310 * mm;
    add_fresh(job, 12 * inch, 12 * inch, 85);
    add_fresh(job, 210 * mm, 297 * mm, 45);
    add_fresh(job, 297 * mm, 420 * mm, 95);
    add_fresh(job, 6 * inch, 6 * inch, 30);
    add_fresh(job, 17 * inch / 2, 11 * inch, 50);
    add_offcuts(job, dice, 80);
    for (int kind = 0; kind < 12; ++kind) {
        const bool large = kind % 4 == 0;
        const std::int64_t width = large ? dice.roll(120, 200) : dice.roll(30, 110);
        const std::int64_t height = large ? dice.roll(150, 250) : dice.roll(40, 160);
        const std::int64_t each = large ? 1 : dice.roll(1, 6);
        add_piece(job, width * mm, height * mm, (kind % 3 == 0 ? 14 : 13) * each,
                  kind % 3 == 1 ? Turn::quarter : Turn::none);
    }
    return job;
}

/// 20,000 pieces of 40 kinds, half of them in inches.
Job large_order(std::uint64_t seed) {
    Dice dice(seed);
    Job job;
    job.useful = {30 * mm, 60 * mm};
    add_fresh(job, 12 * inch, 12 * inch, 85);
    add_fresh(job, 297 * mm, 420 * mm, 95);
    for (int kind = 0; kind < 40; ++kind) {
        const bool imperial = kind % 2 == 0;
        const std::int64_t width = imperial ? dice.roll(4, 32) * inch / 4 : dice.roll(25, 200) * mm;
        const std::int64_t height =
            imperial ? dice.roll(4, 36) * inch / 4 : dice.roll(25, 250) * mm;
        add_piece(job, width, height, 500, kind % 3 == 0 ? Turn::quarter : Turn::none);
    }
    return job;
}

template <typename Make>
std::vector<Case> ten(const std::string& name, const Make& make) {
    std::vector<Case> cases;
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        Case entry;
        entry.name = name + std::to_string(seed);
        entry.job = make(seed);
        cases.push_back(std::move(entry));
    }
    return cases;
}

} // namespace

std::vector<Family> maker_families() {
    return {{"maker-journals", [] { return ten("journals", journals); }},
            {"maker-large", [] { return ten("large", large_order); }}};
}

} // namespace barrow::bench
