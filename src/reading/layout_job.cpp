#include "reading/layout_job.hpp"

#include "base/error.hpp"
#include "base/rational.hpp"
#include "base/text.hpp"
#include "reading/json_tree.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <optional>

namespace barrow::reading {
namespace {

using base::Rational;
using Kind = JsonNode::Kind;

constexpr int most_places = 9;

/// The exact value of a JSON number, exponent included; nothing when it is out of all bounds.
std::optional<Rational> exact(const std::string& written) {
    std::string mantissa = written;
    int exponent = 0;
    const std::size_t e = written.find_first_of("eE");
    if (e != std::string::npos) {
        mantissa = written.substr(0, e);
        const std::string tail = written.substr(e + 1);
        if (tail.size() > 4) return std::nullopt;
        exponent = std::stoi(tail);
        if (exponent > 15 || exponent < -15) return std::nullopt;
    }
    auto value = base::read_rational(mantissa);
    if (!value) return std::nullopt;
    try {
        for (; exponent > 0; --exponent) value = *value * Rational(10);
        for (; exponent < 0; ++exponent) value = *value / Rational(10);
    } catch (const base::Error&) {
        return std::nullopt;
    }
    return value;
}

/// Decimal places a value needs; nothing when it has no end.
std::optional<int> places_of(const Rational& value) {
    Rational scaled = value;
    for (int places = 0; places <= most_places; ++places) {
        if (scaled.is_whole()) return places;
        scaled = scaled * Rational(10);
    }
    return std::nullopt;
}

std::int64_t power_of_ten(int places) {
    std::int64_t power = 1;
    for (; places > 0; --places) power *= 10;
    return power;
}

/// Reads the file in two passes: the first finds the places all numbers need, the second fills
/// the job. Each number is asked for by the same code in both.
class JobReader {
public:
    JobReader(const JsonNode& root, std::string file) : root_(root), file_(std::move(file)) {}

    LayoutJobFile read() {
        if (root_.kind != Kind::object) {
            complain(root_, "", fmt::format("is {}; expected an object", kind_name(root_.kind)));
            throw_if_any();
        }
        result_.job.one_dimensional = is_flat();
        finding_places_ = true;
        read_all();
        throw_if_any();
        if (area_costs_)
            result_.cost_places = std::max(result_.cost_places, 2 * result_.measure_places);
        finding_places_ = false;
        result_.job.stock.clear();
        result_.job.pieces.clear();
        read_all();
        shorten_costs();
        examine();
        throw_if_any();
        return std::move(result_);
    }

private:
    void complain(const JsonNode& node, const std::string& field, const std::string& what,
                  const std::string& hint = {}) {
        std::string where = fmt::format("{}:{}", file_, node.line);
        if (!field.empty()) where += ", " + field;
        problems_.push_back({where, what, hint});
    }

    void throw_if_any() const {
        if (!problems_.empty()) throw base::Error(base::Kind::bad_input, problems_);
    }

    bool is_flat() const {
        for (const char* list : {"stock", "pieces"}) {
            const JsonNode* node = root_.find(list);
            if (node == nullptr || node->kind != Kind::list) continue;
            for (const JsonNode& item : node->items)
                if (item.find("length") != nullptr) return true;
        }
        return false;
    }

    /// Complains of members not in `known`.
    void refuse_unknown(const JsonNode& node, const std::string& field,
                        const std::vector<std::string>& known) {
        for (const auto& [name, value] : node.members) {
            if (std::find(known.begin(), known.end(), name) != known.end()) continue;
            std::string hint = base::did_you_mean(name, known);
            if (hint.empty()) hint = fmt::format("known here: {}", fmt::join(known, ", "));
            complain(value, field, fmt::format("there is no member \"{}\"", name), hint);
        }
    }

    static std::string join(const std::string& field, const char* name) {
        return field.empty() ? std::string(name) : field + "." + name;
    }

