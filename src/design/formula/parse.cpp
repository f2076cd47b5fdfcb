#include "design/formula/formula.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "design/formula/functions.hpp"
#include "design/formula/node.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

using base::Rational;
using Node = Formula::Node;
using NodePtr = std::shared_ptr<const Node>;

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

/// A formula longer or deeper than this is no recipe: it would only exhaust the stack.
constexpr std::size_t longest_formula = 2'000;
constexpr int deepest_nesting = 60;
constexpr int deepest_tree = 200;

class Parser {
public:
    Parser(std::string_view text, const Place& place) : text_(text), place_(place) {}

    NodePtr formula() { return whole(&Parser::sum); }
    NodePtr condition() { return whole(&Parser::choice); }

private:
    NodePtr whole(NodePtr (Parser::*read)()) {
        if (text_.size() > longest_formula)
            throw wrong(0, fmt::format("the formula is longer than {} characters", longest_formula),
                        "split it with names of its own under [let]");
        NodePtr node = (this->*read)();
        skip_spaces();
        if (at_ < text_.size()) throw wrong(at_, unexpected());
        return node;
    }

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

    NodePtr make(Node node) const {
        for (const NodePtr& part : node.parts) node.depth = std::max(node.depth, part->depth + 1);
        if (node.depth > deepest_tree)
            throw wrong(node.offset, "the formula has too many steps",
                        "split it with names of its own under [let]");
        return std::make_shared<const Node>(std::move(node));
    }

    NodePtr binary(std::size_t offset, std::string_view sign, NodePtr left, NodePtr right) {
        Node node;
        node.kind = Node::Kind::binary;
        node.offset = offset;
        node.text = sign;
        node.parts = {std::move(left), std::move(right)};
        return make(std::move(node));
    }

    /// Comparison: the first argument of if(), and the whole of a condition.
    NodePtr choice() {
        NodePtr left = sum();
        skip_spaces();
        const std::size_t offset = at_;
        for (std::string_view sign : {"<=", ">=", "!=", "<", ">", "="})
            if (take(sign)) return binary(offset, sign, left, sum());
        throw wrong(offset, "a comparison is expected here", "for example a < b, or a >= b");
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
    /// a unit (or %) behind. Anything else is left where it is.
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
        if (unit >= text_.size() || !(is_letter(text_[unit]) || text_[unit] == '%')) return {};
        at_ = i;
        return text_.substr(start, i - start);
    }

    /// The ":1" of "3:1", as wire is sold: three loops to the inch, a pitch of a third of one.
    bool is_pitch(const Rational& loops) const {
        return loops > Rational(0) && text_.substr(at_, 2) == ":1"
               && (at_ + 2 >= text_.size()
                   || !(is_letter(text_[at_ + 2]) || is_digit(text_[at_ + 2])
                        || text_[at_ + 2] == '.'));
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
        if (is_pitch(*number)) {
            at_ += 2;
            node.value = {Rational::of(127, 5) / *number, a_length};
            node.text = base::trimmed(text_.substr(offset, at_ - offset));
            return make(std::move(node));
        }
        skip_spaces();
        if (take("%")) {
            node.value.number = *number / Rational(100);
        } else if (at_ < text_.size() && is_letter(text_[at_])) {
            const FormulaUnit unit = unit_and_slash();
            node.value = {*number * unit.factor, unit.dimension};
        }
        node.text = base::trimmed(text_.substr(offset, at_ - offset));
        return make(std::move(node));
    }

    /// A unit, or two with a slash directly between them: ml/m2. What stands behind a slash and is
    /// no unit is left for the division it is: 10 mm/count.
    FormulaUnit unit_and_slash() {
        const std::size_t offset = at_;
        const std::string name(word());
        auto unit = formula_unit(name);
        if (!unit)
            throw wrong(offset, fmt::format("unknown unit \"{}\"", name),
                        "known units: " + formula_unit_names());
        const std::size_t slash = at_;
        if (slash + 1 < text_.size() && text_[slash] == '/' && is_letter(text_[slash + 1])) {
            ++at_;
            const auto below = formula_unit(word());
            const bool ends = at_ >= text_.size() || (text_[at_] != '.' && text_[at_] != '(');
            if (below && ends) {
                unit->factor = unit->factor / below->factor;
                unit->dimension.length =
                    static_cast<std::int8_t>(unit->dimension.length - below->dimension.length);
                unit->dimension.mass =
                    static_cast<std::int8_t>(unit->dimension.mass - below->dimension.mass);
            } else {
                at_ = slash;
            }
        }
        return *unit;
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
        for (const FunctionShape& candidate : function_shapes()) {
            known.emplace_back(candidate.name);
            if (candidate.name == name) shape = &candidate;
        }
        if (shape == nullptr)
            throw wrong(offset, fmt::format("there is no function \"{}\"", name),
                        fmt::format("functions: {}", fmt::join(known, ", ")));
        const Deeper guard(*this, offset);
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
            if (++parser.depth_ > deepest_nesting)
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

Formula::Formula(std::string text, Place place, std::shared_ptr<const Node> root)
    : text_(std::move(text)), place_(std::move(place)), root_(std::move(root)) {}

int Formula::depth() const {
    return root_ == nullptr ? 0 : root_->depth;
}

Formula parse_formula(std::string text, Place place) {
    NodePtr root = Parser(text, place).formula();
    return {std::move(text), std::move(place), std::move(root)};
}

Formula parse_condition(std::string text, Place place) {
    NodePtr root = Parser(text, place).condition();
    return {std::move(text), std::move(place), std::move(root)};
}

} // namespace barrow::design
