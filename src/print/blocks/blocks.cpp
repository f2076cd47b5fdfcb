#include "print/blocks/blocks.hpp"

#include "base/error.hpp"

namespace barrow::print {
namespace {

bool is_empty(const Heading& heading) {
    return heading.text.empty();
}
bool is_empty(const Text& text) {
    return text.text.empty();
}
bool is_empty(const Facts& facts) {
    return facts.groups.empty();
}
bool is_empty(const Table& table) {
    return table.empty();
}
bool is_empty(const Steps& steps) {
    return steps.steps.empty();
}
bool is_empty(const Drawing& drawing) {
    return drawing.svg.empty();
}
bool is_empty(const Cautions& cautions) {
    return cautions.texts.empty();
}

} // namespace

bool is_right_aligned(Kind kind) {
    return kind == Kind::money || kind == Kind::length || kind == Kind::quantity
           || kind == Kind::count;
}

const char* name_of(Link::To to) {
    switch (to) {
    case Link::To::material: return "material";
    case Link::To::lot: return "lot";
    case Link::To::offcut: return "offcut";
    case Link::To::journal: return "journal";
    case Link::To::batch: return "batch";
    case Link::To::design: return "design";
    case Link::To::fair: return "fair";
    case Link::To::order: return "order";
    case Link::To::supplier: return "supplier";
    case Link::To::entry: return "entry";
    }
    throw base::broken("a link to nothing");
}

Cell money(base::Money amount, const base::Currency& currency) {
    return {base::to_text(amount, currency), Kind::money};
}

Cell money(const std::optional<base::Money>& amount, const base::Currency& currency) {
    return amount ? money(*amount, currency) : Cell();
}

Cell count(std::int64_t number) {
    return {std::to_string(number), Kind::count};
}

Cell date(base::Date day) {
    return {base::to_text(day), Kind::date};
}

Cell label(std::string code) {
    return {std::move(code), Kind::label};
}

Cell link(Link::To to, const std::string& code) {
    Cell cell(code, Kind::label);
    if (!code.empty()) cell.link = Link{to, code};
    return cell;
}

Cell link(Link::To to, std::int64_t number) {
    Cell cell = count(number);
    cell.link = Link{to, cell.text};
    return cell;
}

Text note(const std::string& text) {
    return {"Note: " + text, 6};
}

void Table::row(std::vector<Cell> cells) {
    cells.resize(columns_.size());
    rows_.push_back(std::move(cells));
}

void Table::gap() {
    rows_.emplace_back();
}

std::vector<bool> Table::shown() const {
    std::vector<bool> shown(columns_.size(), false);
    for (const auto& row : rows_)
        for (std::size_t c = 0; c < row.size(); ++c)
            if (!row[c].text.empty()) shown[c] = true;
    return shown;
}

void Blocks::add(Content what, std::size_t indent) {
    if (std::visit([](const auto& own) { return is_empty(own); }, what)) return;
    list.push_back({std::move(what), false, indent});
}

void Blocks::under(Content what, std::size_t indent) {
    if (std::visit([](const auto& own) { return is_empty(own); }, what)) return;
    list.push_back({std::move(what), true, indent});
}

void Blocks::add_all(const Blocks& other) {
    list.insert(list.end(), other.list.begin(), other.list.end());
}

} // namespace barrow::print