    /// A decimal member, brought to `places`; the first pass only widens `places`.
    std::int64_t decimal(const JsonNode& parent, const std::string& field, const char* name,
                         int& places, bool required) {
        const JsonNode* node = parent.find(name);
        if (node == nullptr || (node->kind == Kind::null && !required)) {
            if (required) complain(parent, join(field, name), "is missing", "expected a number");
            return 0;
        }
        if (node->kind != Kind::number) {
            complain(*node, join(field, name),
                     fmt::format("is {}; expected a number", kind_name(node->kind)));
            return 0;
        }
        const auto value = exact(node->text);
        const auto needed = value ? places_of(*value) : std::nullopt;
        if (!needed) {
            complain(*node, join(field, name), fmt::format("{} is out of bounds", node->text),
                     fmt::format("expected a decimal of at most {} places", most_places));
            return 0;
        }
        if (finding_places_) {
            places = std::max(places, *needed);
            return 0;
        }
        return scaled(*node, join(field, name), *value, places);
    }

    std::int64_t scaled(const JsonNode& node, const std::string& field, const Rational& value,
                        int places) {
        try {
            return (value * Rational(power_of_ten(places))).number();
        } catch (const base::Error&) {
            complain(node, field, fmt::format("{} is too large", node.text));
            return 0;
        }
    }

    std::int64_t measure(const JsonNode& parent, const std::string& field, const char* name,
                         bool required) {
        return decimal(parent, field, name, result_.measure_places, required);
    }

    std::optional<std::int64_t> whole(const JsonNode& parent, const std::string& field,
                                      const char* name) {
        const JsonNode* node = parent.find(name);
        if (node == nullptr || node->kind == Kind::null) return std::nullopt;
        const auto value = node->kind == Kind::number ? exact(node->text) : std::nullopt;
        const bool digits = node->kind == Kind::number
                            && node->text.find_first_not_of("-0123456789") == std::string::npos;
        if (!value && digits) {
            complain(*node, join(field, name), fmt::format("{} is too large", node->text),
                     fmt::format("expected at most {}", layout::largest_count));
            return std::nullopt;
        }
        if (!value || !value->is_whole()) {
            complain(*node, join(field, name), "is not a whole number");
            return std::nullopt;
        }
        return value->number();
    }

    std::string text(const JsonNode& parent, const std::string& field, const char* name,
                     bool required) {
        const JsonNode* node = parent.find(name);
        if (node == nullptr) {
            if (required) complain(parent, join(field, name), "is missing", "expected text");
            return {};
        }
        if (node->kind != Kind::text)
            complain(*node, join(field, name),
                     fmt::format("is {}; expected text", kind_name(node->kind)));
        return node->text;
    }

    /// Area (or length) as a cost, for a sheet without cost and a piece without value.
    layout::Cost area_cost(const JsonNode& node, const std::string& field, layout::Measure width,
                           layout::Measure height) {
        area_costs_ = true;
        if (finding_places_) return 0;
        const int dimensions = result_.job.one_dimensional ? 1 : 2;
        const int spare = result_.cost_places - dimensions * result_.measure_places;
        const auto cost =
            base::narrow(base::Wide{width} * height * power_of_ten(std::max(spare, 0)));
        if (!cost) complain(node, field, "is too large");
        return cost.value_or(0);
    }

    void read_all() {
        refuse_unknown_once(root_, "", {"goal", "kerf", "stock", "pieces", "useful", "trimmer"});
        read_goal();
        result_.job.kerf = measure(root_, "", "kerf", false);
        if (const JsonNode* useful = root_.find("useful")) read_useful(*useful);
        if (root_.find("trimmer") != nullptr)
            result_.job.trimmer = measure(root_, "", "trimmer", true);
        each("stock",
             [&](const JsonNode& item, const std::string& field) { read_stock(item, field); });
        each("pieces",
             [&](const JsonNode& item, const std::string& field) { read_piece(item, field); });
    }

    void refuse_unknown_once(const JsonNode& node, const std::string& field,
                             const std::vector<std::string>& known) {
        if (finding_places_) refuse_unknown(node, field, known);
    }

