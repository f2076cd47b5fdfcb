#pragma once

#include <cstdint>

namespace barrow::layout {

/// Mixes bits: every bit of the result depends on every bit of x (splitmix64: Steele, Lea & Flood,
/// OOPSLA 2014, 453-472, with the constants of its reference implementation).
inline std::uint64_t spread(std::uint64_t x) {
    x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9U;
    x = (x ^ (x >> 27)) * 0x94D049BB133111EBU;
    return x ^ (x >> 31);
}

/// Random numbers that are the same on every platform: splitmix64, with our own mapping to ranges
/// (standard distributions differ between libraries).
class Random {
public:
    explicit Random(std::uint64_t seed) : state_(seed) {}

    std::uint64_t bits() { return spread(state_ += 0x9E3779B97F4A7C15U); }

    /// 0 to n - 1. Requires 0 < n < 2^32.
    std::int32_t below(std::int64_t n) {
        return static_cast<std::int32_t>(((bits() >> 32) * static_cast<std::uint64_t>(n)) >> 32);
    }

    /// True with a probability of per_mille / 1000.
    bool chance(std::int32_t per_mille) { return below(1000) < per_mille; }

private:
    std::uint64_t state_;
};

} // namespace barrow::layout
