#include "design/work/desk.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

// Glue follows from what is glued:
//   over the area        width x height x spread
//   along an edge        its length x the width of the strip x spread
//   along an overlap     height x overlap x spread, for each join
// and tape is the length of the edges themselves; over an area it is laid in rows side by side.
// A counted part (an envelope) has the sides its material is known to have; a ribbon has its length
// and its width.

namespace barrow::design {
namespace {

using base::Length;
using base::Rational;

/// Sides of what is glued, in millimetres.
struct Sides {
    Rational width;
    Rational height;
};

class Gluing {
public:
    explicit Gluing(Desk& desk) : desk_(desk) {}

    void run() {
        const std::size_t parts = desk_.worked.parts.size();
        for (std::size_t i = 0; i < parts; ++i)
            if (const PartSpec* spec = spec_of(desk_.design.parts, desk_.worked.parts[i].name))
                for (const GlueSpec& glue : spec->glue)
                    desk_.attempt(glue.place, [&] { glue_part(*spec, i, glue); });
        for (std::size_t i = 0; i < desk_.worked.fillers.size(); ++i)
            if (const PartSpec* spec = spec_of(desk_.design.fillers, desk_.worked.fillers[i].name))
                for (const GlueSpec& glue : spec->glue)
                    desk_.attempt(glue.place, [&] { glue_filler(i, glue); });
        for (const AdhesiveSpec& adhesive : desk_.design.adhesives)
            desk_.attempt(adhesive.place, [&] { pour(adhesive); });
    }

private:
    /// What one piece takes of an adhesive: an amount of glue, or runs of tape.
    struct Need {
        Rational amount; ///< mm3, or g by mass
        bool by_mass = false;
        std::map<Rational, std::int64_t> runs; ///< length of tape to how many
        std::string spelled;
    };

    static const PartSpec* spec_of(const std::vector<PartSpec>& specs, const std::string& name) {
        for (const PartSpec& spec : specs)
            if (spec.name == name) return &spec;
        return nullptr;
    }

    const AdhesiveSpec& adhesive_of(const GlueSpec& glue) const {
        for (const AdhesiveSpec& adhesive : desk_.design.adhesives)
            if (adhesive.name == glue.adhesive) return adhesive;
        throw base::bad_input(glue.place.at(),
                              fmt::format("there is no adhesive \"{}\"", glue.adhesive));
    }

    Sides sides_of(const WorkedPart& part, const GlueSpec& glue) {
        const auto fact = [&](const char* name) {
            return desk_.names.value(fmt::format("{}.{}", part.slot, name), glue.place.at()).number;
        };
        switch (part.take) {
        case Take::piece: return {quantity_of(part.width).number, quantity_of(part.height).number};
        case Take::count: return {fact("wide"), fact("long")};
        case Take::length: return {quantity_of(part.length).number, fact("width")};
        case Take::loops:
        case Take::spread: break;
        }
        throw base::bad_input(glue.place.at(), "only pieces, lengths and counted things are glued");
    }

    Rational spread_of(const AdhesiveSpec& adhesive, bool& by_mass) {
        const Quantity value =
            adhesive.spread.empty()
                ? desk_.names.value(adhesive.slot + ".spread", adhesive.place.at())
                : desk_.names.value(adhesive.spread);
        if ((value.dimension != a_spread && value.dimension != a_spread_by_mass)
            || value.number < Rational(0)) {
            if (adhesive.spread.empty()) throw base::broken("a spread that is none");
            Desk::refuse(adhesive.spread, value, "a spread, such as 70 ml/m2");
        }
        by_mass = value.dimension == a_spread_by_mass;
        return value.number;
    }

    Rational width_of(const Formula& formula, const std::string& fact, const Place& place,
                      const std::string& lacking) {
        if (!formula.empty()) return quantity_of(desk_.length_of(formula)).number;
        if (fact.empty()) throw base::bad_input(place.at(), lacking, "for example edge = \"8 mm\"");
        return desk_.names.value(fact, place.at()).number;
    }

    /// What the places of `glue` take, overlaps left out.
    Need need_of(const Sides& sides, const GlueSpec& glue) {
        const AdhesiveSpec& adhesive = adhesive_of(glue);
        Need need;
        Rational spread;
        if (!adhesive.tape) spread = spread_of(adhesive, need.by_mass);
        for (const Glued where : glue.where) {
            if (where == Glued::overlap) continue;
            if (where == Glued::area) {
                add_area(adhesive, sides, spread, need);
            } else {
                const bool upright = where == Glued::left || where == Glued::right;
                add_edge(adhesive, upright ? sides.height : sides.width, spread, need);
            }
        }
        return need;
    }

    void add_area(const AdhesiveSpec& adhesive, const Sides& sides, const Rational& spread,
                  Need& need) {
        if (!adhesive.tape) {
            need.amount = need.amount + sides.width * sides.height * spread;
            return;
        }
        const Rational width =
            width_of(adhesive.width, adhesive.slot + ".width", adhesive.place, {});
        if (width <= Rational(0))
            throw base::bad_input(adhesive.place.at(), "the tape has no width");
        need.runs[sides.height] += (sides.width / width).ceiling();
    }

    void add_edge(const AdhesiveSpec& adhesive, const Rational& length, const Rational& spread,
                  Need& need) {
        if (adhesive.tape) {
            ++need.runs[length];
            return;
        }
        const Rational strip =
            width_of(adhesive.edge, {}, adhesive.place, "it is not said how wide a glued edge is");
        need.amount = need.amount + length * strip * spread;
    }

