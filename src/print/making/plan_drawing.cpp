#include "print/making/plan_drawing.hpp"

#include "print/text/markup.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::print {
namespace {

constexpr double longer_side = 560.0; ///< longer side of the sheet, in pixels
constexpr double border = 40.0;
constexpr double least_strip = 48.0; ///< height drawn for a one-dimensional job

class PlanDrawing {
public:
    PlanDrawing(const layout::Job& job, const layout::Plan& plan, const DrawingWords& words)
        : job_(job), plan_(plan), words_(words), stock_(job.stock[plan.stock]) {
        const auto longer = static_cast<double>(
            job.one_dimensional ? stock_.width : std::max(stock_.width, stock_.height));
        scale_ = longer_side / longer;
        height_ = job.one_dimensional ? least_strip : static_cast<double>(stock_.height) * scale_;
    }

    std::string text() {
        const double width = static_cast<double>(stock_.width) * scale_;
        out_ = fmt::format(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.1f} {:.1f}\" "
            "width=\"{:.0f}\" height=\"{:.0f}\" font-family=\"sans-serif\">\n",
            width + 2 * border, height_ + 2 * border, width + 2 * border, height_ + 2 * border);
        out_ +=
            "<defs><pattern id=\"waste" + words_.id
            + "\" width=\"8\" height=\"8\" "
              "patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\">"
              "<rect width=\"8\" height=\"8\" fill=\"#f3efe8\"/>"
              "<line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"8\" stroke=\"#cfc6b8\" stroke-width=\"2\"/>"
              "</pattern></defs>\n";
        out_ +=
            fmt::format("<text x=\"{:.1f}\" y=\"24\" font-size=\"15\" fill=\"#3b332b\">{}</text>\n",
                        border, markup_text(words_.title));
        box({0, 0, stock_.width, stock_.height}, ("url(#waste" + words_.id + ")").c_str(),
            "#3b332b", 1.5);
        margins();
        for (const layout::Rectangle& offcut : plan_.offcuts) {
            box(offcut, "#dbe7d3", "#6d8a5a", 1.0);
            label(offcut, "keep", size_of(offcut), "#40562f");
        }
        for (const layout::Placed& placed : plan_.pieces) {
            box(placed.place, "#f6e3c5", "#8a5a2b", 1.0);
            const std::string name =
                words_.pieces[placed.piece] + (placed.turned ? " (turned)" : "");
            label(placed.place, name, size_of(placed.place), "#3b332b");
        }
        cuts();
        return out_ + "</svg>\n";
    }

private:
    double x(layout::Measure value) const { return border + static_cast<double>(value) * scale_; }
    double y(layout::Measure value) const {
        const double up = job_.one_dimensional ? static_cast<double>(value) * height_
                                               : static_cast<double>(value) * scale_;
        return border + height_ - up;
    }

    std::string size_of(const layout::Rectangle& r) const {
        if (job_.one_dimensional) return words_.measure(r.width);
        return words_.measure(r.width) + " x " + words_.measure(r.height);
    }

    void box(const layout::Rectangle& r, const char* fill, const char* stroke, double thick) {
        out_ += fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" "
                            "fill=\"{}\" stroke=\"{}\" stroke-width=\"{:.1f}\"/>\n",
                            x(r.x), y(r.y + r.height), x(r.x + r.width) - x(r.x),
                            y(r.y) - y(r.y + r.height), fill, stroke, thick);
    }

    void margins() {
        const layout::Margin& m = stock_.margin;
        const layout::Measure w = stock_.width;
        const layout::Measure h = stock_.height;
        const auto strip = [&](const layout::Rectangle& r) {
            if (r.width > 0 && r.height > 0) box(r, "#d9d4cc", "none", 0);
        };
        strip({0, 0, m.left, h});
        strip({w - m.right, 0, m.right, h});
        strip({0, 0, w, m.bottom});
        strip({0, h - m.top, w, m.top});
    }

    /// A name and a size in the middle, in letters that fit; upright where the box is narrow.
    void label(const layout::Rectangle& r, const std::string& name, const std::string& size,
               const char* colour) {
        const double w = x(r.x + r.width) - x(r.x);
        const double h = y(r.y) - y(r.y + r.height);
        const bool upright = h > w * 1.4;
        const double along = upright ? h : w;
        const double across = upright ? w : h;
        const double letters = static_cast<double>(std::max(name.size(), size.size()));
        const double font = std::min({13.0, along / (letters * 0.62), across / 2.6});
        if (font < 4.0) return;
        const double cx = (x(r.x) + x(r.x + r.width)) / 2;
        const double cy = (y(r.y) + y(r.y + r.height)) / 2;
        const std::string turn =
            upright ? fmt::format(" transform=\"rotate(-90 {:.1f} {:.1f})\"", cx, cy) : "";
        out_ += fmt::format("<g font-size=\"{:.1f}\" text-anchor=\"middle\" fill=\"{}\"{}>"
                            "<text x=\"{:.1f}\" y=\"{:.1f}\">{}</text>"
                            "<text x=\"{:.1f}\" y=\"{:.1f}\">{}</text></g>\n",
                            font, colour, turn, cx, cy - font * 0.15, markup_text(name), cx,
                            cy + font * 1.05, markup_text(size));
    }

    void cuts() {
        std::size_t n = 0;
        for (const layout::Cut& cut : plan_.cuts) {
            const bool upright = cut.axis == layout::Cut::Axis::x;
            const double x1 = upright ? x(cut.at) : x(cut.from);
            const double x2 = upright ? x(cut.at) : x(cut.to);
            const double y1 = upright ? y(cut.from) : y(cut.at);
            const double y2 = upright ? y(cut.to) : y(cut.at);
            out_ +=
                fmt::format("<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" "
                            "stroke=\"#b3402a\" stroke-width=\"1.2\" stroke-dasharray=\"5 3\"/>\n",
                            x1, y1, x2, y2);
            // The number sits where the cut begins, a little inside, so that neighbours differ.
            const double bx = upright ? x1 : std::min(x1 + 10, x2);
            const double by = upright ? std::max(y1 - 10, y2) : y1;
            out_ += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"7\" fill=\"#b3402a\"/>"
                                "<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"9\" fill=\"#ffffff\" "
                                "text-anchor=\"middle\">{}</text>\n",
                                bx, by, bx, by + 3.2, ++n);
        }
    }

    const layout::Job& job_;
    const layout::Plan& plan_;
    const DrawingWords& words_;
    const layout::Stock& stock_;
    double scale_ = 1;
    double height_ = 0;
    std::string out_;
};

} // namespace

std::function<std::string(layout::Measure)> drawn_measure(base::Form form, base::Unit unit) {
    return [form, unit](layout::Measure value) {
        return form == base::Form::wire ? std::to_string(value)
                                        : base::show(base::Length::of_units(value), unit, true);
    };
}

std::string drawing(const layout::Job& job, const layout::Plan& plan, const DrawingWords& words) {
    return PlanDrawing(job, plan, words).text();
}

} // namespace barrow::print
