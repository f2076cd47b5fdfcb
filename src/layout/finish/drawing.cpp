#include "layout/finish/drawing.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

Thrift sum(const Thrift& a, const Thrift& b) {
    return {a.remnants + b.remnants, a.cuts + b.cuts};
}

Measure along(const Rectangle& r, Along axis) {
    return axis == Along::x ? r.width : r.height;
}

/// The first `size` of the place along the axis.
Rectangle low_part(Rectangle place, Along axis, Measure size) {
    (axis == Along::x ? place.width : place.height) = size;
    return place;
}

/// What lies beyond the first `size` and the kerf; its size is zero or less when nothing does.
Rectangle high_part(Rectangle place, Along axis, Measure size, Measure kerf) {
    if (axis == Along::x) {
        place.x += size + kerf;
        place.width -= size + kerf;
    } else {
        place.y += size + kerf;
        place.height -= size + kerf;
    }
    return place;
}

Part whole(const Rectangle& place) {
    Part part;
    part.place = place;
    return part;
}

} // namespace

bool better(const Thrift& left, const Thrift& right) {
    if (left.remnants != right.remnants) return left.remnants > right.remnants;
    return left.cuts < right.cuts;
}

bool useful_size(const Job& job, Measure width, Measure height) {
    if (width <= 0 || height <= 0) return false;
    if (job.one_dimensional) return width >= job.useful.longer;
    return std::min(width, height) >= job.useful.shorter
           && std::max(width, height) >= job.useful.longer;
}

Measure Drawing::true_size(const Block& block, Along axis) const {
    return axis == Along::x ? instance_.true_width(block.width)
                            : instance_.true_height(block.height);
}

Measure Drawing::kerf(Along axis) const {
    return axis == Along::x ? instance_.kerf_x : instance_.kerf_y;
}

/// A strip of waste and the cut that removes it.
Thrift Drawing::waste(Measure width, Measure height) const {
    if (!useful_size(job_, width, height)) return {0, 1};
    const base::Wide area = base::Wide(width) * height;
    return {area * area, 1};
}

Drawing::Choice Drawing::choose_leaf(const Block& block, Measure width, Measure height) const {
    const Measure w = true_size(block, Along::x);
    const Measure h = true_size(block, Along::y);
    if (w == width && h == height) return {};
    if (h == height) return {waste(width - w - kerf(Along::x), height), Trim::along_first};
    if (w == width) return {waste(width, height - h - kerf(Along::y)), Trim::cross_first};
    const Thrift x_first =
        sum(waste(width - w - kerf(Along::x), height), waste(w, height - h - kerf(Along::y)));
    const Thrift y_first =
        sum(waste(width, height - h - kerf(Along::y)), waste(width - w - kerf(Along::x), h));
    if (better(y_first, x_first)) return {y_first, Trim::cross_first};
    return {x_first, Trim::along_first};
}

/// The children side by side, each as high as the row, and the waste at its end.
Thrift Drawing::row(const Block& block, Measure width, Measure height) {
    const bool x = block.axis == Along::x;
    const Measure size = x ? width : height;
    Thrift total;
    Measure used = 0;
    for (const Block& child : block.children) {
        const Measure part = true_size(child, block.axis);
        total =
            sum(total, x ? choose(child, part, height).thrift : choose(child, width, part).thrift);
        used += part + kerf(block.axis);
    }
    total.cuts += static_cast<std::int64_t>(block.children.size()) - 1;
    if (used - kerf(block.axis) == size) return total;
    return sum(total, x ? waste(width - used, height) : waste(width, height - used));
}

Drawing::Choice Drawing::choose(const Block& block, Measure width, Measure height) {
    if (block.leaf()) return choose_leaf(block, width, height);
    const Key key(&block, width, height);
    const auto known = chosen_.find(key);
    if (known != chosen_.end()) return known->second;
    const Choice choice = choose_node(block, width, height);
    chosen_.emplace(key, choice);
    return choice;
}

Drawing::Choice Drawing::choose_node(const Block& block, Measure width, Measure height) {
    const bool x = block.axis == Along::x;
    const Along cross = other(block.axis);
    const Measure size = x ? width : height;
    const Measure depth = x ? height : width;
    const Measure content = true_size(block, block.axis);
    const Measure high = true_size(block, cross);
    Choice best{row(block, width, height), Trim::none};
    if (depth == high) return best;
    const auto strip = [&](Measure length, Measure thickness) { // thickness across the row
        const Measure rest = thickness - kerf(cross);
        return x ? waste(length, rest) : waste(rest, length);
    };
    const Thrift cross_first =
        sum(strip(size, depth - high), x ? row(block, width, high) : row(block, high, height));
    if (better(cross_first, best.thrift)) best = {cross_first, Trim::cross_first};
    if (content == size) return best;
    const Measure rest = size - content - kerf(block.axis);
    const Thrift along_first =
        sum(sum(x ? waste(rest, depth) : waste(depth, rest), strip(content, depth - high)),
            x ? row(block, content, high) : row(block, high, content));
    if (better(along_first, best.thrift)) best = {along_first, Trim::along_first};
    return best;
}

void Drawing::draw_row(const Block& block, Part& part) {
    part.axis = block.axis;
    Rectangle rest = part.place;
    for (const Block& child : block.children) {
        const Measure size = true_size(child, block.axis);
        part.parts.push_back(draw(child, low_part(rest, block.axis, size)));
        if (along(rest, block.axis) == size) return;
        rest = high_part(rest, block.axis, size, kerf(block.axis));
    }
    // Kept even when the kerf takes all of it: the cut before it must still be made.
    part.parts.push_back(whole(rest));
}

Part Drawing::draw(const Block& block, const Rectangle& place) {
    const Choice choice = choose(block, place.width, place.height);
    Part part = whole(place);
    if (choice.trim == Trim::none) {
        if (block.leaf()) {
            part.item = block.item;
            part.turned = block.turned;
        } else {
            draw_row(block, part);
        }
        return part;
    }
    const Along along_axis = block.leaf() ? Along::x : block.axis;
    part.axis = choice.trim == Trim::along_first ? along_axis : other(along_axis);
    const Measure size = true_size(block, part.axis);
    part.parts.push_back(draw(block, low_part(place, part.axis, size)));
    part.parts.push_back(whole(high_part(place, part.axis, size, kerf(part.axis))));
    return part;
}

} // namespace barrow::layout
