#include "layout/sets/set_shapes.hpp"

#include <algorithm>

namespace barrow::layout {

SetShapes::SetShapes(const Instance& instance) : instance_(instance) {
    for (const Sheet& sheet : instance.sheets) {
        if (holds(sheet.width, sheet.height)) continue;
        outlines_.erase(std::remove_if(outlines_.begin(), outlines_.end(),
                                       [&](const std::pair<Length, Length>& other) {
                                           return other.first <= sheet.width
                                                  && other.second <= sheet.height;
                                       }),
                        outlines_.end());
        outlines_.emplace_back(sheet.width, sheet.height);
    }
    SetKey unit = 1;
    for (const Item& item : instance.items) {
        unit_.push_back(unit);
        base_.push_back(static_cast<SetKey>(item.demand) + 1);
        if (base_.back() > (SetKey(1) << 126) / unit) {
            fits_key_ = false;
            return;
        }
        unit *= base_.back();
    }
}

std::int32_t SetShapes::find(SetKey key) const {
    const auto found = index_.find(key);
    return found == index_.end() ? -1 : found->second;
}

std::int32_t SetShapes::shape_on(const Set& set, const Sheet& sheet) const {
    for (std::size_t i = 0; i < set.shapes.size(); ++i)
        if (set.shapes[i].width <= sheet.width && set.shapes[i].height <= sheet.height)
            return static_cast<std::int32_t>(i);
    return -1;
}

/// Whether any sheet does.
bool SetShapes::holds(Length width, Length height) const {
    return std::any_of(outlines_.begin(), outlines_.end(),
                       [&](const std::pair<Length, Length>& outline) {
                           return width <= outline.first && height <= outline.second;
                       });
}

void SetShapes::add(Set& set, const Shape& shape) const {
    if (!holds(shape.width, shape.height) || wasteful(shape)) return;
    for (const Shape& other : set.shapes)
        if (other.width <= shape.width && other.height <= shape.height) return;
    set.shapes.erase(std::remove_if(set.shapes.begin(), set.shapes.end(),
                                    [&](const Shape& other) {
                                        return shape.width <= other.width
                                               && shape.height <= other.height;
                                    }),
                     set.shapes.end());
    set.shapes.push_back(shape);
}

bool SetShapes::wasteful(const Shape& shape) const {
    return std::int64_t{shape.width} * shape.height - area_ > slack_;
}

void SetShapes::join(Set& set, std::int32_t first, std::int32_t second) {
    const std::vector<Shape>& left = sets_[static_cast<std::size_t>(first)].shapes;
    const std::vector<Shape>& right = sets_[static_cast<std::size_t>(second)].shapes;
    steps_left_ -= 10 * static_cast<std::int64_t>(left.size() * right.size());
    for (std::size_t i = 0; i < left.size(); ++i)
        for (std::size_t j = 0; j < right.size(); ++j) {
            Shape shape{left[i].width + right[j].width,
                        std::max(left[i].height, right[j].height),
                        first,
                        static_cast<std::int32_t>(i),
                        second,
                        static_cast<std::int32_t>(j),
                        Along::x,
                        false};
            add(set, shape);
            shape.width = std::max(left[i].width, right[j].width);
            shape.height = left[i].height + right[j].height;
            shape.axis = Along::y;
            add(set, shape);
        }
    // Each shape was compared with those already there and with the outlines of the sheets.
    steps_left_ -= 2
                   * static_cast<std::int64_t>(left.size() * right.size()
                                               * (set.shapes.size() + outlines_.size() - 1));
}

/// Tries every way to split the set in two; `part` holds the digits chosen so far.
void SetShapes::split(Set& set, std::size_t position, SetKey part) {
    if (steps_left_ < 0) return;
    if (position < digits_.size()) {
        for (std::int64_t n = 0; n <= digits_[position].second; ++n)
            split(set, position + 1, part + digits_[position].first * static_cast<SetKey>(n));
        return;
    }
    steps_left_ -= 20;
    const SetKey rest = set.key - part;
    if (part == 0 || part > rest) return;
    const std::int32_t first = find(part);
    if (first < 0) return;
    const std::int32_t second = part == rest ? first : find(rest);
    if (second >= 0) join(set, first, second);
}

bool SetShapes::build(SetKey key, std::int32_t size) {
    Set set{key, size, {}};
    if (slack_ != INT64_MAX) steps_left_ -= 20;
    digits_.clear();
    std::int64_t area = 0;
    for (std::size_t kind = 0; kind < unit_.size(); ++kind) {
        const std::int64_t n = count(set, kind);
        if (n > 0) digits_.emplace_back(unit_[kind], n);
        area += n * instance_.items[kind].area();
    }
    area_ = area;
    const bool too_large = std::none_of(instance_.sheets.begin(), instance_.sheets.end(),
                                        [&](const Sheet& sheet) { return sheet.area() >= area; });
    if (too_large) return true;
    split(set, 0, 0);
    // A set that wastes too much by itself may be part of one that wastes little.
    if (set.shapes.empty() && slack_ == INT64_MAX) return steps_left_ >= 0;
    wave_.push_back(key);
    if (!set.shapes.empty()) {
        index_.emplace(key, static_cast<std::int32_t>(sets_.size()));
        sets_.push_back(std::move(set));
    }
    return steps_left_ >= 0 && sets_.size() <= most_sets_ && wave_.size() <= 10 * most_sets_;
}

/// Sets with one item more than those of the wave, each reached once: the added item is of no
/// earlier kind than any in the set.
bool SetShapes::grow(std::int32_t size) {
    const std::vector<SetKey> before = std::move(wave_);
    wave_.clear();
    for (const SetKey key : before) {
        std::size_t last = unit_.size() - 1;
        while (key / unit_[last] % base_[last] == 0) --last;
        for (std::size_t kind = last; kind < unit_.size(); ++kind) {
            if (key / unit_[kind] % base_[kind] + 1 == base_[kind]) continue;
            if (!build(key + unit_[kind], size)) return false;
        }
    }
    return true;
}

double SetShapes::sets_by_area() const {
    constexpr std::int64_t shares = 1024; // of the largest sheet
    std::int64_t sheet = 0;
    for (const Sheet& s : instance_.sheets) sheet = std::max(sheet, s.area());
    std::vector<double> ways(shares + 1, 0.0); // sets of the kinds so far, by shares they fill
    ways[0] = 1;
    for (const Item& item : instance_.items) {
        const auto size =
            static_cast<std::size_t>(std::max<std::int64_t>(1, item.area() * shares / sheet));
        const auto all = static_cast<std::size_t>(std::min(item.demand, shares) + 1) * size;
        const std::vector<double> before = ways;
        for (std::size_t share = size; share < ways.size(); ++share)
            ways[share] += ways[share - size] - (share >= all ? before[share - all] : 0);
    }
    double sum = 0;
    for (const double n : ways) sum += n;
    return sum;
}

bool SetShapes::enumerate(std::int64_t steps, std::size_t most_sets, Meter& meter) {
    meter.spend(static_cast<std::int64_t>(instance_.items.size()) * 3'000);
    const double hopeless = slack_ == INT64_MAX ? 3.0 : 100.0; // times the sets allowed
    if (!fits_key_ || sets_by_area() > hopeless * static_cast<double>(most_sets)) return false;
    steps_left_ = steps;
    most_sets_ = most_sets;
    for (std::size_t kind = 0; kind < unit_.size(); ++kind) {
        const Item& item = instance_.items[kind];
        Set set{unit_[kind], 1, {}};
        area_ = item.area();
        add(set, {item.width, item.height, -1, 0, -1, 0, Along::x, false});
        if (item.turns) add(set, {item.height, item.width, -1, 0, -1, 0, Along::x, true});
        wave_.push_back(set.key);
        index_.emplace(set.key, static_cast<std::int32_t>(sets_.size()));
        sets_.push_back(std::move(set));
    }
    bool complete = true;
    for (std::int32_t size = 2; complete && !wave_.empty(); ++size) {
        const std::int64_t before = steps_left_;
        complete = grow(size);
        meter.spend(before - steps_left_);
        if (meter.over()) return false;
    }
    return complete;
}

Block SetShapes::block(std::int32_t set, std::int32_t shape) const {
    const Set& from = sets_[static_cast<std::size_t>(set)];
    const Shape& how = from.shapes[static_cast<std::size_t>(shape)];
    if (how.first >= 0)
        return joined(how.axis, block(how.first, how.first_shape),
                      block(how.second, how.second_shape));
    std::size_t kind = 0;
    while (count(from, kind) == 0) ++kind;
    return leaf_of(instance_, static_cast<std::int32_t>(kind), how.turned);
}

} // namespace barrow::layout
