#pragma once

#include "base/wide.hpp"
#include "layout/search/construct.hpp"
#include "layout/search/meter.hpp"
#include "layout/tree/slicing_tree.hpp"

#include <cstdint>
#include <unordered_set>
#include <vector>

namespace barrow::layout {

/// Well filled sheets that searches have come across, each once: what one of them saw may fit
/// together with what another saw.
class PatternPool {
public:
    struct Entry {
        std::size_t sheet = 0;
        std::vector<std::pair<std::size_t, std::int64_t>> counts; ///< kind of item, how many
        Block block;
    };

    explicit PatternPool(const Instance& instance);

    /// Keeps a sheet so filled, unless it is known, the pool is full, or it costs much more for
    /// its content than the sheets of an answer of this cost do on average. Answers the steps it
    /// took (see Meter).
    std::int64_t add(std::size_t sheet, const SlicingTree& tree, Cost cost);

    /// A pattern, whatever it costs.
    void add(std::size_t sheet, const Block& block);
    /// All sheets of a complete answer, likewise.
    void add(const Solution& solution);

    const std::vector<Entry>& entries() const { return entries_; }

    /// Forgets all others, for good. Indices of entries, each once.
    void keep_only(const std::vector<std::size_t>& entries);

private:
    std::int64_t keep(std::size_t sheet, const SlicingTree& tree);

    const Instance& instance_;
    base::Wide area_wanted_ = 0;
    std::vector<Entry> entries_;
    std::unordered_set<std::uint64_t> known_; ///< by a hash: one taken for another does no harm
};

} // namespace barrow::layout
