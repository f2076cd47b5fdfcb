#include "print/selling/fairs.hpp"

#include "print/json/values.hpp"

namespace barrow::print {
namespace {

using base::Money;
using workshop::FairView;

Json fair_json(const FairView& view) {
    const auto money = [&](Money amount) { return base::to_text(amount, view.settings.currency); };
    Json json{{"fair", view.fair.number},
              {"name", view.fair.name},
              {"day", base::to_text(view.fair.held_on)},
              {"entry", view.fair.noted.id},
              {"taken_back", view.fair.undone},
              {"taken_along", view.fair.journals.size()},
              {"sold", view.sold},
              {"takings", money(view.takings)},
              {"materials", money(view.materials)},
              {"labour", money(view.labour)},
              {"overheads", money(view.overheads)},
              {"costs", Json::array()},
              {"left", money(view.left())},
              {"profit", money(view.profit())},
              {"to_cover", view.to_cover ? Json(*view.to_cover) : Json(nullptr)},
              {"journals", Json::array()}};
    for (const store::FairCost& cost : view.fair.costs)
        json["costs"].push_back({{"what", cost.what}, {"amount", money(cost.amount)}});
    for (std::size_t i = 0; i < view.fair.journals.size(); ++i) {
        const store::FairJournal& one = view.fair.journals[i];
        json["journals"].push_back(
            {{"serial", one.journal.serial},
             {"design", one.design_name},
             {"cost", money(one.journal.cost())},
             {"asked", view.asked[i] ? Json(money(*view.asked[i])) : Json(nullptr)},
             {"sold_for", one.sold_for ? Json(money(*one.sold_for)) : Json(nullptr)}});
    }
    return json;
}

} // namespace

std::string document(const FairView& fair) {
    Json document = begin("fair");
    document["currency"] = fair.settings.currency.code;
    document.update(fair_json(fair));
    return finished(document);
}

std::string document(const workshop::Fairs& fairs) {
    Json document = begin("fairs");
    document["currency"] = fairs.settings.currency.code;
    document["fairs"] = Json::array();
    for (const FairView& view : fairs.fairs) {
        document["fairs"].push_back(fair_json(view));
    }
    return finished(document);
}

} // namespace barrow::print
