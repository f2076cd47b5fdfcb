#pragma once

#include "base/wide.hpp"
#include "layout/plan.hpp"
#include "layout/tree/block.hpp"

#include <map>
#include <tuple>
#include <vector>

namespace barrow::layout {

/// A part of a sheet in true measures: whole (a piece or waste), or divided into parts side by side
/// along the axis, from the low edge up.
struct Part {
    Rectangle place;
    std::int32_t item = -1; ///< kind of item when this part is a piece
    bool turned = false;
    Along axis = Along::x; ///< of a divided part
    std::vector<Part> parts;
};

/// How useful the remnants of a sheet are (more is better), then how few cuts it takes. Remnants
/// below Job::useful count nothing; the others count the square of their area, so that one large
/// rectangle is worth more than the same area in several.
struct Thrift {
    base::Wide remnants = 0;
    std::int64_t cuts = 0;
    friend bool operator==(const Thrift&, const Thrift&) = default;
};

/// True when left is better.
bool better(const Thrift& left, const Thrift& right);

bool useful_size(const Job& job, Measure width, Measure height);

/// Puts a block on a sheet, in its lower left corner, and decides for every part how it is trimmed
/// (the whole strip beyond the content at once, or strip by strip) so that Thrift is best. `job`
/// and the measures of the drawing are those of the instance's job. Block and job must outlive the
/// drawing.
class Drawing {
public:
    Drawing(const Job& job, const Instance& instance, const Block& block)
        : job_(job), instance_(instance), block_(block) {}

    Thrift thrift(Measure width, Measure height) { return choose(block_, width, height).thrift; }
    Part draw(const Rectangle& place) { return draw(block_, place); }

private:
    enum class Trim { none, cross_first, along_first };
    struct Choice {
        Thrift thrift;
        Trim trim = Trim::none;
    };
    using Key = std::tuple<const Block*, Measure, Measure>;

    Choice choose(const Block& block, Measure width, Measure height);
    Choice choose_leaf(const Block& block, Measure width, Measure height) const;
    Choice choose_node(const Block& block, Measure width, Measure height);
    Thrift waste(Measure width, Measure height) const;
    Thrift row(const Block& block, Measure width, Measure height);
    Part draw(const Block& block, const Rectangle& place);
    void draw_row(const Block& block, Part& part);
    Measure true_size(const Block& block, Along axis) const;
    Measure kerf(Along axis) const;

    const Job& job_;
    const Instance& instance_;
    const Block& block_;
    std::map<Key, Choice> chosen_; ///< a part of a block occurs often, in few sizes
};

} // namespace barrow::layout
