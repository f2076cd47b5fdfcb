#include "costing/bill/cut_wants.hpp"

#include "base/error.hpp"
#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

namespace barrow::costing {
namespace {

using base::Length;
using design::Take;
using design::Turn;
using design::WorkedPart;

Form form_for(Take take) {
    switch (take) {
    case Take::piece: return Form::sheet;
    case Take::length: return Form::length;
    case Take::loops: return Form::wire;
    case Take::count: return Form::count;
    case Take::spread: return Form::bulk;
    }
    throw base::broken("a part that takes its material in no way");
}

std::string_view wants_of(Take take) {
    switch (take) {
    case Take::piece: return "pieces cut from a sheet";
    case Take::length: return "a length";
    case Take::loops: return "loops of wire";
    case Take::count: return "a counted thing";
    case Take::spread: return "an amount in ml or g";
    }
    throw base::broken("a part that takes its material in no way");
}

/// Room a sheet leaves inside what is trimmed off.
StockSize usable(const StockSize& size, const Trim& trim) {
    return {size.width - trim.left.units() - trim.right.units(),
            size.height - trim.top.units() - trim.bottom.units()};
}

} // namespace

std::string title_of(const Run& run, std::size_t part) {
    return fmt::format("part \"{}\" of {}", part_name(run, part), run.design.code);
}

std::size_t material_index(const std::vector<ShelfMaterial>& shelf, const std::string& code,
                           const std::string& where) {
    std::vector<std::string> codes;
    for (std::size_t i = 0; i < shelf.size(); ++i) {
        if (base::lowered(shelf[i].code) == base::lowered(code)) return i;
        codes.push_back(shelf[i].code);
    }
    throw base::bad_input(where, fmt::format("the shop has no material with the code {}", code),
                          base::did_you_mean(code, codes));
}

bool form_fits(const WorkedPart& part, const ShelfMaterial& material) {
    return form_for(part.take) == material.form
           && (part.take != Take::spread || part.amount_is_mass == material.bulk_is_mass);
}

void refuse_other_form(const WorkedPart& part, const ShelfMaterial& material,
                       const std::string& where) {
    if (form_fits(part, material)) return;
    if (form_for(part.take) != material.form)
        throw base::bad_input(where,
                              fmt::format("wants {}, but {} is kept as {}", wants_of(part.take),
                                          material.code, base::name_of(material.form)),
                              "choose another material or change the part");
    throw base::bad_input(where, fmt::format("is given in {}, but {} is kept in {}",
                                             part.amount_is_mass ? "g" : "ml", material.code,
                                             material.bulk_is_mass ? "g" : "ml"));
}

bool grain_is_lost(const WorkedPart& part, const ShelfMaterial& material) {
    return part.take == Take::piece && part.grain && material.grain
           && *part.grain != *material.grain && part.turn.value_or(material.turn) != Turn::quarter;
}

CutWant want_for(const WorkedPart& part, const ShelfMaterial& material, const Origin& origin) {
    CutWant want;
    want.origin = origin;
    if (part.take == Take::length) want.size = {part.length.units(), 1};
    if (part.take == Take::loops) want.size = {part.loops, 1};
    if (part.take != Take::piece) return want;
    want.size = {part.width.units(), part.height.units()};
    want.turn = part.turn.value_or(material.turn);
    if (!part.grain || !material.grain) return want;
    if (*part.grain == *material.grain) {
        want.turn = std::min(want.turn, Turn::half);
    } else if (want.turn == Turn::quarter) {
        want.crosswise = true;
        want.turn = Turn::half;
    }
    return want;
}

std::vector<Length> widths_for(const CutWant& want, const ShelfMaterial& material,
                               bool offcuts_only) {
    std::vector<StockSize> rooms;
    if (!offcuts_only) {
        rooms.push_back(usable(material.fresh, material.trim));
        for (const ShelfLot& lot : material.lots)
            if (lot.quantity > 0) rooms.push_back(usable(lot.size, material.trim));
    }
    for (const ShelfOffcut& offcut : material.offcuts) rooms.push_back(offcut.size);
    std::vector<Length> widths;
    for (const StockSize& room : rooms) {
        const StockSize upright = want.crosswise ? StockSize{room.height, room.width} : room;
        if (want.size.height <= upright.height) widths.push_back(Length::of_units(upright.width));
        if (want.turn == Turn::quarter && want.size.height <= upright.width)
            widths.push_back(Length::of_units(upright.height));
    }
    std::sort(widths.begin(), widths.end(), std::greater<>());
    widths.erase(std::unique(widths.begin(), widths.end()), widths.end());
    return widths;
}

base::Rational plain_quantity(const WorkedPart& part) {
    return part.take == Take::spread ? part.amount * base::Rational(base::bulk_per_unit)
                                     : base::Rational(1);
}

} // namespace barrow::costing