    void glue_part(const PartSpec& spec, std::size_t index, const GlueSpec& glue) {
        const AdhesiveSpec& adhesive = adhesive_of(glue);
        const WorkedPart part = desk_.worked.parts[index]; // a copy: tape adds to the list
        const Need need = need_of(sides_of(part, glue), glue);
        const Rational number(part.number);
        if (adhesive.tape) {
            for (const auto& [length, runs] : need.runs)
                add_tape(adhesive, part, length, runs, glue);
        } else if (need.amount > Rational(0)) {
            Poured& poured = poured_[adhesive.name];
            poured.amount = poured.amount + number * need.amount;
            poured.by_mass = need.by_mass;
            poured.spelled += (poured.spelled.empty() ? "" : " + ")
                              + to_text({number * need.amount, need.by_mass ? a_mass : a_volume});
            poured.over += (poured.over.empty() ? "" : " + ") + spec.name;
        }
        if (std::find(glue.where.begin(), glue.where.end(), Glued::overlap) != glue.where.end())
            add_overlap(adhesive, part, index);
    }

    WorkedPart used(const AdhesiveSpec& adhesive, const std::string& name, Take take) const {
        WorkedPart part;
        part.name = name;
        for (const WorkedPart& other : desk_.worked.parts)
            if (other.name == name) part.name = name + ", as glued";
        part.slot = adhesive.slot;
        if (const WorkedSlot* slot = worked_slot(desk_, adhesive.slot))
            part.material = slot->material;
        part.take = take;
        return part;
    }

    Length on_grid(const Rational& mm, const GlueSpec& glue) const {
        const auto length = as_length({mm, a_length});
        if (!length || length->is_zero())
            throw base::bad_input(glue.place.at(), "comes to no length of tape");
        return *length;
    }

    void add_tape(const AdhesiveSpec& adhesive, const WorkedPart& glued, const Rational& length,
                  std::int64_t runs, const GlueSpec& glue) {
        WorkedPart part = used(adhesive,
                               fmt::format("{} along {} ({} mm)", adhesive.name, glued.name,
                                           base::to_decimal(length, length.is_whole() ? 0 : 1)),
                               Take::length);
        part.number = glued.number * runs;
        part.length = on_grid(length, glue);
        desk_.worked.parts.push_back(std::move(part));
    }

    void add_overlap(const AdhesiveSpec& adhesive, const WorkedPart& part, std::size_t index) {
        if (!part.joining.allowed()) return;
        ExtraGlue extra = extra_glue(adhesive, ExtraGlue::For::join, index);
        if (adhesive.tape) {
            extra.length = part.height;
        } else {
            const Rational spread = spread_of(adhesive, extra.amount_is_mass);
            extra.amount = shown(quantity_of(part.height).number
                                     * quantity_of(part.joining.overlap).number * spread,
                                 extra.amount_is_mass);
        }
        desk_.worked.extra_glue.push_back(std::move(extra));
    }

    void glue_filler(std::size_t index, const GlueSpec& glue) {
        const AdhesiveSpec& adhesive = adhesive_of(glue);
        const Need need = need_of(sides_of(desk_.worked.fillers[index], glue), glue);
        const auto add = [&](ExtraGlue extra) {
            desk_.worked.extra_glue.push_back(std::move(extra));
        };
        if (!adhesive.tape) {
            ExtraGlue extra = extra_glue(adhesive, ExtraGlue::For::filler, index);
            extra.amount_is_mass = need.by_mass;
            extra.amount = shown(need.amount, need.by_mass);
            add(std::move(extra));
            return;
        }
        for (const auto& [length, runs] : need.runs)
            for (std::int64_t i = 0; i < runs; ++i) {
                ExtraGlue extra = extra_glue(adhesive, ExtraGlue::For::filler, index);
                extra.length = on_grid(length, glue);
                add(std::move(extra));
            }
    }

    ExtraGlue extra_glue(const AdhesiveSpec& adhesive, ExtraGlue::For what,
                         std::size_t index) const {
        ExtraGlue extra;
        extra.what = what;
        extra.part = index;
        extra.slot = adhesive.slot;
        if (const WorkedSlot* slot = worked_slot(desk_, adhesive.slot))
            extra.material = slot->material;
        extra.take = adhesive.tape ? Take::length : Take::spread;
        return extra;
    }

    static Rational shown(const Rational& amount, bool by_mass) {
        return by_mass ? amount : amount / Rational(mm3_per_ml);
    }

    /// All that one journal takes of a glue, as one part.
    void pour(const AdhesiveSpec& adhesive) {
        const auto found = poured_.find(adhesive.name);
        if (found == poured_.end()) return;
        const Poured& poured = found->second;
        WorkedPart part = used(adhesive, adhesive.name, Take::spread);
        part.amount = shown(poured.amount, poured.by_mass);
        part.amount_is_mass = poured.by_mass;
        desk_.explain("part", part.name, poured.over, poured.spelled,
                      {poured.amount, poured.by_mass ? a_mass : a_volume});
        desk_.worked.parts.push_back(std::move(part));
    }

    struct Poured {
        Rational amount;
        bool by_mass = false;
        std::string over;
        std::string spelled;
    };

    Desk& desk_;
    std::map<std::string, Poured> poured_;
};

} // namespace

void work_glue(Desk& desk) {
    Gluing(desk).run();
}

} // namespace barrow::design
