#include "costing/bill.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "costing/joins.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

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

class BillMaker {
public:
    BillMaker(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf)
        : runs_(runs), shelf_(shelf) {}

    Bill make() {
        for (std::size_t r = 0; r < runs_.size(); ++r)
            for (std::size_t p = 0; p < runs_[r].design.parts.size(); ++p) add_part({r, p});
        return std::move(bill_);
    }

private:
    std::string title(const Origin& origin) const {
        const design::Worked& design = runs_[origin.run].design;
        return fmt::format("part \"{}\" of {}", design.parts[origin.part].name, design.code);
    }

    void add_part(const Origin& origin) {
        const Run& run = runs_[origin.run];
        const WorkedPart& part = run.design.parts[origin.part];
        const ShelfMaterial& material = find(part.material, origin);
        refuse_other_form(part, material, origin);
        Demand& demand = demand_for(material);
        const std::int64_t number = part.number * run.journals;
        switch (part.take) {
        case Take::piece: add_pieces(part, material, origin, number, demand); break;
        case Take::length: {
            CutWant want;
            want.origin = origin;
            want.size = {part.length.units(), 1};
            want.count = number;
            demand.cuts.push_back(want);
            break;
        }
        case Take::loops: {
            CutWant want;
            want.origin = origin;
            want.size = {part.loops, 1};
            want.count = number;
            demand.cuts.push_back(want);
            break;
        }
        case Take::count: demand.plains.push_back({origin, number}); break;
        case Take::spread: {
            const base::Rational thousandths =
                part.amount * base::Rational(base::bulk_per_unit) * base::Rational(number);
            demand.plains.push_back({origin, thousandths.ceiling()});
            break;
        }
        }
    }

    const ShelfMaterial& find(const std::string& code, const Origin& origin) const {
        std::vector<std::string> codes;
        for (const ShelfMaterial& material : shelf_) {
            if (base::lowered(material.code) == base::lowered(code)) return material;
            codes.push_back(material.code);
        }
        throw base::bad_input(title(origin),
                              fmt::format("the shop has no material with the code {}", code),
                              base::did_you_mean(code, codes));
    }

    void refuse_other_form(const WorkedPart& part, const ShelfMaterial& material,
                           const Origin& origin) const {
        if (form_for(part.take) != material.form)
            throw base::bad_input(title(origin),
                                  fmt::format("wants {}, but {} is kept as {}", wants_of(part.take),
                                              material.code, base::name_of(material.form)),
                                  "choose another material or change the part");
        if (part.take == Take::spread && part.amount_is_mass != material.bulk_is_mass)
            throw base::bad_input(title(origin),
                                  fmt::format("is given in {}, but {} is kept in {}",
                                              part.amount_is_mass ? "g" : "ml", material.code,
                                              material.bulk_is_mass ? "g" : "ml"));
    }

    Demand& demand_for(const ShelfMaterial& material) {
        for (Demand& demand : bill_.demands)
            if (demand.material == &material) return demand;
        bill_.demands.push_back({&material, {}, {}});
        return bill_.demands.back();
    }

    /// How far the piece may be turned on this material, and whether its grain asks for it to be
    /// cut crosswise. A part that says its turn decides; otherwise the pattern does.
    void settle_direction(const WorkedPart& part, const ShelfMaterial& material,
                          const Origin& origin, CutWant& want) {
        want.turn = part.turn.value_or(material.turn);
        if (!part.grain || !material.grain) return;
        if (*part.grain == *material.grain) {
            want.turn = std::min(want.turn, Turn::half);
        } else if (want.turn == Turn::quarter) {
            want.crosswise = true;
            want.turn = Turn::half;
        } else {
            bill_.warnings.push_back(fmt::format(
                "{}: the grain of {} runs the other way, and its pattern does not let it be turned",
                title(origin), material.code));
        }
    }

    /// Widest piece of that height that a sheet as bought holds, in a position the want allows.
    /// Offcuts and lots of odd sizes are left out: they come and go, and a design should not
    /// change its joins with them.
    static std::int64_t widest(const ShelfMaterial& material, const CutWant& want) {
        const StockSize room = usable(material.fresh, material.trim);
        const StockSize upright = want.crosswise ? StockSize{room.height, room.width} : room;
        std::int64_t most = 0;
        if (want.size.height <= upright.height) most = upright.width;
        if (want.turn == Turn::quarter && want.size.height <= upright.width)
            most = std::max(most, upright.height);
        return most;
    }

    void add_pieces(const WorkedPart& part, const ShelfMaterial& material, const Origin& origin,
                    std::int64_t number, Demand& demand) {
        CutWant want;
        want.origin = origin;
        want.size = {part.width.units(), part.height.units()};
        want.count = number;
        settle_direction(part, material, origin, want);
        const std::int64_t most = widest(material, want);
        const auto pieces =
            divide_panel(part.width, part.joining.at, part.joining.overlap, Length::of_units(most));
        if (!pieces || most == 0) throw too_large(part, material, origin);
        want.joined_from = pieces->size();
        for (std::size_t i = 0; i < pieces->size(); ++i) {
            want.joint = i;
            want.starts_at = (*pieces)[i].start;
            want.size.width = (*pieces)[i].width.units();
            demand.cuts.push_back(want);
        }
    }

    base::Error too_large(const WorkedPart& part, const ShelfMaterial& material,
                          const Origin& origin) const {
        const StockSize room = usable(material.fresh, material.trim);
        const auto mm = [](std::int64_t units) { return base::mm_text(Length::of_units(units)); };
        return base::refused(
            fmt::format("{}: {} x {} mm cannot be cut from {}, whose sheets are {} x {} mm",
                        title(origin), base::mm_text(part.width), base::mm_text(part.height),
                        material.code, mm(room.width), mm(room.height)),
            part.joining.at.empty()
                ? "it has no fold to join at: give the part join = \"folds\" and an overlap, or "
                  "choose a larger sheet"
                : "not even joined at its folds: choose a larger sheet or a smaller journal");
    }

    const std::vector<Run>& runs_;
    const std::vector<ShelfMaterial>& shelf_;
    Bill bill_;
};

} // namespace

Bill make_bill(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf) {
    return BillMaker(runs, shelf).make();
}

} // namespace barrow::costing
