#pragma once

#include "layout/bound/stock_sums.hpp"
#include "layout/effort/meter.hpp"
#include "layout/sets/packed_counts.hpp"
#include "layout/tree/solution.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <unordered_set>
#include <vector>

namespace barrow::layout {

/// For sheets that must be filled almost wholly: blocks grown from the items by joining two whose
/// sides match so well that next to nothing is lost between them (Wang, Oper. Res. 31 (1983)
/// 573-586), and the demand covered by blocks that nearly fill a sheet. Finds, never proves.
class TightBlocks {
public:
    /// The sums must outlive it and know the sheets of the instance.
    TightBlocks(const Instance& instance, const StockSums& sums, Meter& meter);

    /// A complete answer that costs at most `limit`, if one is found within the steps.
    std::optional<Solution> run(Cost limit, std::int64_t steps, std::size_t most_blocks);

private:
    static constexpr std::int32_t none = -1;

    struct Joined {
        PackedCounts counts;
        std::int64_t area = 0; ///< of the items
        std::array<Length, 2> size{};
        std::int32_t first = none; ///< a block; none: a single item
        std::int32_t second = none;
        std::int32_t item = none;
        Along axis = Along::x;
        bool turned = false;

        std::int64_t box() const { return std::int64_t{size[0]} * size[1]; }
    };
    struct Use {
        std::size_t sheet = 0;
        std::int32_t block = none;
    };

    void begin();
    bool grow(std::int64_t loss, std::size_t most_blocks);
    bool join_all(std::int32_t index, std::size_t across, std::int64_t loss);
    void join(std::int32_t first, std::int32_t second, std::size_t across, std::int64_t loss);
    void keep(const Joined& block);
    bool held(const std::array<Length, 2>& size) const;
    void list_full(Cost limit);
    bool cover(const PackedCounts& left, std::int64_t area, Cost budget);
    Block block(std::int32_t index) const;

    const Instance& instance_;
    const StockSums& sums_;
    Meter& meter_;
    CountFields fields_;
    PackedCounts all_;
    std::int64_t wanted_ = 0; ///< area
    std::int64_t end_ = 0;
    std::int64_t largest_ = 0; ///< area of a sheet
    std::vector<Joined> blocks_;
    std::unordered_set<std::uint64_t> known_; ///< hashes: a collision only loses a block
    std::array<std::multimap<Length, std::int32_t>, 2> by_side_; ///< those joined with all others
    std::vector<std::vector<std::int32_t>>
        full_; ///< blocks that nearly fill a sheet, by first kind
    std::vector<std::int64_t> copies_;
    std::unordered_set<std::uint64_t> failed_; ///< hashes of what could not be covered
    std::vector<Use> uses_;
};

} // namespace barrow::layout
