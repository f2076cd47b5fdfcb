#pragma once

#include "costing/price/estimate.hpp"
#include "design/work/work_out.hpp"

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

/// Shelves and designs for tests, made by hand without a shop.
namespace barrow::test {

using base::Length;
using base::Money;
using costing::ShelfMaterial;

inline Money pence(std::int64_t minor) {
    return Money::of_minor(minor);
}

inline base::Date day(int number) {
    return base::plus_days(base::read_date("2027-01-01", ""), number);
}

/// So many units of a lot and what they cost together.
struct Bought {
    std::int64_t units = 0;
    std::int64_t pence = 0;
};

inline ShelfMaterial material(const std::string& code, base::Form form, base::StockSize fresh,
                              const std::vector<Bought>& lots) {
    ShelfMaterial made;
    static std::int64_t last_id = 0;
    made.id = ++last_id;
    made.code = code;
    made.name = "test " + code;
    made.form = form;
    made.fresh = fresh;
    made.turn = design::Turn::quarter;
    std::int64_t id = 100 * made.id;
    for (const Bought& lot : lots) {
        const auto per_unit = static_cast<std::int64_t>(fresh.measure());
        made.lots.push_back({++id, fresh, lot.units * per_unit, Money::of_minor(lot.pence),
                             day(static_cast<int>(made.lots.size()))});
    }
    return made;
}

inline ShelfMaterial sheets(const std::string& code, Length width, Length height,
                            const std::vector<Bought>& lots) {
    return material(code, base::Form::sheet, {width.units(), height.units()}, lots);
}

inline ShelfMaterial rolls(const std::string& code, Length length,
                           const std::vector<Bought>& lots) {
    return material(code, base::Form::length, {length.units(), 1}, lots);
}

inline ShelfMaterial strips(const std::string& code, std::int64_t loops,
                            const std::vector<Bought>& lots) {
    return material(code, base::Form::wire, {loops, 1}, lots);
}

inline ShelfMaterial counted(const std::string& code, const std::vector<Bought>& lots) {
    return material(code, base::Form::count, {1, 1}, lots);
}

/// Units are thousandths of a millilitre.
inline ShelfMaterial poured(const std::string& code, const std::vector<Bought>& lots) {
    return material(code, base::Form::bulk, {1, 1}, lots);
}

inline design::WorkedPart part(const std::string& name, const std::string& material,
                               design::Take take, std::int64_t number = 1) {
    design::WorkedPart made;
    made.name = name;
    made.slot = name;
    made.material = material;
    made.take = take;
    made.number = number;
    return made;
}

inline design::WorkedPart piece(const std::string& name, const std::string& material, Length width,
                                Length height, std::int64_t number = 1) {
    design::WorkedPart made = part(name, material, design::Take::piece, number);
    made.width = width;
    made.height = height;
    return made;
}

inline costing::Run run_of(std::vector<design::WorkedPart> parts, std::int64_t journals) {
    costing::Run run;
    run.design.code = "test";
    run.design.name = "Test journal";
    run.design.parts = std::move(parts);
    run.journals = journals;
    return run;
}

/// Free work in a free room, so that only materials cost.
inline costing::Rates no_rates() {
    return {};
}

inline costing::CutOptions quick() {
    costing::CutOptions options;
    options.layout.effort = layout::Effort::quick;
    return options;
}

inline costing::Estimate estimated(const std::vector<costing::Run>& runs,
                                   const std::vector<ShelfMaterial>& shelf,
                                   const costing::CutOptions& options = quick()) {
    return costing::estimate(runs, shelf, no_rates(), options);
}

/// What all sheets cost less what is kept of them, and all that was counted and poured.
inline Money taken_in_all(const costing::Estimate& estimate) {
    Money sum;
    for (const costing::CutPlan& plan : estimate.cuts)
        for (const costing::SheetUse& sheet : plan.sheets) {
            sum += sheet.cost;
            for (const costing::Kept& kept : sheet.kept) sum -= kept.value;
        }
    for (const costing::PlainTake& take : estimate.plains)
        sum += costing::value_of(take.takes) + take.to_buy_cost;
    return sum;
}

inline Money sum_of_lines(const costing::Estimate& estimate) {
    Money sum;
    for (const costing::Line& line : estimate.lines) sum += line.cost;
    return sum;
}

} // namespace barrow::test
