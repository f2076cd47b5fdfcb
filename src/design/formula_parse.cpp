#include "design/formula.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "design/formula_node.hpp"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace barrow::design {
namespace {

using base::Rational;
using Node = Formula::Node;
using NodePtr = std::shared_ptr<const Node>;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }

struct FunctionShape {
    std::string_view name;
    std::size_t least;
    std::size_t most;
    std::string_view usage;
};

constexpr std::size_t any_number = 99;
constexpr std::array<FunctionShape, 7> functions = {{
    {"min", 1, any_number, "min(a, b, ...)"},
    {"max", 1, any_number, "max(a, b, ...)"},
    {"round_up", 2, 2, "round_up(x, step)"},
    {"round_down", 2, 2, "round_down(x, step)"},
    {"round", 2, 2, "round(x, step)"},
    {"if", 3, 3, "if(a < b, this, that)"},
    {"loops", 3, 3, "loops(edge, pitch, clear)"},
}};

class Parser {
public:
    Parser(std::string_view text, const Place& place) : text_(text), place_(place) {}

    NodePtr whole() {
        NodePtr node = sum();
        skip_spaces();
        if (at_ < text_.size()) throw wrong(at_, unexpected());
        return node;
    }

private:
    base::Error wrong(std::size_t offset, const std::string& what,
                      const std::string& hint = {}) const {
        return base::bad_input(place_.at(offset), what, hint);
    }

    std::string unexpected() const {
        if (at_ >= text_.size())
            return fmt::format("the formula \"{}\" ends where a value is expected", text_);
        return fmt::format("\"{}\" is not expected here in the formula \"{}\"", text_[at_], text_);
    }

    void skip_spaces() {
        while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\t')) ++at_;
    }

    bool take(std::string_view sign) {
        skip_spaces();
        if (text_.substr(at_, sign.size()) != sign) return false;
        at_ += sign.size();
        return true;
    }

    static NodePtr make(Node node) { return std::make_shared<const Node>(std::move(node)); }

    NodePtr binary(std::size_t offset, std::string_view sign, NodePtr left, NodePtr right) {
        Node node;
        node.kind = Node::Kind::binary;
        node.offset = offset;
        node.text = sign;
        node.parts = {std::move(left), std::move(right)};
        return make(std::move(node));
    }

    /// Comparison: only the first argument of if() is read with this.
    NodePtr choice() {
        NodePtr left = sum();
        skip_spaces();
        const std::size_t offset = at_;
        for (std::string_view sign : {"<=", ">=", "!=", "<", ">", "="})
            if (take(sign)) return binary(offset, sign, left, sum());
        throw wrong(offset, "if() wants a comparison first", "write if(a < b, this, that)");
    }

    NodePtr sum() {
        NodePtr left = product();
        for (;;) {
            skip_spaces();
            const std::size_t offset = at_;
            if (take("+")) {
                left = binary(offset, "+", left, product());
            } else if (take("-")) {
                left = binary(offset, "-", left, product());
            } else {
                return left;
            }
        }
    }

    NodePtr product() {
        NodePtr left = signed_atom();
        for (;;) {
            skip_spaces();
            const std::size_t offset = at_;
            if (take("*")) {
                left = binary(offset, "*", left, signed_atom());
            } else if (take("/")) {
                left = binary(offset, "/", left, signed_atom());
            } else {
                return left;
            }
        }
    }

    NodePtr signed_atom() {
        skip_spaces();
        const std::size_t offset = at_;
        if (!take("-")) return atom();
        const Deeper guard(*this, offset);
        Node node;
        node.kind = Node::Kind::negative;
        node.offset = offset;
        node.text = "-";
        node.parts = {signed_atom()};
        return make(std::move(node));
    }

    NodePtr atom() {
        skip_spaces();
        if (at_ >= text_.size()) throw wrong(at_, unexpected());
        const std::size_t offset = at_;
        const Deeper guard(*this, offset);
        if (is_digit(text_[at_]) || text_[at_] == '.') return literal();
        if (is_letter(text_[at_])) return name_or_call();
        if (!take("(")) throw wrong(offset, unexpected());
        NodePtr inside = sum();
        if (!take(")"))
            throw wrong(at_, fmt::format("a \")\" is missing in the formula \"{}\"", text_));
        return inside;
    }

    std::string_view word() {
        const std::size_t start = at_;
        while (at_ < text_.size() && (is_letter(text_[at_]) || is_digit(text_[at_]))) ++at_;
        return text_.substr(start, at_ - start);
    }

    std::string_view digits() {
        const std::size_t start = at_;
        while (at_ < text_.size() && (is_digit(text_[at_]) || text_[at_] == '.')) ++at_;
        return text_.substr(start, at_ - start);
    }