    void each(const char* name,
              const std::function<void(const JsonNode&, const std::string&)>& read) {
        const JsonNode* list = root_.find(name);
        if (list == nullptr || list->kind != Kind::list) {
            complain(list == nullptr ? root_ : *list, name,
                     list == nullptr ? "is missing" : "is not a list",
                     "expected a list of objects");
            return;
        }
        for (std::size_t i = 0; i < list->items.size(); ++i) {
            const std::string field = fmt::format("{}[{}]", name, i);
            if (list->items[i].kind == Kind::object) {
                read(list->items[i], field);
            } else {
                complain(list->items[i], field, "is not an object");
            }
        }
    }

    void read_goal() {
        const JsonNode* node = root_.find("goal");
        if (node == nullptr) return; // least cost is what a layout is for
        if (node->kind == Kind::text && node->text == "least_cost") {
            result_.job.goal = layout::Goal::least_cost;
        } else if (node->kind == Kind::text && node->text == "most_value") {
            result_.job.goal = layout::Goal::most_value;
        } else {
            complain(*node, "goal", fmt::format("\"{}\" is not a goal", node->text),
                     "expected least_cost or most_value");
        }
    }

    void read_useful(const JsonNode& node) {
        refuse_unknown_once(node, "useful", {"width", "height", "length"});
        const bool flat = result_.job.one_dimensional;
        const auto one = measure(node, "useful", flat ? "length" : "width", true);
        const auto other = flat ? 1 : measure(node, "useful", "height", true);
        result_.job.useful = {std::min(one, other), std::max(one, other)};
    }

    void read_size(const JsonNode& node, const std::string& field, layout::Measure& width,
                   layout::Measure& height) {
        if (result_.job.one_dimensional) {
            width = measure(node, field, "length", true);
            height = 1;
        } else {
            width = measure(node, field, "width", true);
            height = measure(node, field, "height", true);
        }
    }

    void read_stock(const JsonNode& node, const std::string& field) {
        refuse_unknown_once(
            node, field,
            {"id", "width", "height", "length", "cost", "count", "margin", "offcut", "age"});
        layout::Stock stock;
        stock.id = text(node, field, "id", true);
        read_size(node, field, stock.width, stock.height);
        const JsonNode* cost = node.find("cost");
        stock.cost = cost != nullptr && cost->kind != Kind::null
                         ? decimal(node, field, "cost", result_.cost_places, true)
                         : area_cost(node, field, stock.width, stock.height);
        stock.count = whole(node, field, "count");
        stock.age = whole(node, field, "age").value_or(0);
        if (const JsonNode* offcut = node.find("offcut")) {
            if (offcut->kind != Kind::boolean)
                complain(*offcut, field + ".offcut", "is not true or false");
            stock.offcut = offcut->truth;
        }
        if (const JsonNode* margin = node.find("margin"))
            read_margin(*margin, field + ".margin", stock);
        result_.job.stock.push_back(std::move(stock));
    }

    void read_margin(const JsonNode& node, const std::string& field, layout::Stock& stock) {
        if (node.kind != Kind::object) {
            complain(node, field, "is not an object");
            return;
        }
        refuse_unknown_once(node, field, {"left", "right", "top", "bottom"});
        stock.margin.left = measure(node, field, "left", false);
        stock.margin.right = measure(node, field, "right", false);
        stock.margin.top = measure(node, field, "top", false);
        stock.margin.bottom = measure(node, field, "bottom", false);
    }

    void read_piece(const JsonNode& node, const std::string& field) {
        refuse_unknown_once(node, field,
                            {"id", "width", "height", "length", "count", "turn", "value"});
        layout::Piece piece;
        piece.id = text(node, field, "id", true);
        read_size(node, field, piece.width, piece.height);
        piece.count = whole(node, field, "count");
        const bool least_cost = result_.job.goal == layout::Goal::least_cost;
        if (!piece.count && least_cost && finding_places_ && node.find("count") == nullptr)
            complain(node, field + ".count", "is missing", "expected how many are wanted");
        read_turn(node, field, piece);
        const JsonNode* value = node.find("value");
        if (value != nullptr && value->kind != Kind::null) {
            piece.value = decimal(node, field, "value", result_.cost_places, true);
        } else if (!least_cost) {
            piece.value = area_cost(node, field, piece.width, piece.height);
        }
        result_.job.pieces.push_back(std::move(piece));
    }

