#include "print/making/yields.hpp"

#include "print/json/values.hpp"
#include "print/making/layout.hpp"
#include "print/making/plans_json.hpp"

namespace barrow::print {
namespace {

using workshop::Yields;

std::string amount(const Yields& yields, const base::Rational& worth) {
    return base::to_decimal(worth, yields.settings.currency.exponent);
}

Json kept_json(const Yields& yields) {
    Json kept = Json::array();
    for (const costing::Kept& one : yields.sheet.kept)
        kept.push_back(
            {{"size", size_json(yields.material.form, {one.place.width, one.place.height})},
             {"value", base::to_text(one.value, yields.settings.currency)},
             {"keeps_label", one.keeps_code}});
    return kept;
}

} // namespace

std::string document(const Yields& yields) {
    const base::Currency& currency = yields.settings.currency;
    const base::Form form = yields.material.form;
    const store::Offcut& offcut = yields.offcut.offcut;
    Json document = begin("yields");
    document["currency"] = currency.code;
    document["offcut"] = offcut.code;
    document["material"] = yields.material.code;
    document["form"] = base::name_of(form);
    document["size"] = size_json(form, offcut.size);
    document["value"] = base::to_text(yields.offcut.value, currency);
    document["age_days"] = yields.age_days;
    document["reserved_for"] = yields.reserved_for;
    document["fillers"] = Json::array();
    for (const workshop::YieldLine& line : yields.lines)
        document["fillers"].push_back({{"design", line.design},
                                       {"filler", line.filler},
                                       {"size", size_json(form, line.size)},
                                       {"worth", amount(yields, line.worth)},
                                       {"alone", line.alone},
                                       {"chosen", line.chosen}});
    document["left_out"] = yields.left_out;
    const bool any = yields.choice.plan() != nullptr;
    document["worth"] = amount(yields, yields.worth);
    document["status"] = any ? Json(status_name(yields.choice.outcome.status)) : Json(nullptr);
    document["cost"] = base::to_text(yields.pays, currency);
    document["kept"] = kept_json(yields);
    document["pieces"] = Json::object();
    document["plans"] = Json::array();
    if (any) {
        const layout::Job& job = yields.choice.job;
        for (std::size_t i = 0; i < job.pieces.size(); ++i) {
            const workshop::YieldLine& line = yields.lines[yields.choice.which[i]];
            document["pieces"][job.pieces[i].id] = {{"design", line.design},
                                                    {"filler", line.filler}};
        }
        const LayoutNumbers numbers{[form](layout::Measure value) {
                                        return form == base::Form::wire
                                                   ? std::to_string(value)
                                                   : base::mm_text(base::Length::of_units(value));
                                    },
                                    [](layout::Cost cost) { return std::to_string(cost); }};
        document["plans"] = plans_json(job, yields.choice.outcome, numbers);
    }
    document["hazards"] = yields.hazards;
    return finished(document);
}

} // namespace barrow::print
