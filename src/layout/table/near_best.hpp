#pragma once

#include "layout/effort/meter.hpp"
#include "layout/table/guillotine_table.hpp"

#include <cstddef>
#include <cstdint>
#include <limits>
#include <map>
#include <unordered_map>
#include <utility>
#include <vector>

namespace barrow::layout {

/// Lists all sets of items that fit a sheet and are nearly as valuable as the best, each once, for
/// given values; sets that are part of others are mostly left out. The deficit of a set against the
/// best of its rectangle is the sum of the deficits within the two parts of the first cut and of
/// the deficit of that cut. So first, from the sheets down, the greatest deficit at which a
/// rectangle can still be useful is computed; then, from the smallest rectangle up, all sets within
/// it. (The k best ways through a dynamic program; the effort is of the order of the output.)
class NearBest {
public:
    using Counts =
        std::vector<std::pair<std::int32_t, std::int64_t>>; ///< kind and count, at least 1

    /// Instance and grid must outlive it. Values are at least 0.
    NearBest(const Instance& instance, const Grid& grid, const std::vector<std::int64_t>& values,
             Meter& meter);

    /// Lists all sets worth at least this on each sheet; false when that takes more steps or
    /// entries than allowed, or values are too large to be added exactly.
    bool list(const std::vector<std::int64_t>& least, std::int64_t steps, std::size_t most_entries);

    struct Found {
        std::size_t sheet = 0;
        const Counts* counts = nullptr; ///< valid while this object exists
    };
    /// From the last list that was completed.
    std::vector<Found> found() const;
    /// A set from that list, or from an earlier, shorter one.
    Block block(const Found& found) const;

private:
    static constexpr Length none = std::numeric_limits<Length>::max();

    /// A set, and how it is cut from a rectangle.
    struct Entry {
        std::int64_t lacks = 0;
        std::int32_t set = 0;
        std::int32_t cut = 0; ///< 0: one item
        Along axis = Along::x;
        std::int32_t first = 0;  ///< entries of the two parts, or the item
        std::int32_t second = 0; ///< or whether it is turned
        bool operator<(const Entry& other) const {
            return lacks != other.lacks ? lacks < other.lacks : set < other.set;
        }
    };
    using Entries = std::vector<Entry>;

    std::size_t cell(std::int32_t x, std::int32_t y) const {
        return static_cast<std::size_t>(x) * static_cast<std::size_t>(grid_.y.size())
               + static_cast<std::size_t>(y);
    }
    /// Some item.
    bool holds(std::int32_t x, std::int32_t y) const {
        return least_height_[static_cast<std::size_t>(x)] <= grid_.y.at(y);
    }
    std::int64_t value(std::int32_t x, std::int32_t y) const {
        return static_cast<std::int64_t>(table_.at(x, y));
    }
    std::int32_t rest_x(std::int32_t x, std::int32_t cut) const {
        return grid_.x.below(grid_.x.at(x) - grid_.x.at(cut));
    }
    std::int32_t rest_y(std::int32_t y, std::int32_t cut) const {
        return grid_.y.below(grid_.y.at(y) - grid_.y.at(cut));
    }
    template <class Use>
    void each_cut(std::int32_t x, std::int32_t y, const Use& use);
    void allow_parts(std::int32_t x, std::int32_t y);
    void fill(std::int32_t x, std::int32_t y);
    void add_items(std::int32_t x, std::int32_t y, Entries& entries);
    std::int32_t single(std::int32_t kind);
    std::int32_t joined_set(std::int32_t a, std::int32_t b);
    Block block(std::int32_t x, std::int32_t y, std::size_t entry) const;
    bool over() const;

    const Instance& instance_;
    const Grid& grid_;
    std::vector<std::int64_t> values_;
    Meter& meter_;
    GuillotineTable<double> table_;
    std::vector<Length> least_height_; ///< of an item within each width
    std::vector<std::int64_t>
        may_lack_; ///< greatest useful deficit of each rectangle; below 0: useless
    std::unordered_map<std::size_t, Entries> entries_; ///< of each useful rectangle
    std::map<Counts, std::int32_t> numbers_;
    std::vector<const Counts*> sets_;
    std::unordered_map<std::uint64_t, std::int32_t> joined_;
    std::vector<std::pair<std::int32_t, std::int32_t>> corners_; ///< of each sheet
    std::vector<std::int64_t> least_; ///< of each sheet, at the last list
    std::int64_t end_ = 0;
    std::size_t most_entries_ = 0;
    std::size_t count_ = 0; ///< entries so far
    bool exact_ = false;
};

} // namespace barrow::layout
