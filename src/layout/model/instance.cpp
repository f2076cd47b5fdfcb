#include "layout/model/instance.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace barrow::layout {
namespace {

bool may_turn(const Job& job, const Piece& piece) {
    return !job.one_dimensional && piece.turn == Turn::quarter && piece.width != piece.height;
}

Measure usable_width(const Stock& stock) {
    return stock.width - stock.margin.left - stock.margin.right;
}

Measure usable_height(const Stock& stock) {
    return stock.height - stock.margin.top - stock.margin.bottom;
}

bool fits(const Job& job, const Piece& piece, const Stock& stock) {
    const Measure width = usable_width(stock);
    const Measure height = usable_height(stock);
    return (piece.width <= width && piece.height <= height)
           || (may_turn(job, piece) && piece.height <= width && piece.width <= height);
}

/// Stock entries the search may use: only the first when one sheet is to be filled.
std::size_t stocks_of(const Job& job) {
    return job.goal == Goal::most_value ? 1 : job.stock.size();
}

bool is_there(const Stock& stock) {
    return stock.count.value_or(1) > 0 && usable_width(stock) > 0 && usable_height(stock) > 0;
}

/// Indices of the pieces wanted that fit some stock; the others go to instance.too_large.
std::vector<std::size_t> placeable(const Job& job, Instance& instance) {
    std::vector<std::size_t> answer;
    const auto last = job.stock.begin() + static_cast<std::ptrdiff_t>(stocks_of(job));
    for (std::size_t i = 0; i < job.pieces.size(); ++i) {
        if (job.pieces[i].count.value_or(1) == 0) continue;
        const bool found = std::any_of(job.stock.begin(), last, [&](const Stock& stock) {
            return is_there(stock) && fits(job, job.pieces[i], stock);
        });
        (found ? answer : instance.too_large).push_back(i);
    }
    return answer;
}

void choose_units(const Job& job, const std::vector<std::size_t>& pieces, Instance& instance) {
    Measure across = 0;
    Measure up = 0;
    bool mixed = false;
    for (const std::size_t i : pieces) {
        const Piece& piece = job.pieces[i];
        across = std::gcd(across, piece.width + instance.kerf_x);
        up = std::gcd(up, piece.height + instance.kerf_y);
        mixed = mixed || may_turn(job, piece);
    }
    if (mixed) across = up = std::gcd(across, up);
    instance.unit_x = std::max<Measure>(across, 1);
    instance.unit_y = std::max<Measure>(up, 1);
}

Sheet sheet_of(const Instance& instance, const Stock& stock, std::size_t index) {
    const Measure width = usable_width(stock) + instance.kerf_x;
    const Measure height = usable_height(stock) + instance.kerf_y;
    Sheet sheet;
    sheet.width = static_cast<Length>(width / instance.unit_x);
    sheet.height = static_cast<Length>(height / instance.unit_y);
    sheet.cost = stock.cost;
    sheet.copies = stock.count.value_or(unlimited);
    sheet.offcut = stock.offcut;
    sheet.age = stock.age;
    sheet.true_area = usable_width(stock) * usable_height(stock);
    sheet.sources.push_back({index, sheet.copies, false});
    return sheet;
}

Item item_of(const Job& job, const Instance& instance, std::size_t index) {
    const Piece& piece = job.pieces[index];
    Item item;
    item.width = static_cast<Length>((piece.width + instance.kerf_x) / instance.unit_x);
    item.height = static_cast<Length>((piece.height + instance.kerf_y) / instance.unit_y);
    item.turns = may_turn(job, piece);
    item.demand = piece.count.value_or(unlimited);
    item.value = job.goal == Goal::most_value ? piece.value : 0;
    // Turnable pieces are stored wider than high, so that equal ones are recognised.
    const bool swapped = item.turns && item.height > item.width;
    if (swapped) std::swap(item.width, item.height);
    item.sources.push_back({index, item.demand, swapped});
    return item;
}

void add_sheet(Instance& instance, Sheet sheet) {
    const auto key = [](const Sheet& s) {
        // Among offcuts the search cannot tell apart, the smaller true area goes first.
        return std::tuple(s.width, s.height, s.cost, s.offcut, s.age, s.offcut ? s.true_area : 0);
    };
    for (Sheet& other : instance.sheets) {
        if (key(other) != key(sheet)) continue;
        other.copies = std::min(unlimited, other.copies + sheet.copies);
        other.sources.push_back(sheet.sources.front());
        return;
    }
    instance.sheets.push_back(std::move(sheet));
}

void add_item(Instance& instance, Item item) {
    const auto key = [](const Item& i) { return std::tuple(i.width, i.height, i.turns, i.value); };
    for (Item& other : instance.items) {
        if (key(other) != key(item)) continue;
        other.demand = std::min(unlimited, other.demand + item.demand);
        other.sources.push_back(item.sources.front());
        return;
    }
    instance.items.push_back(std::move(item));
}

/// Most copies that fit by area: a limit where the job gives none (most_value).
void limit_by_area(Instance& instance) {
    const std::int64_t area = instance.sheets.front().area();
    for (Item& item : instance.items) item.demand = std::min(item.demand, area / item.area());
}

template <typename Visit>
void each_measure(Job& job, const Visit& visit) {
    const auto side = [&](Measure& width, Measure& height) {
        visit(width);
        if (!job.one_dimensional) visit(height);
    };
    visit(job.kerf);
    visit(job.useful.shorter);
    visit(job.useful.longer);
    if (job.trimmer) visit(*job.trimmer);
    for (Stock& stock : job.stock) {
        side(stock.width, stock.height);
        side(stock.margin.left, stock.margin.top);
        side(stock.margin.right, stock.margin.bottom);
    }
    for (Piece& piece : job.pieces) side(piece.width, piece.height);
}

} // namespace

