#pragma once

#include "layout/search/meter.hpp"
#include "layout/tree/block.hpp"

#include <map>
#include <optional>
#include <unordered_map>
#include <vector>

namespace barrow::layout {

__extension__ typedef unsigned __int128 Packed;

/// How often each kind is in a content, all in one number: each kind in a field of its own with a
/// guard bit above it, so that one subtraction tells whether no kind is there too often.
class PackedCounts {
public:
    /// Nothing when the copies allowed need more than 128 bits.
    static std::optional<PackedCounts> of(const Instance& instance);

    Packed one(std::size_t kind) const { return Packed(1) << shifts_[kind]; }
    /// For the sum of two that are each allowed.
    bool allowed(Packed counts) const { return ((limits_ - counts) & guards_) == guards_; }
    /// A number to tell counts apart by, mostly.
    static std::uint64_t key(Packed counts);

private:
    std::vector<int> shifts_;
    Packed guards_ = 0;
    Packed limits_ = 0; ///< copies allowed, guard bits set
};

/// Rectangles put together from items, no kind more often than allowed, that waste little: waste
/// is the area at the best value for area of all kinds, less what is in it (Wang, Oper. Res. 31
/// (1983) 573-586). Of two rectangles with the same items only the one that holds the other is
/// left out. Waste is counted in units of 1/unit(), so that it is a whole number.
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
        bool alive = true; ///< false: another holds the same in less room
        Along axis = Along::x;
    };
    /// All that most looks at a part need, side by side in memory.
    struct Entry {
        Packed counts = 0;
        std::int64_t waste = 0;
        Length length = 0; ///< width on a shelf of equal heights, height on one of equal widths
        std::int32_t part = 0;
    };
    /// Parts of one height (or width), those that waste least first.
    struct Line {
        Length across = 0;
        std::vector<Entry> entries;
    };
    using Shelf = std::vector<Line>; ///< lowest first

    /// The first line that is at least so high (or wide).
    static Shelf::const_iterator from(const Shelf& shelf, Length across);

    /// Whether waste can be counted in 64 bits.
    static bool suits(const Instance& instance);

    /// Requires suits(instance) and that both arguments outlive this.
    CountedParts(const Instance& instance, const PackedCounts& counts);

    /// Finds all that waste at most one `share`-th of the sheet. False when there would be more
    /// than `most`, or so many steps do not suffice.
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
    Cost value_ = 0; ///< of the best kind for its area
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
