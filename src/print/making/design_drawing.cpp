#include "print/making/design_drawing.hpp"

#include "print/text/markup.hpp"

#include "base/error.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::print {
namespace {

using base::Length;

constexpr double cover_length = 820.0; ///< the cover's length, in pixels
constexpr double tallest = 620.0;      ///< its height at most
constexpr double left_room = 74.0;     ///< for the measure of the height
constexpr double top_room = 92.0;      ///< for the title and the measures of the folds
constexpr double room = 46.0;

constexpr const char* ink = "#3b332b";
constexpr const char* score_red = "#b3402a";

/// "second base" of second_base.
std::string spoken(std::string name) {
    std::replace(name.begin(), name.end(), '_', ' ');
    return name;
}

const char* fill_of(design::Role role) {
    switch (role) {
    case design::Role::face: return "#f6e3c5";
    case design::Role::base: return "#eadfce";
    case design::Role::flap: return "#dbe7d3";
    }
    throw base::broken("a panel of no role");
}

class CoverDrawing {
public:
    CoverDrawing(const design::Worked& worked, base::Unit unit)
        : worked_(worked), cover_(worked.cover.value()), unit_(unit),
          scale_(std::min(cover_length / static_cast<double>(cover_.length.units()),
                          tallest / static_cast<double>(cover_.height.units()))) {}

    std::string text() {
        const double width = pixels(cover_.length);
        const double height = pixels(cover_.height);
        const double whole_width = std::max(left_room + width + room, 420.0);
        const double whole_height = top_room + height + room + 28;
        out_ =
            fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" "
                        "width=\"{0:.0f}\" height=\"{1:.0f}\" font-family=\"sans-serif\">\n"
                        "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n",
                        whole_width, whole_height);
        words(left_room, 26, 16, "start", ink, worked_.name + ": cover, lying flat, outside up");
        for (const design::WorkedPanel& panel : cover_.panels) draw_panel(panel);
        out_ += fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" "
                            "fill=\"none\" stroke=\"{}\" stroke-width=\"1.5\"/>\n",
                            x(Length()), top_room, width, height, ink);
        for (std::size_t i = 0; i < cover_.scores.size(); ++i) draw_score(cover_.scores[i], i);
        draw_holes();
        draw_grain();
        draw_sizes();
        return out_ + "</svg>\n";
    }