bool Instance::holds(const Sheet& sheet, const Item& item) const {
    return (item.width <= sheet.width && item.height <= sheet.height)
           || (item.turns && item.height <= sheet.width && item.width <= sheet.height);
}

std::int64_t Instance::pieces_wanted() const {
    std::int64_t sum = 0;
    for (const Item& item : items) sum += item.demand;
    return sum;
}

bool Instance::one_dimensional() const {
    const Length height = items.front().height;
    return std::none_of(items.begin(), items.end(),
                        [&](const Item& i) { return i.turns || i.height != height; })
           && std::none_of(sheets.begin(), sheets.end(),
                           [&](const Sheet& s) { return s.height / 2 >= height; });
}

bool Instance::has_offcuts() const {
    return std::any_of(sheets.begin(), sheets.end(),
                       [](const Sheet& sheet) { return sheet.offcut; });
}

Instance instance_of(const Job& job) {
    Instance instance;
    instance.kerf_x = job.kerf;
    instance.kerf_y = job.one_dimensional ? 0 : job.kerf;
    const std::vector<std::size_t> pieces = placeable(job, instance);
    choose_units(job, pieces, instance);
    for (const std::size_t i : pieces) add_item(instance, item_of(job, instance, i));
    for (std::size_t i = 0; i < stocks_of(job); ++i) {
        if (!is_there(job.stock[i])) continue;
        Sheet sheet = sheet_of(instance, job.stock[i], i);
        // A sheet that holds no piece would only slow the search down.
        if (std::any_of(instance.items.begin(), instance.items.end(),
                        [&](const Item& item) { return instance.holds(sheet, item); }))
            add_sheet(instance, std::move(sheet));
    }
    if (job.goal == Goal::most_value && !instance.sheets.empty()) limit_by_area(instance);
    return instance;
}

void bring_into_order(Instance& instance) {
    std::sort(instance.items.begin(), instance.items.end(), [](const Item& a, const Item& b) {
        const auto key = [](const Item& i) {
            return std::tuple(-i.area(), -i.width, -i.height, i.turns, i.value);
        };
        return key(a) < key(b);
    });
    std::sort(instance.sheets.begin(), instance.sheets.end(), [](const Sheet& a, const Sheet& b) {
        const auto key = [](const Sheet& s) {
            return std::tuple(s.offcut, s.cost, -s.area(), -s.width, -s.height, s.age,
                              s.offcut ? s.true_area : 0);
        };
        return key(a) < key(b);
    });
}

Measure common_factor(const Job& job) {
    Job copy = job;
    Measure factor = 0;
    each_measure(copy, [&](Measure& measure) {
        if (measure > 0) factor = std::gcd(factor, measure);
    });
    return std::max<Measure>(factor, 1);
}

Job divided(const Job& job, Measure factor) {
    Job copy = job;
    each_measure(copy, [&](Measure& measure) { measure /= factor; });
    return copy;
}

} // namespace barrow::layout
