#include "print/making/batch.hpp"

#include "print/json/values.hpp"
#include "workshop/shared/quantity_text.hpp"

namespace barrow::print {
namespace {

using base::Money;

Json maybe_money(const std::optional<Money>& amount, const base::Currency& currency) {
    return amount ? Json(base::to_text(*amount, currency)) : Json(nullptr);
}

Json thousandths(std::int64_t value) {
    return number(workshop::thousandths_text(value));
}

Json run_json(const workshop::BatchRunLine& line, const base::Currency& currency) {
    const auto money = [&](Money amount) { return base::to_text(amount, currency); };
    Json json{{"design", line.design},
              {"planned",
               {{"journals", line.planned.journals},
                {"materials", money(line.planned.materials)},
                {"minutes", number(base::to_decimal(line.planned.minutes, 3))},
                {"labour", money(line.planned.labour)},
                {"overheads", money(line.planned.overheads)}}}};
    json["actual"] = nullptr;
    if (line.finished)
        json["actual"] = {{"journals", line.finished->journals},
                          {"seconds", line.seconds},
                          {"materials", money(line.finished->materials)},
                          {"minutes", thousandths(line.finished->minutes)},
                          {"labour", money(line.finished->labour)},
                          {"overheads", money(line.finished->overheads)}};
    return json;
}

} // namespace

std::string document(const workshop::BatchReport& report) {
    const base::Currency& currency = report.settings.currency;
    Json document = begin("batch");
    document["currency"] = currency.code;
    document["batch"] = report.batch.number;
    document["status"] = store::name_of(report.batch.status);
    document["entries"] = Json::array();
    for (const store::Posting& entry : report.entries)
        document["entries"].push_back({{"entry", entry.id},
                                       {"what", entry.kind},
                                       {"day", base::to_text(entry.made_on)},
                                       {"who", entry.who},
                                       {"note", entry.note}});
    document["runs"] = Json::array();
    for (const workshop::BatchRunLine& line : report.runs)
        document["runs"].push_back(run_json(line, currency));
    document["papers"] = Json::array();
    for (const workshop::BatchPapersLine& line : report.papers) {
        Json papers{{"run", line.run}, {"first", line.first}, {"last", line.last}};
        for (const auto& paper : line.papers) papers["slots"][paper.slot] = paper.material;
        document["papers"].push_back(papers);
    }
    document["parts"] = Json::array();
    for (const workshop::BatchPartLine& line : report.parts)
        document["parts"].push_back({{"run", line.run},
                                     {"part", line.part},
                                     {"material", line.material},
                                     {"planned", base::to_text(line.planned, currency)},
                                     {"actual", maybe_money(line.actual, currency)}});
    document["materials"] = Json::array();
    for (const workshop::BatchMaterialLine& line : report.materials)
        document["materials"].push_back({{"material", line.material},
                                         {"planned_sheets", line.planned_sheets},
                                         {"cut_sheets", line.cut_sheets},
                                         {"spoiled", line.spoiled},
                                         {"planned", base::to_text(line.planned, currency)},
                                         {"actual", maybe_money(line.actual, currency)}});
    document["remnants"] = Json::array();
    for (const workshop::BatchRemnantLine& line : report.remnants)
        document["remnants"].push_back({{"number", line.number},
                                        {"material", line.material},
                                        {"size", size_json(line.form, line.size)}});
    return finished(document);
}

std::string document(const std::vector<workshop::BatchListLine>& lines) {
    Json document = begin("batches");
    document["batches"] = Json::array();
    for (const workshop::BatchListLine& line : lines)
        document["batches"].push_back({{"batch", line.batch.number},
                                       {"began", base::to_text(line.began)},
                                       {"journals", line.designs},
                                       {"status", store::name_of(line.batch.status)}});
    return finished(document);
}

} // namespace barrow::print
