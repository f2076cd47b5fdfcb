#pragma once

#include "layout/checker.hpp"
#include "layout/solve.hpp"

#include <cstdint>
#include <optional>
#include <random>
#include <string>

namespace barrow::layout::test {

/// All that check() finds wrong, one a line; empty when all is well.
inline std::string faults(const Job& job, const Outcome& outcome) {
    std::string text;
    for (const std::string& line : check(job, outcome)) text += line + "\n";
    return text;
}

inline Stock stock(const std::string& id, Measure width, Measure height, Cost cost,
                   std::optional<std::int64_t> count = {}) {
    Stock entry;
    entry.id = id;
    entry.width = width;
    entry.height = height;
    entry.cost = cost;
    entry.count = count;
    return entry;
}

inline Piece piece(const std::string& id, Measure width, Measure height,
                   std::optional<std::int64_t> count, Turn turn = Turn::none, Cost value = 0) {
    Piece entry;
    entry.id = id;
    entry.width = width;
    entry.height = height;
    entry.count = count;
    entry.turn = turn;
    entry.value = value;
    return entry;
}

/// Seeded numbers with a mapping of our own: the distributions of the standard library differ
/// from one library to the next.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : engine_(seed) {}
    std::int64_t roll(std::int64_t low, std::int64_t high) {
        return low
               + static_cast<std::int64_t>(engine_() % static_cast<std::uint64_t>(high - low + 1));
    }
    bool chance(std::int64_t percent) { return roll(1, 100) <= percent; }

private:
    std::mt19937_64 engine_;
};

/// A small job with all options mixed.
inline Job random_job(Dice& dice, Goal goal) {
    Job job;
    job.goal = goal;
    job.one_dimensional = dice.chance(15);
    job.kerf = dice.chance(40) ? dice.roll(1, 2) : 0;
    const auto high = [&](Measure side) { return job.one_dimensional ? 1 : side; };
    const std::int64_t stocks = dice.roll(1, 3);
    for (std::int64_t i = 0; i < stocks; ++i) {
        Stock entry = stock("s" + std::to_string(i), dice.roll(4, 12), high(dice.roll(4, 12)),
                            dice.roll(0, 20));
        if (dice.chance(50)) entry.count = dice.roll(1, 3);
        if (dice.chance(25)) entry.margin.left = dice.roll(0, 2);
        if (dice.chance(25) && !job.one_dimensional) entry.margin.top = dice.roll(0, 2);
        entry.offcut = dice.chance(30);
        entry.age = dice.roll(0, 3);
        job.stock.push_back(entry);
    }
    const std::int64_t kinds = dice.roll(1, 3);
    for (std::int64_t i = 0; i < kinds; ++i) {
        const auto turn = static_cast<Turn>(dice.roll(0, 2));
        job.pieces.push_back(piece("p" + std::to_string(i), dice.roll(1, 9), high(dice.roll(1, 9)),
                                   dice.roll(1, 3), turn, dice.roll(0, 30)));
    }
    if (dice.chance(50)) job.useful = {1, dice.roll(1, 5)};
    if (dice.chance(50)) job.trimmer = dice.roll(3, 9);
    return job;
}

} // namespace barrow::layout::test
