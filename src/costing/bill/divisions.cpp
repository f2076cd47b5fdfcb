#include "costing/bill/divisions.hpp"

#include <algorithm>
#include <optional>

namespace barrow::costing {
namespace {

using base::Length;
using design::WorkedJoins;

/// More places than this are not tried in all their combinations.
constexpr std::size_t tried_in_full = 4;
/// Places to join a part anywhere are taken from so many widths, and are so many at most.
constexpr std::size_t widths_weighed = 4;
constexpr std::size_t most_places = 12;

void add_place(std::vector<Length>& places, Length width, Length at) {
    if (at > Length() && at < width) places.push_back(at);
}

void tidy(std::vector<Length>& places) {
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end()), places.end());
}

/// Off the faces no join may show on, towards the left and towards the right.
std::vector<Length> moved_off(const WorkedJoins& joins, const std::vector<Length>& places) {
    std::vector<Length> moved;
    for (const Length at : places) {
        const auto face = std::find_if(joins.never.begin(), joins.never.end(),
                                       [at](const auto& f) { return at > f.from && at < f.to; });
        if (face == joins.never.end()) {
            moved.push_back(at);
        } else {
            moved.push_back(face->from);
            moved.push_back(face->to);
        }
    }
    return moved;
}

/// Pieces of `width`, one after the other, each but the last reaching `overlap` under the next.
void add_rows(std::vector<Length>& places, Length whole, Length width, Length overlap) {
    if (width <= overlap) return;
    const Length step = width - overlap;
    for (Length at = step; at < whole && places.size() < most_places; at = at + step) {
        add_place(places, whole, at);
        add_place(places, whole, whole - at - overlap); // the same from the right
        add_place(places, whole, whole - width);
    }
}

std::vector<Length> places_anywhere(const design::WorkedPart& part,
                                    const std::vector<Length>& widths) {
    const Length overlap = part.joining.overlap;
    std::vector<Length> places;
    for (std::size_t i = 0; i < std::min(widths.size(), widths_weighed); ++i)
        add_rows(places, part.width, widths[i], overlap);
    if (!widths.empty() && widths.front() > overlap) {
        const std::int64_t room = (widths.front() - overlap).units();
        const std::int64_t pieces =
            std::max<std::int64_t>(2, ((part.width - overlap).units() + room - 1) / room);
        for (std::int64_t i = 1; i < pieces; ++i)
            add_place(places, part.width, Length::of_units(part.width.units() / pieces * i));
    }
    places = moved_off(part.joining, places);
    places.erase(std::remove_if(places.begin(), places.end(),
                                [&](Length at) { return at <= Length() || at >= part.width; }),
                 places.end());
    tidy(places);
    if (places.size() > most_places) places.resize(most_places);
    return places;
}

class Dividing {
public:
    Dividing(const design::WorkedPart& part, Length widest, std::vector<Length> places)
        : part_(part), widest_(widest), places_(std::move(places)) {}

    std::vector<Division> run() {
        const std::size_t fewest = fewest_pieces();
        if (fewest == 0) return {};
        most_pieces_ = places_.size() <= tried_in_full ? places_.size() + 1 : fewest + 1;
        Division begun;
        go_on(begun, Length(), 0);
        std::stable_sort(found_.begin(), found_.end(), [](const Division& a, const Division& b) {
            if (a.size() != b.size()) return a.size() < b.size();
            return std::lexicographical_compare(
                a.begin(), a.end(), b.begin(), b.end(),
                [](const PanelPiece& x, const PanelPiece& y) { return x.width > y.width; });
        });
        return std::move(found_);
    }

private:
    bool good(Length start, Length at) const {
        return at - start >= part_.joining.least_piece
               && at + part_.joining.overlap - start <= widest_;
    }
    bool good_last(Length start) const {
        const bool whole = start.is_zero();
        return part_.width - start <= widest_
               && (whole || part_.width - start >= part_.joining.least_piece);
    }

    /// By breadth: how many pieces are needed at least to come to the right edge; 0: it cannot be.
    std::size_t fewest_pieces() const {
        std::vector<Length> reached = {Length()};
        for (std::size_t pieces = 1; pieces <= places_.size() + 1; ++pieces) {
            for (const Length start : reached)
                if (good_last(start)) return pieces;
            std::vector<Length> next;
            for (const Length start : reached)
                for (const Length at : places_)
                    if (at > start && good(start, at)) next.push_back(at);
            tidy(next);
            reached = std::move(next);
        }
        return 0;
    }

    void go_on(Division& begun, Length start, std::size_t from) {
        if (good_last(start)) {
            begun.push_back({start, part_.width - start});
            found_.push_back(begun);
            begun.pop_back();
        }
        if (begun.size() + 1 >= most_pieces_) return;
        for (std::size_t i = from; i < places_.size(); ++i) {
            if (places_[i] <= start || !good(start, places_[i])) continue;
            begun.push_back({start, places_[i] + part_.joining.overlap - start});
            go_on(begun, places_[i], i + 1);
            begun.pop_back();
        }
    }

    const design::WorkedPart& part_;
    Length widest_;
    std::vector<Length> places_;
    std::size_t most_pieces_ = 1;
    std::vector<Division> found_;
};

} // namespace

std::vector<Division> divisions_of(const design::WorkedPart& part,
                                   const std::vector<Length>& widths) {
    if (widths.empty()) return {};
    std::vector<Length> places = part.joining.at;
    if (part.joining.anywhere) places = places_anywhere(part, widths);
    return Dividing(part, widths.front(), std::move(places)).run();
}

} // namespace barrow::costing
