#pragma once

#include "layout/effort/meter.hpp"
#include "layout/tree/block.hpp"

#include <cstdint>
#include <unordered_map>
#include <vector>

namespace barrow::layout {

/// Counts of kinds as digits of one number.
__extension__ typedef unsigned __int128 SetKey;

struct SetKeyHash {
    std::size_t operator()(SetKey key) const {
        const auto low = static_cast<std::uint64_t>(key);
        const auto high = static_cast<std::uint64_t>(key >> 64);
        const std::uint64_t mixed = (low ^ (high * 0x9E3779B97F4A7C15U)) * 0xD6E8FEB86659FD93U;
        return static_cast<std::size_t>(mixed ^ (mixed >> 32));
    }
};

/// All sets of items (with repetition, within the demand) that fit some sheet, and for each the
/// shapes of all blocks of it that are not larger than another both ways. Exact: every guillotine
/// cut tree is two blocks side by side or one above the other. Only for few items, or where few fit
/// on a sheet; gives up otherwise.
class SetShapes {
public:
    struct Shape {
        Length width = 0;
        Length height = 0;
        std::int32_t first = -1; ///< a set; -1 for a single item
        std::int32_t first_shape = 0;
        std::int32_t second = -1;
        std::int32_t second_shape = 0;
        Along axis = Along::x;
        bool turned = false;
    };
    struct Set {
        SetKey key = 0;        ///< counts of the kinds as digits of one number
        std::int32_t size = 0; ///< items in it
        std::vector<Shape> shapes;
    };

    explicit SetShapes(const Instance& instance);

    /// Leaves out shapes that waste more than this inside: for answers whose sheets have hardly
    /// more area than is wanted, since a part never wastes more than the whole.
    void waste_at_most(std::int64_t slack) { slack_ = slack; }

    /// Rough number of sets whose area fits the largest sheet. Where all were listed, a third to a
    /// half of them could be cut.
    double sets_by_area() const;

    /// False when it takes more steps or sets than this.
    bool enumerate(std::int64_t steps, std::size_t most_sets, Meter& meter);

    /// Small sets first; the empty set is not among them.
    const std::vector<Set>& sets() const { return sets_; }
    std::int64_t count(const Set& set, std::size_t kind) const {
        return static_cast<std::int64_t>(set.key / unit_[kind] % base_[kind]);
    }
    SetKey unit(std::size_t kind) const { return unit_[kind]; }
    SetKey base(std::size_t kind) const { return base_[kind]; }
    /// Index of the set with this key, or -1 when it cannot be cut.
    std::int32_t find(SetKey key) const;
    /// Index of a shape of the set that the sheet holds, or -1.
    std::int32_t shape_on(const Set& set, const Sheet& sheet) const;
    Block block(std::int32_t set, std::int32_t shape) const;

private:
    bool grow(std::int32_t size);
    bool build(SetKey key, std::int32_t size);
    void split(Set& set, std::size_t position, SetKey part);
    void join(Set& set, std::int32_t first, std::int32_t second);
    void add(Set& set, const Shape& shape) const;
    bool holds(Length width, Length height) const;
    bool wasteful(const Shape& shape) const;

    const Instance& instance_;
    /// Sizes of the sheets without those that lie within another. (Offcuts are many.)
    std::vector<std::pair<Length, Length>> outlines_;
    std::vector<SetKey> unit_;
    std::vector<SetKey> base_;
    bool fits_key_ = true;
    std::vector<Set> sets_;
    std::vector<SetKey> wave_; ///< the largest sets so far, including those that waste too much
    std::unordered_map<SetKey, std::int32_t, SetKeyHash> index_;
    std::vector<std::pair<SetKey, std::int64_t>> digits_; ///< of the set being split
    std::int64_t slack_ = INT64_MAX;
    std::int64_t area_ = 0; ///< of the set being split
    std::int64_t steps_left_ = 0;
    std::size_t most_sets_ = 0;
};

} // namespace barrow::layout
