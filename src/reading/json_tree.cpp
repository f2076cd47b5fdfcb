#include "reading/json_tree.hpp"

#include "base/error.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <clocale>
#include <iterator>
#include <memory>

namespace barrow::reading {
namespace {

/// Walks the text and counts the lines walked over. The parser copies its iterators, so the count
/// is shared. It looks one character ahead at the end of a number: a line break seen last does
/// not count yet.
class CountingIterator {
public:
    using iterator_category = std::input_iterator_tag;
    using value_type = char;
    using difference_type = std::ptrdiff_t;
    using pointer = const char*;
    using reference = const char&;

    CountingIterator(const char* at, std::shared_ptr<int> lines)
        : at_(at), lines_(std::move(lines)) {}

    reference operator*() const { return *at_; }
    CountingIterator& operator++() {
        if (pending_) ++*lines_;
        pending_ = *at_ == '\n';
        ++at_;
        return *this;
    }
    CountingIterator operator++(int) {
        CountingIterator before = *this;
        ++*this;
        return before;
    }
    friend bool operator==(const CountingIterator& a, const CountingIterator& b) {
        return a.at_ == b.at_;
    }
    friend bool operator!=(const CountingIterator& a, const CountingIterator& b) {
        return !(a == b);
    }

private:
    const char* at_;
    std::shared_ptr<int> lines_;
    bool pending_ = false;
};

/// Receives the parser's events and builds the tree.
class TreeBuilder : public nlohmann::json_sax<nlohmann::json> {
public:
    TreeBuilder(std::string file, std::shared_ptr<int> lines)
        : file_(std::move(file)), lines_(std::move(lines)) {}

    JsonNode take() { return std::move(root_); }

    bool null() override { return put(node(JsonNode::Kind::null)); }
    bool boolean(bool value) override {
        JsonNode made = node(JsonNode::Kind::boolean);
        made.truth = value;
        return put(std::move(made));
    }
    bool number_integer(number_integer_t value) override {
        return put_number(std::to_string(value));
    }
    bool number_unsigned(number_unsigned_t value) override {
        return put_number(std::to_string(value));
    }
    bool number_float(number_float_t, const string_t& written) override {
        // The library writes the decimal point of the locale into the number: a comma in some.
        std::string plain = written;
        std::replace(plain.begin(), plain.end(), *std::localeconv()->decimal_point, '.');
        return put_number(plain);
    }
    bool string(string_t& value) override {
        JsonNode made = node(JsonNode::Kind::text);
        made.text = value;
        return put(std::move(made));
    }
    bool binary(binary_t&) override { return false; }
    bool start_object(std::size_t) override { return open(JsonNode::Kind::object); }
    bool end_object() override { return close(); }
    bool start_array(std::size_t) override { return open(JsonNode::Kind::list); }
    bool end_array() override { return close(); }
    bool key(string_t& name) override {
        const auto& members = open_.back()->members;
        if (std::any_of(members.begin(), members.end(),
                        [&](const auto& member) { return member.first == name; }))
            throw base::bad_input(fmt::format("{}:{}", file_, *lines_),
                                  fmt::format("\"{}\" is there twice", name));
        key_ = name;
        return true;
    }
    bool parse_error(std::size_t, const std::string&,
                     const nlohmann::detail::exception& error) override {
        // The library's text begins with its own error number in brackets; ours names the line.
        std::string text = error.what();
        const auto bracket = text.find("] ");
        if (bracket != std::string::npos) text.erase(0, bracket + 2);
        throw base::bad_input(fmt::format("{}:{}", file_, *lines_), "is not JSON: " + text);
    }

private:
    JsonNode node(JsonNode::Kind kind) const {
        JsonNode made;
        made.kind = kind;
        made.line = *lines_;
        return made;
    }

    bool put_number(const std::string& written) {
        JsonNode made = node(JsonNode::Kind::number);
        made.text = written;
        return put(std::move(made));
    }

    bool put(JsonNode made) {
        place(std::move(made));
        return true;
    }

    JsonNode& place(JsonNode made) {
        if (open_.empty()) return root_ = std::move(made);
        JsonNode& parent = *open_.back();
        if (parent.kind == JsonNode::Kind::list) return parent.items.emplace_back(std::move(made));
        return parent.members.emplace_back(key_, std::move(made)).second;
    }

    bool open(JsonNode::Kind kind) {
        if (open_.size() > 50)
            throw base::bad_input(fmt::format("{}:{}", file_, *lines_), "is nested too deeply");
        // A parent gains no children while this one is open, so the pointer stays good.
        open_.push_back(&place(node(kind)));
        return true;
    }

    bool close() {
        open_.pop_back();
        return true;
    }

    std::string file_;
    std::shared_ptr<int> lines_;
    JsonNode root_;
    std::vector<JsonNode*> open_;
    std::string key_;
};

} // namespace

const JsonNode* JsonNode::find(std::string_view name) const {
    for (const auto& [key, value] : members)
        if (key == name) return &value;
    return nullptr;
}

JsonNode read_json(std::string_view text, const std::string& file) {
    const auto lines = std::make_shared<int>(1);
    TreeBuilder builder(file, lines);
    const CountingIterator begin(text.data(), lines);
    const CountingIterator end(text.data() + text.size(), lines);
    nlohmann::json::sax_parse(begin, end, &builder);
    return builder.take();
}

const char* kind_name(JsonNode::Kind kind) {
    switch (kind) {
    case JsonNode::Kind::null: return "null";
    case JsonNode::Kind::boolean: return "true or false";
    case JsonNode::Kind::number: return "a number";
    case JsonNode::Kind::text: return "text";
    case JsonNode::Kind::list: return "a list";
    case JsonNode::Kind::object: return "an object";
    }
    return "nothing";
}

} // namespace barrow::reading