    void read_turn(const JsonNode& node, const std::string& field, layout::Piece& piece) {
        const JsonNode* turn = node.find("turn");
        if (turn == nullptr || turn->kind == Kind::null) return;
        if (turn->kind != Kind::text) {
            if (finding_places_)
                complain(*turn, field + ".turn", fmt::format("is {}", kind_name(turn->kind)),
                         "expected none, half or quarter, in quotes");
            return;
        }
        if (turn->text == "none") return;
        if (turn->text == "half") {
            piece.turn = layout::Turn::half;
        } else if (turn->text == "quarter") {
            piece.turn = layout::Turn::quarter;
        } else if (finding_places_) {
            complain(*turn, field + ".turn", fmt::format("\"{}\" is not a turn", turn->text),
                     "expected none, half or quarter");
        }
    }

    /// Areas of fine measures have many places and seldom need them: 304.8 x 304.8 mm beside a cut
    /// of 0.396875 mm comes with twelve, and its area with two. Ends in zeros are taken off all
    /// costs together, so that the sum over many sheets has room.
    void shorten_costs() {
        std::vector<layout::Cost*> costs;
        for (layout::Stock& stock : result_.job.stock) costs.push_back(&stock.cost);
        for (layout::Piece& piece : result_.job.pieces) costs.push_back(&piece.value);
        const auto ends_in_zero = [](const layout::Cost* cost) { return *cost % 10 == 0; };
        while (result_.cost_places > 0 && std::all_of(costs.begin(), costs.end(), ends_in_zero)) {
            for (layout::Cost* cost : costs) *cost /= 10;
            --result_.cost_places;
        }
    }

    /// What the engine itself finds wrong, with the line of the entry it is in.
    void examine() {
        if (!problems_.empty()) return;
        for (const layout::JobProblem& problem : layout::examine(result_.job)) {
            const JsonNode* node = &root_;
            std::string field;
            if (problem.list != layout::JobProblem::List::job) {
                const char* list =
                    problem.list == layout::JobProblem::List::stock ? "stock" : "pieces";
                node = &root_.find(list)->items[problem.index];
                field = fmt::format("{}[{}]", list, problem.index);
            }
            if (const JsonNode* own = node->find(problem.field)) node = own;
            if (!problem.field.empty()) field = join(field, problem.field.c_str());
            complain(*node, field, problem.what);
        }
    }

    const JsonNode& root_;
    std::string file_;
    LayoutJobFile result_;
    std::vector<base::Problem> problems_;
    bool finding_places_ = true;
    bool area_costs_ = false;
};

/// `number` / 10^places as a decimal, all digits of it, without zeros at the end.
std::string decimal_text(std::int64_t number, int places) {
    std::string digits = fmt::format("{:0{}}", number < 0 ? -number : number, places + 1);
    std::string part = digits.substr(digits.size() - static_cast<std::size_t>(places));
    digits.resize(digits.size() - static_cast<std::size_t>(places));
    part.erase(part.find_last_not_of('0') + 1);
    return (number < 0 ? "-" : "") + digits + (part.empty() ? "" : "." + part);
}

} // namespace

std::string LayoutJobFile::measure_text(layout::Measure measure) const {
    return decimal_text(measure, measure_places);
}

std::string LayoutJobFile::cost_text(layout::Cost cost) const {
    return decimal_text(cost, cost_places);
}

LayoutJobFile read_layout_job(std::string_view text, const std::string& file) {
    const JsonNode root = read_json(text, file);
    return JobReader(root, file).read();
}

} // namespace barrow::reading
