#include "layout/fill/label_set.hpp"

#include <algorithm>
#include <utility>

namespace barrow::layout {
namespace {

constexpr std::size_t least_slots = 16; // a power of two, as all numbers of slots

} // namespace

/// The slot of these counts, or the one they would take.
std::size_t LabelSet::slot_of(Packed counts) const {
    const std::uint64_t key = PackedCounts::key(counts) * 0xD6E8FEB86659FD93U;
    std::size_t slot = (key >> 32) & (slots_.size() - 1);
    while (slots_[slot] >= 0 && labels_[static_cast<std::size_t>(slots_[slot])].counts != counts)
        slot = (slot + 1) & (slots_.size() - 1);
    return slot;
}

void LabelSet::grow() {
    slots_.assign(std::max(least_slots, 2 * slots_.size()), -1);
    for (std::size_t i = 0; i < labels_.size(); ++i)
        slots_[slot_of(labels_[i].counts)] = static_cast<std::int32_t>(i);
    steps_ += 4 * static_cast<std::int64_t>(slots_.size());
}

void LabelSet::add(const Label& label) {
    if (2 * labels_.size() >= slots_.size()) grow();
    steps_ += 10;
    std::int32_t& slot = slots_[slot_of(label.counts)];
    if (slot < 0) {
        slot = static_cast<std::int32_t>(labels_.size());
        labels_.push_back(label);
    } else if (Label& known = labels_[static_cast<std::size_t>(slot)]; known.worth < label.worth) {
        known = label;
    }
}

std::vector<Label> LabelSet::take_best(Packed guards) {
    std::vector<Label> best;
    // Fewer of each kind is less as a number too: no label dominates one before it.
    std::sort(labels_.begin(), labels_.end(), [](const Label& a, const Label& b) {
        return a.worth != b.worth ? a.worth > b.worth : a.counts < b.counts;
    });
    kept_.clear();
    for (const Label& label : labels_) {
        const Packed counts = label.counts | guards;
        const bool worse = std::any_of(kept_.begin(), kept_.end(), [&](Packed other) {
            return ((counts - other) & guards) == guards;
        });
        steps_ += static_cast<std::int64_t>(kept_.size()) + 20;
        if (worse) continue;
        kept_.push_back(label.counts);
        best.push_back(label);
    }
    std::stable_sort(best.begin(), best.end(),
                     [](const Label& a, const Label& b) { return a.reduced > b.reduced; });
    best.shrink_to_fit(); // kept for long
    labels_.clear();
    slots_.clear();
    return best;
}

std::int64_t LabelSet::steps() {
    return std::exchange(steps_, 0);
}

} // namespace barrow::layout
