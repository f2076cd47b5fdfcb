#pragma once

#include "layout/effort/meter.hpp"
#include "layout/tree/block.hpp"

#include <map>
#include <optional>
#include <unordered_map>
#include <vector>

namespace barrow::layout {

__extension__ typedef unsigned __int128 Packed;

/// Counts of all kinds in one number: a field for each kind with a guard bit above it, so that one
/// subtraction tells whether every count is allowed.
class PackedCounts {
public:
    /// Empty when the copies allowed need more than 128 bits.
    static std::optional<PackedCounts> of(const Instance& instance);

    Packed one(std::size_t kind) const { return Packed(1) << shifts_[kind]; }
    /// Whether the sum of two allowed counts is allowed.
    bool allowed(Packed counts) const { return ((limits_ - counts) & guards_) == guards_; }
    /// A hash of counts.
    static std::uint64_t key(Packed counts);

private:
    std::vector<int> shifts_;
    Packed guards_ = 0;
    Packed limits_ = 0; ///< copies allowed, guard bits set
};

/// Rectangles built from items within the copies allowed that waste little. Waste is the area at
/// the best value per area of all kinds, less the value of the content (Wang, Oper. Res. 31 (1983)
/// 573-586). Of two rectangles with the same items only one that fits inside the other is kept.
/// Waste is counted in units of 1/unit(), so that it is a whole number.
class CountedParts {
public:
    struct Part {
        Length width = 0;
        Length height = 0;
        Packed counts = 0;
        Cost value = 0;
        std::int64_t waste = 0;
        std::int32_t first = -1; ///< parts joined, or
        std::int32_t second = -1;
        std::int32_t item = -1; ///< the item of a leaf
        bool turned = false;
        bool alive = true; ///< false: another part has the same items in less room
        Along axis = Along::x;
    };
    /// What most reads of a part need, contiguous in memory.
    struct Entry {
        Packed counts = 0;
        std::int64_t waste = 0;
        Length length = 0; ///< width on a shelf of equal heights, height on one of equal widths
        std::int32_t part = 0;
    };
    /// Parts of one height (or width), least waste first.
    struct Line {
        Length across = 0;
        std::vector<Entry> entries;
    };
    using Shelf = std::vector<Line>; ///< lowest first

    /// The first line at least this high (or wide).
    static Shelf::const_iterator from(const Shelf& shelf, Length across);

    /// Whether waste can be counted in 64 bits.
    static bool suits(const Instance& instance);

    /// Requires suits(instance) and that both arguments outlive this.
    CountedParts(const Instance& instance, const PackedCounts& counts);

    /// Finds all parts that waste at most a `share`-th of the sheet. False when there are more than
    /// `most`, or it takes more steps than allowed.
    bool find(std::int64_t share, std::size_t most, std::int64_t steps, Meter& meter);

    const std::vector<Part>& parts() const { return parts_; }
    const Part& part(std::int32_t index) const { return parts_[static_cast<std::size_t>(index)]; }
    const Shelf& by_height() const { return by_height_; }
    const Shelf& by_width() const { return by_width_; }
    Length least_width() const { return least_width_; }
    Length least_height() const { return least_height_; }

    std::int64_t waste(std::int64_t area, Cost value) const {
        return value_ * area - value * area_;
    }
    std::int64_t unit() const { return area_; }

    Block block(std::int32_t part) const;

private:
    static void put(Shelf& shelf, Length across, const Entry& entry);
    void add(const Part& part);
    void lay_items();
    void join_all(std::int32_t index, Along axis);
    void join(std::int32_t first, const std::vector<Entry>& others, std::int64_t allowed,
              Along axis);

    const Instance& instance_;
    const PackedCounts& counts_;
    Sheet sheet_;
    Cost value_ = 0; ///< of the kind with the greatest value per area
    std::int64_t area_ = 1;
    std::int64_t each_ = 0;
    Length least_width_ = 0;
    Length least_height_ = 0;
    std::vector<Part> parts_;
    std::multimap<Cost, std::int32_t> waiting_; ///< to be joined, least value first
    std::unordered_map<std::uint64_t, std::vector<std::int32_t>> alike_; ///< by their counts
    Shelf by_height_;
    Shelf by_width_;
    std::int64_t steps_ = 0;
};

} // namespace barrow::layout