private:
    double pixels(Length length) const { return static_cast<double>(length.units()) * scale_; }
    double x(Length from_left) const { return left_room + pixels(from_left); }
    double y(Length from_below) const {
        return top_room + pixels(cover_.height) - pixels(from_below);
    }
    std::string measure(Length length) const { return base::show(length, unit_); }

    void words(double at_x, double at_y, double size, const char* anchor, const char* colour,
               const std::string& text, double turn = 0) {
        const std::string turned =
            turn == 0
                ? std::string()
                : fmt::format(" transform=\"rotate({:.0f} {:.1f} {:.1f})\"", turn, at_x, at_y);
        out_ += fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"{:.1f}\" "
                            "text-anchor=\"{}\" fill=\"{}\"{}>{}</text>\n",
                            at_x, at_y, size, anchor, colour, turned, markup_text(text));
    }

    void line(double x1, double y1, double x2, double y2, const char* colour, double thick,
              const char* dashes = "") {
        const std::string dashed =
            *dashes == 0 ? std::string() : fmt::format(" stroke-dasharray=\"{}\"", dashes);
        out_ += fmt::format("<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" "
                            "stroke=\"{}\" stroke-width=\"{:.1f}\"{}/>\n",
                            x1, y1, x2, y2, colour, thick, dashed);
    }

    /// Name and width in the middle of a panel; along its height where it is narrow.
    void draw_panel(const design::WorkedPanel& panel) {
        const double width = pixels(panel.width);
        out_ += fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" "
                            "fill=\"{}\"/>\n",
                            x(panel.start), top_room, width, pixels(cover_.height),
                            fill_of(panel.role));
        const double middle = x(panel.start) + width / 2;
        const double centre = top_room + pixels(cover_.height) / 2;
        const std::string name = spoken(panel.name);
        if (width > 90) {
            words(middle, centre - 4, 15, "middle", ink, name);
            words(middle, centre + 16, 13, "middle", ink, measure(panel.width));
            return;
        }
        // Beside the row of holes, which runs up the middle.
        const bool holes = worked_.binding && worked_.binding->panel == panel.name;
        const double at = holes ? middle - width / 4 : middle;
        words(at + 4, centre, std::min(13.0, width / 2), "middle", ink,
              name + ", " + measure(panel.width), -90);
    }

    /// Where on the edge the measure is written: on two levels, turn and turn about, since bases
    /// are narrow.
    void draw_score(const design::Score& score, std::size_t order) {
        const double at = x(score.from_left);
        const auto place = std::find(cover_.folds.begin(), cover_.folds.end(), score.from_left);
        const bool upper = (place - cover_.folds.begin()) % 2 != 0;
        const double level = top_room - (upper ? 34 : 12);
        line(at, level + 3, at, top_room, "#a79b8b", 0.8);
        line(at, top_room, at, y(Length()), score_red, 1.3, score.fold_out ? "2 4" : "8 4");
        words(at, level, 12, "middle", score_red, measure(score.from_left));
        const double foot = y(Length()) + 14;
        out_ += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"8\" fill=\"{}\"/>\n", at, foot,
                            score_red);
        words(at, foot + 3.6, 10, "middle", "#ffffff", std::to_string(order + 1));
    }

    void draw_holes() {
        if (!worked_.binding || worked_.binding->panel.empty()) return;
        const design::WorkedBinding& binding = *worked_.binding;
        const double radius = std::max(1.6, binding.hole ? pixels(*binding.hole) / 2 : 1.6);
        for (const Length row : binding.panel_rows)
            for (const Length mark : binding.marks)
                out_ +=
                    fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{:.1f}\" fill=\"#ffffff\" "
                                "stroke=\"{}\" stroke-width=\"0.9\"/>\n",
                                x(row), y(binding.panel_y + mark), radius, ink);
    }

    /// An arrow in the lower left corner, along the grain of the board.
    void draw_grain() {
        const auto board = std::find_if(
            worked_.parts.begin(), worked_.parts.end(), [this](const design::WorkedPart& part) {
                return part.take == design::Take::piece && part.grain && part.width == cover_.length
                       && part.height == cover_.height;
            });
        if (board == worked_.parts.end()) return;
        const double from_x = x(Length()) + 16;
        const double from_y = y(Length()) - 16;
        const bool up = *board->grain == design::Grain::height;
        const double to_x = up ? from_x : from_x + 46;
        const double to_y = up ? from_y - 46 : from_y;
        line(from_x, from_y, to_x, to_y, ink, 1.2);
        line(to_x, to_y, to_x - (up ? 4 : 7), to_y + (up ? 7 : -4), ink, 1.2);
        line(to_x, to_y, to_x + (up ? 4 : -7), to_y + (up ? 7 : 4), ink, 1.2);
        words(from_x + 8, from_y - 2, 11, "start", ink, "grain");
    }

    void draw_sizes() {
        const double below = y(Length()) + room;
        line(x(Length()), below - 12, x(cover_.length), below - 12, "#a79b8b", 0.8);
        words(left_room + pixels(cover_.length) / 2, below + 4, 13, "middle", ink,
              measure(cover_.length));
        const double middle = top_room + pixels(cover_.height) / 2;
        line(left_room - 16, top_room, left_room - 16, y(Length()), "#a79b8b", 0.8);
        words(left_room - 24, middle, 13, "middle", ink, measure(cover_.height), -90);
        const bool outwards =
            std::any_of(cover_.scores.begin(), cover_.scores.end(),
                        [](const design::Score& score) { return score.fold_out; });
        words(left_room, below + 24, 11, "start", ink,
              outwards ? "Score in the order of the numbers; dotted lines from the other side."
                       : "Score in the order of the numbers, measured from the left edge.");
    }

    const design::Worked& worked_;
    const design::WorkedCover& cover_;
    base::Unit unit_;
    double scale_;
    std::string out_;
};

} // namespace

std::string cover_drawing(const design::Worked& worked, base::Unit unit) {
    return CoverDrawing(worked, unit).text();
}

} // namespace barrow::print
