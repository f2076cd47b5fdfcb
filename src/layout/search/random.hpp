#pragma once

#include <cstdint>
#include <random>

namespace barrow::layout {

/// Random numbers that are the same everywhere: the engine is fixed by the C++ standard, and the
/// mapping to ranges is our own (that of the standard's distributions is left to each library).
class Random {
public:
    explicit Random(std::uint64_t seed) : engine_(seed) {}

    /// 0 to n - 1. Requires 0 < n < 2^32.
    std::int32_t below(std::int64_t n) {
        return static_cast<std::int32_t>(((engine_() >> 32) * static_cast<std::uint64_t>(n)) >> 32);
    }

    /// True in so many of a thousand cases.
    bool chance(std::int32_t per_mille) { return below(1000) < per_mille; }

private:
    std::mt19937_64 engine_;
};

} // namespace barrow::layout
