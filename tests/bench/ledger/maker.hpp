#pragma once

#include "store/file/database.hpp"

#include <cstdint>

namespace barrow::bench {

/// How large a shop is to be.
struct Size {
    std::int64_t movements = 1'000'000;
    std::int64_t materials = 5'000;
    std::int64_t offcuts = 20'000; ///< in the box at the end
};

/// What was made.
struct MadeShop {
    std::int64_t movements = 0, postings = 0, lots = 0, batches = 0, offcuts_there = 0;
    double seconds = 0;
};

/// Fills a fresh shop with ten years of deliveries, batches and sales, written as the program
/// writes them (same tables, same movements, triggers on) but without working anything out. The
/// same every time.
MadeShop fill(store::Database& database, const Size& size);

/// Code of the material of that number, from 0. The first `common_materials` are used up by every
/// batch in turn, the others seldom.
inline constexpr std::int64_t common_materials = 20;
std::string code_of(std::int64_t material);

} // namespace barrow::bench