    /// The rest of "6 1/2in" behind the 6, or of "5/8in" behind the 5: digits, a slash, digits and
    /// a unit directly behind. Anything else is left where it is.
    std::string_view fraction_tail() {
        const std::size_t start = at_;
        std::size_t i = at_;
        const auto run = [&] {
            const std::size_t from = i;
            while (i < text_.size() && is_digit(text_[i])) ++i;
            return i > from;
        };
        while (i < text_.size() && text_[i] == ' ') ++i;
        if (i > start && !run()) return {};
        if (i >= text_.size() || text_[i] != '/') return {};
        ++i;
        if (!run()) return {};
        std::size_t unit = i;
        while (unit < text_.size() && text_[unit] == ' ') ++unit;
        if (unit >= text_.size() || !is_letter(text_[unit])) return {};
        at_ = i;
        return text_.substr(start, i - start);
    }

    NodePtr literal() {
        const std::size_t offset = at_;
        const std::string whole(digits());
        const std::string tail(fraction_tail());
        const auto number = base::read_rational(whole + tail);
        if (!number) throw wrong(offset, fmt::format("\"{}{}\" is not a number", whole, tail));
        Node node;
        node.offset = offset;
        node.value = {*number, plain};
        skip_spaces();
        const std::size_t unit_at = at_;
        const std::string unit_name(at_ < text_.size() && is_letter(text_[at_]) ? word() : "");
        if (!unit_name.empty()) {
            const auto unit = formula_unit(unit_name);
            if (!unit)
                throw wrong(unit_at, fmt::format("unknown unit \"{}\"", unit_name),
                            "known units: " + formula_unit_names());
            node.value = {*number * unit->factor, unit->dimension};
        }
        node.text = base::trimmed(text_.substr(offset, at_ - offset));
        return make(std::move(node));
    }

    NodePtr name_or_call() {
        const std::size_t offset = at_;
        std::string name(word());
        while (at_ < text_.size() && text_[at_] == '.') {
            ++at_;
            name += '.';
            name += word();
        }
        if (take("(")) return call(offset, name);
        Node node;
        node.kind = Node::Kind::name;
        node.offset = offset;
        node.text = name;
        return make(std::move(node));
    }

    NodePtr call(std::size_t offset, const std::string& name) {
        const FunctionShape* shape = nullptr;
        std::vector<std::string> known;
        for (const FunctionShape& candidate : functions) {
            known.emplace_back(candidate.name);
            if (candidate.name == name) shape = &candidate;
        }
        if (shape == nullptr)
            throw wrong(offset, fmt::format("there is no function \"{}\"", name),
                        fmt::format("functions: {}", fmt::join(known, ", ")));
        Node node;
        node.kind = Node::Kind::call;
        node.offset = offset;
        node.text = name;
        node.parts.push_back(name == "if" ? choice() : sum());
        while (take(",")) node.parts.push_back(sum());
        if (!take(")"))
            throw wrong(at_, fmt::format("a \")\" is missing in the formula \"{}\"", text_));
        if (node.parts.size() < shape->least || node.parts.size() > shape->most)
            throw wrong(offset, fmt::format("{} has {} values", name, node.parts.size()),
                        fmt::format("write {}", shape->usage));
        return make(std::move(node));
    }

    /// Counts nesting, so that a hostile file cannot exhaust the stack.
    struct Deeper {
        Deeper(Parser& parser_in, std::size_t offset) : parser(parser_in) {
            if (++parser.depth_ > 100)
                throw parser.wrong(offset, "the formula is nested too deeply",
                                   "split it with a name of its own");
        }
        ~Deeper() { --parser.depth_; }
        Deeper(const Deeper&) = delete;
        Deeper& operator=(const Deeper&) = delete;
        Parser& parser;
    };

    std::string_view text_;
    const Place& place_;
    std::size_t at_ = 0;
    int depth_ = 0;
};

} // namespace

std::string Place::at(std::size_t offset) const {
    std::string text = file;
    if (line > 0) text += fmt::format(":{}", line);
    if (column > 0) text += fmt::format(":{}", static_cast<std::size_t>(column) + offset);
    if (!field.empty()) text += (text.empty() ? "" : ", ") + field;
    return text;
}

Formula::Formula(std::string text, Place place, std::shared_ptr<const Node> root)
    : text_(std::move(text)), place_(std::move(place)), root_(std::move(root)) {}

Formula parse_formula(std::string text, Place place) {
    NodePtr root = Parser(text, place).whole();
    return {std::move(text), std::move(place), std::move(root)};
}

} // namespace barrow::design
