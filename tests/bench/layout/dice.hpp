#pragma once

#include <cstdint>
#include <random>

namespace barrow::bench {

/// 1/8000 mm: the unit in which both 0.01 mm and 1/64 in are whole.
inline constexpr std::int64_t mm = 8000;
inline constexpr std::int64_t inch = 203'200;

/// Seeded numbers with a mapping of our own: the distributions of the standard library differ from
/// one library to the next.
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

} // namespace barrow::bench
