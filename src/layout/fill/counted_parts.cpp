#include "layout/fill/counted_parts.hpp"

#include "base/wide.hpp"
#include "layout/model/densest.hpp"

#include <algorithm>
#include <bit>
#include <utility>

namespace barrow::layout {
/// Mixes both halves of the number by two odd constants.
std::uint64_t PackedCounts::key(Packed counts) {
    const auto low = static_cast<std::uint64_t>(counts);
    const auto high = static_cast<std::uint64_t>(counts >> 64);
    return (low * 0x9E3779B97F4A7C15U) ^ std::rotl(high * 0xC2B2AE3D27D4EB4FU, 31);
}

std::optional<PackedCounts> PackedCounts::of(const Instance& instance) {
    PackedCounts packed;
    int bits = 0;
    const std::int64_t area = instance.sheets.front().area();
    for (const Item& item : instance.items) {
        const auto most = static_cast<std::uint64_t>(std::min(item.demand, area / item.area()));
        const auto width = static_cast<int>(std::bit_width(most)) + 1;
        if (bits + width > 128) return std::nullopt;
        packed.shifts_.push_back(bits);
        const Packed guard = Packed(1) << (bits + width - 1);
        packed.guards_ |= guard;
        packed.limits_ |= guard | (Packed(most) << bits);
        bits += width;
    }
    return packed;
}

bool CountedParts::suits(const Instance& instance) {
    if (instance.items.empty()) return false;
    const Item& item = densest(instance);
    return item.value > 0
           && base::Wide(item.value) * instance.sheets.front().area() < INT64_MAX / 4;
}

CountedParts::CountedParts(const Instance& instance, const PackedCounts& counts)
    : instance_(instance), counts_(counts), sheet_(instance.sheets.front()),
      value_(densest(instance).value), area_(densest(instance).area()) {}

CountedParts::Shelf::const_iterator CountedParts::from(const Shelf& shelf, Length across) {
    return std::lower_bound(shelf.begin(), shelf.end(), across,
                            [](const Line& line, Length length) { return line.across < length; });
}

void CountedParts::put(Shelf& shelf, Length across, const Entry& entry) {
    auto line = shelf.begin() + (from(shelf, across) - shelf.cbegin());
    if (line == shelf.end() || line->across != across) line = shelf.insert(line, {across, {}});
    const auto place =
        std::upper_bound(line->entries.begin(), line->entries.end(), entry,
                         [](const Entry& a, const Entry& b) { return a.waste < b.waste; });
    line->entries.insert(place, entry);
}

/// Unless another part has the same items in less room.
void CountedParts::add(const Part& part) {
    std::vector<std::int32_t>& alike = alike_[PackedCounts::key(part.counts)];
    steps_ += 20;
    for (const std::int32_t index : alike) {
        const Part& other = this->part(index);
        if (other.counts == part.counts && other.width <= part.width && other.height <= part.height)
            return;
    }
    std::erase_if(alike, [&](std::int32_t index) {
        Part& other = parts_[static_cast<std::size_t>(index)];
        if (other.counts != part.counts || other.width < part.width || other.height < part.height)
            return false;
        other.alive = false;
        return true;
    });
    const auto index = static_cast<std::int32_t>(parts_.size());
    alike.push_back(index);
    parts_.push_back(part);
    waiting_.emplace(part.value, index);
    steps_ += 300;
}

void CountedParts::lay_items() {
    least_width_ = sheet_.width;
    least_height_ = sheet_.height;
    for (std::size_t i = 0; i < instance_.items.size(); ++i)
        for (const bool turned : {false, true}) {
            const Item& item = instance_.items[i];
            if (item.value == 0 || (turned && !item.turns)) continue;
            Part part;
            part.width = turned ? item.height : item.width;
            part.height = turned ? item.width : item.height;
            if (part.width > sheet_.width || part.height > sheet_.height) continue;
            least_width_ = std::min(least_width_, part.width);
            least_height_ = std::min(least_height_, part.height);
            part.counts = counts_.one(i);
            part.value = item.value;
            part.waste = waste(item.area(), item.value);
            part.item = static_cast<std::int32_t>(i);
            part.turned = turned;
            if (part.waste <= each_) add(part);
        }
}

void CountedParts::join(std::int32_t first, const std::vector<Entry>& others, std::int64_t allowed,
                        Along axis) {
    const bool x = axis == Along::x;
    const Packed own = part(first).counts;
    const Length room = x ? sheet_.width - part(first).width : sheet_.height - part(first).height;
    for (const Entry& entry : others) {
        ++steps_;
        if (entry.waste > allowed) break;
        if (entry.length > room || !counts_.allowed(own + entry.counts)) continue;
        const Part& one = part(first);
        const Part& two = part(entry.part);
        if (!two.alive) continue;
        Part both;
        both.width = x ? one.width + two.width : std::max(one.width, two.width);
        both.height = x ? std::max(one.height, two.height) : one.height + two.height;
        both.counts = own + entry.counts;
        both.value = one.value + two.value;
        both.waste = waste(std::int64_t{both.width} * both.height, both.value);
        both.first = first;
        both.second = entry.part;
        both.axis = axis;
        if (both.waste <= each_) add(both);
    }
}

/// Joins the part with all of about the same height (or width): a lower one wastes the difference
/// along its whole width, which is at least that of the narrowest item.
void CountedParts::join_all(std::int32_t index, Along axis) {
    const bool x = axis == Along::x;
    const Shelf& shelf = x ? by_height_ : by_width_;
    const Part one = part(index);
    const Length across = x ? one.height : one.width;
    const std::int64_t allowed = each_ - one.waste;
    const std::int64_t longer = value_ * (x ? one.width : one.height);
    for (auto line = from(shelf, across); line != shelf.end(); ++line) {
        const std::int64_t lost = longer * (line->across - across);
        steps_ += 4;
        if (lost > allowed) break;
        join(index, line->entries, allowed - lost, axis);
    }
    const std::int64_t least = value_ * (x ? least_width_ : least_height_);
    for (auto line = from(shelf, across); line != shelf.begin();) {
        --line;
        const std::int64_t lost = least * (across - line->across);
        steps_ += 4;
        if (lost > allowed) break;
        join(index, line->entries, allowed - lost, axis);
    }
}

bool CountedParts::find(std::int64_t share, std::size_t most, std::int64_t steps, Meter& meter) {
    each_ = value_ * sheet_.area() / share;
    parts_.clear();
    waiting_.clear();
    alike_.clear();
    by_height_.clear();
    by_width_.clear();
    steps_ = 0;
    lay_items();
    std::int64_t spent = 0;
    while (!waiting_.empty()) {
        const std::int32_t index = waiting_.begin()->second;
        waiting_.erase(waiting_.begin());
        const Part& here = part(index);
        if (!here.alive) continue;
        put(by_height_, here.height, {here.counts, here.waste, here.width, index});
        put(by_width_, here.width, {here.counts, here.waste, here.height, index});
        steps_ += 500;
        join_all(index, Along::x);
        join_all(index, Along::y);
        spent += steps_;
        meter.spend(std::exchange(steps_, 0));
        if (spent > steps || parts_.size() > most || meter.over()) return false;
    }
    return true;
}

Block CountedParts::block(std::int32_t index) const {
    const Part& here = part(index);
    if (here.item >= 0) return leaf_of(instance_, here.item, here.turned);
    return joined(here.axis, block(here.first), block(here.second));
}

} // namespace barrow::layout
