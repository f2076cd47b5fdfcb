#include "print/making/cost.hpp"

#include "base/error.hpp"
#include "print/making/layout.hpp"
#include "print/making/plans_json.hpp"
#include "print/making/warnings.hpp"
#include "workshop/shared/quantity_text.hpp"

namespace barrow::print {
namespace {

using base::Form;
using base::Money;
using costing::CutPlan;
using costing::SheetUse;
using costing::Source;

class CostDocument {
public:
    explicit CostDocument(const workshop::Costing& costing)
        : costing_(costing), currency_(costing.settings.currency) {}

    std::string text() const {
        Json document = begin("cost");
        document["currency"] = currency_.code;
        document["design"] = costing_.runs.front().design.code;
        document["make"] = costing_.runs.front().journals;
        document["lines"] = Json::array();
        for (const costing::Line& line : costing_.estimate.lines)
            document["lines"].push_back(line_json(line));
        document["papers"] = Json::array();
        for (const costing::PaperRow& row : costing_.estimate.rows)
            document["papers"].push_back(row_json(row));
        put_totals(document, 0);
        document["shortages"] = Json::array();
        for (const costing::Shortage& shortage : costing_.estimate.shortages)
            document["shortages"].push_back(shortage_json(shortage));
        put_warnings(document, costing_.warnings);
        document["hazards"] = costing_.hazards;
        document["plan"] = {{"materials", Json::array()}};
        for (const CutPlan& plan : costing_.estimate.cuts)
            document["plan"]["materials"].push_back(plan_json(plan));
        return finished(document);
    }

private:
    std::string money(Money amount) const { return base::to_text(amount, currency_); }

    static Json share(const base::Rational& value) {
        return number(base::to_decimal(value * base::Rational(100), 4));
    }

    Json line_json(const costing::Line& line) const {
        const bool pieces = line.form == Form::sheet;
        const auto quantity = [&](std::int64_t value) {
            return pieces ? Json(value) : quantity_number(line.form, value);
        };
        return {{"part", line.part},
                {"material", line.material},
                {"quantity", quantity(line.quantity)},
                {"from_box", quantity(line.from_box)},
                {"unit", pieces ? "piece" : quantity_unit(line.form, line.bulk_is_mass)},
                {"cost", money(line.cost)},
                {"cost_new", money(line.cost_new)},
                {"cost_offcuts", money(line.cost_offcuts)},
                {"waste_cost", money(line.waste_cost)},
                {"joined_from", line.joined_from}};
    }

    Json row_json(const costing::PaperRow& row) const {
        Json json{{"run", row.run}, {"first", row.first}, {"last", row.last}};
        for (const auto& [slot, paper] : row.papers)
            json["slots"][slot] = (*costing_.shelf)[paper].code;
        return json;
    }

    void put_totals(Json& document, std::size_t run) const {
        const costing::RunTotals& totals = costing_.estimate.runs[run];
        document["materials"] = money(totals.materials);
        document["labour"] = money(totals.labour);
        document["minutes"] = number(base::to_decimal(totals.minutes, 3));
        document["overheads"] = money(totals.overheads);
        document["total"] = money(totals.total);
        document["unit_cost"] = money(totals.unit_cost);
        document["price"] = nullptr;
        document["labour_counted"] = costing_.settings.per_hour.has_value();
        if (!costing_.prices[run]) return;
        const costing::Price& price = *costing_.prices[run];
        document["price"] = {{"wanted_margin_percent", share(price.wanted_margin)},
                             {"exact", money(price.exact)},
                             {"asked", money(price.asked)},
                             {"profit", money(price.profit)},
                             {"margin_percent", share(price.margin)},
                             {"markup_percent", share(price.markup)}};
    }

    Json shortage_json(const costing::Shortage& shortage) const {
        return {{"material", shortage.material},
                {"name", shortage.name},
                {"short", shortage.form == Form::bulk
                              ? number(workshop::thousandths_text(shortage.units))
                              : Json(shortage.units)},
                {"unit", workshop::unit_word(shortage.form, shortage.bulk_is_mass)},
                {"cost", shortage.cost ? Json(money(*shortage.cost)) : Json(nullptr)},
                {"freight_percent", share(shortage.freight)}};
    }

    static Json source_json(const CutPlan& plan, const SheetUse& sheet) {
        switch (sheet.source.kind) {
        case Source::Kind::lot: return {{"kind", "lot"}, {"lot", sheet.source.id}};
        case Source::Kind::to_buy: return {{"kind", "to_buy"}};
        case Source::Kind::offcut:
            for (const costing::ShelfOffcut& offcut : plan.material->offcuts)
                if (offcut.id == sheet.source.id)
                    return {{"kind", "offcut"}, {"code", offcut.code}};
        }
        throw base::broken("a sheet from nowhere");
    }

    Json plan_json(const CutPlan& plan) const {
        const bool loops = plan.material->form == Form::wire;
        const LayoutNumbers numbers{[loops](layout::Measure value) {
                                        return loops ? std::to_string(value)
                                                     : base::mm_text(base::Length::of_units(value));
                                    },
                                    [](layout::Cost cost) { return std::to_string(cost); }};
        Json json{{"material", plan.material->code},
                  {"form", base::name_of(plan.material->form)},
                  {"status", status_name(plan.outcome.status)},
                  {"from_box", plan.from_box},
                  {"sheets", Json::array()}};
        for (const SheetUse& sheet : plan.sheets) {
            Json own{{"plan", sheet.plan},
                     {"source", source_json(plan, sheet)},
                     {"cost", money(sheet.cost)},
                     {"kept", Json::array()}};
            for (const costing::Kept& kept : sheet.kept) own["kept"].push_back(money(kept.value));
            json["sheets"].push_back(own);
        }
        json["pieces"] = Json::object();
        for (std::size_t i = 0; i < plan.wants.size(); ++i) {
            const costing::CutWant& want = plan.wants[i];
            json["pieces"][plan.job.pieces[i].id] = {
                {"part", costing::part_name(costing_.runs[want.origin.run], want.origin.part)},
                {"run", want.origin.run},
                {"joint", want.joint + 1},
                {"joined_from", want.joined_from}};
        }
        json["plans"] = plans_json(plan.job, plan.outcome, numbers);
        return json;
    }

    const workshop::Costing& costing_;
    const base::Currency& currency_;
};

} // namespace

std::string document(const workshop::Costing& costing) {
    return CostDocument(costing).text();
}

} // namespace barrow::print
