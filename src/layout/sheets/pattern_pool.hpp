#pragma once

#include "base/wide.hpp"
#include "layout/effort/meter.hpp"
#include "layout/tree/slicing_tree.hpp"
#include "layout/tree/solution.hpp"

#include <cstdint>
#include <unordered_set>
#include <vector>

namespace barrow::layout {

/// Well filled sheets met by searches, each once: sheets from different searches may go together
/// well.
class PatternPool {
public:
    struct Entry {
        std::size_t sheet = 0;
        std::vector<std::pair<std::size_t, std::int64_t>> counts; ///< kind of item, how many
        Block block;
    };

    explicit PatternPool(const Instance& instance);

    /// Keeps this filling of a sheet, unless it is known, the pool is full, or it costs much more
    /// for its content than the sheets of an answer of this cost do on average. Returns the steps
    /// it took (see Meter).
    std::int64_t add(std::size_t sheet, const SlicingTree& tree, Cost cost);

    /// Keeps a pattern, whatever it costs.
    void add(std::size_t sheet, const Block& block);
    /// Keeps all sheets of a complete answer.
    void add(const Solution& solution);

    const std::vector<Entry>& entries() const { return entries_; }

    /// Drops all entries but these indices, each given once, for good.
    void keep_only(const std::vector<std::size_t>& entries);

private:
    std::int64_t keep(std::size_t sheet, const SlicingTree& tree);

    const Instance& instance_;
    base::Wide area_wanted_ = 0;
    std::vector<Entry> entries_;
    std::unordered_set<std::uint64_t> known_; ///< hashes: a collision only loses a pattern
};

} // namespace barrow::layout
