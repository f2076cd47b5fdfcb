#pragma once

#include "layout/search/meter.hpp"
#include "layout/tree/block.hpp"

#include <cstdint>
#include <unordered_map>
#include <vector>

namespace barrow::layout {

/// All sets of items (with repetition, within the demand) that can be cut from some sheet, and
/// for each the shapes of all blocks holding it of which none is larger than another both ways.
/// Exact: every guillotine cut tree is two blocks side by side or one above the other. Only for
/// few items, or where few fit a sheet together; gives up otherwise.
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
        std::uint64_t key = 0; ///< counts of the kinds as digits of one number
        std::int32_t size = 0; ///< items in it
        std::vector<Shape> shapes;
    };

    explicit SetShapes(const Instance& instance);

    /// False when more than so many steps or sets would be needed.
    bool enumerate(std::int64_t steps, std::size_t most_sets, Meter& meter);

    /// Small sets first; the empty set is not among them.
    const std::vector<Set>& sets() const { return sets_; }
    std::int64_t count(const Set& set, std::size_t kind) const {
        return static_cast<std::int64_t>(set.key / unit_[kind] % base_[kind]);
    }
    std::uint64_t unit(std::size_t kind) const { return unit_[kind]; }
    /// Index of the set with this key, or -1 when it cannot be cut.
    std::int32_t find(std::uint64_t key) const;
    /// Index of a shape of the set that the sheet holds, or -1.
    std::int32_t shape_on(const Set& set, const Sheet& sheet) const;
    Block block(std::int32_t set, std::int32_t shape) const;

private:
    bool grow(std::size_t from, std::size_t to);
    bool build(std::uint64_t key, std::int32_t size);
    void split(Set& set, std::size_t position, std::uint64_t part);
    void join(Set& set, std::int32_t first, std::int32_t second);
    void add(Set& set, const Shape& shape) const;

    const Instance& instance_;
    std::vector<std::uint64_t> unit_;
    std::vector<std::uint64_t> base_;
    bool fits_64_bits_ = true;
    std::vector<Set> sets_;
    std::unordered_map<std::uint64_t, std::int32_t> index_;
    std::vector<std::pair<std::uint64_t, std::int64_t>> digits_; ///< of the set being split
    std::int64_t steps_left_ = 0;
    std::size_t most_sets_ = 0;
};

} // namespace barrow::layout
