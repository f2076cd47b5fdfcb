#include "print/selling/journals.hpp"

#include "print/json/values.hpp"

namespace barrow::print {

namespace {

Json papers_json(const std::vector<store::JournalPaper>& papers) {
    Json result = Json::object();
    for (const store::JournalPaper& paper : papers) result[paper.slot] = paper.material;
    return result;
}

} // namespace

std::string document(const workshop::Journals& journals) {
    Json document = begin("journals");
    const base::Currency& currency = journals.settings.currency;
    document["currency"] = currency.code;
    document["journals"] = Json::array();
    for (std::size_t i = 0; i < journals.lines.size(); ++i) {
        const store::JournalOnHand& line = journals.lines[i];
        const store::Journal& j = line.journal;
        const auto& asked = journals.asked[i];
        document["journals"].push_back(
            {{"serial", j.serial},
             {"design", line.design_code},
             {"batch", line.batch_number},
             {"materials", base::to_text(j.materials, currency)},
             {"labour", base::to_text(j.labour, currency)},
             {"overheads", base::to_text(j.overheads, currency)},
             {"cost", base::to_text(j.cost(), currency)},
             {"place", j.place},
             {"condition", j.second ? "second" : "good"},
             {"price", j.price ? Json(base::to_text(*j.price, currency)) : Json(nullptr)},
             {"asked", asked ? Json(base::to_text(*asked, currency)) : Json(nullptr)},
             {"papers", papers_json(j.papers)},
             {"note", j.note}});
    }
    return finished(document);
}

} // namespace barrow::print
