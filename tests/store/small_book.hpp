#pragma once

#include "store/ledger/ledger.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/lots.hpp"
#include "store/stock/offcuts.hpp"

#include <cstdint>
#include <filesystem>
#include <string>

namespace barrow::test {

/// A little book kept with the store's own functions, without a workshop: paper, ribbon and beads
/// received; a sheet taken into work, half of it kept as an offcut; some beads written off.
struct SmallBook {
    explicit SmallBook(const std::filesystem::path& path = ":memory:");

    store::Database database;
    std::int64_t paper = 0, ribbon = 0, beads = 0;             ///< materials
    std::int64_t paper_lot = 0, ribbon_lot = 0, beads_lot = 0; ///< lots
    std::int64_t work = 0;                                     ///< holder of work under way
    std::int64_t offcut = 0;
    std::int64_t received = 0, used = 0, spoiled = 0; ///< postings
};

/// 100 x 80 in the units of lengths, to keep the numbers small.
inline constexpr std::int64_t sheet_area = std::int64_t{100} * 80;

std::int64_t post(store::Database& database, const std::string& kind,
                  const std::string& day = "2027-03-06");

void move(store::Database& database, std::int64_t posting, const std::string& kind,
          std::int64_t lot, std::int64_t from, std::int64_t to, std::int64_t quantity,
          std::int64_t minor);

store::Material sheet_material(const std::string& code);

} // namespace barrow::test
