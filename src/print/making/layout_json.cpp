#include "print/making/layout.hpp"

#include "base/error.hpp"
#include "print/making/plans_json.hpp"

namespace barrow::print {
namespace {

Json rectangle_json(const layout::Rectangle& r, bool flat, const LayoutNumbers& numbers) {
    const auto measure = [&](layout::Measure value) { return number(numbers.measure(value)); };
    if (flat) return Json{{"x", measure(r.x)}, {"length", measure(r.width)}};
    return Json{{"x", measure(r.x)},
                {"y", measure(r.y)},
                {"width", measure(r.width)},
                {"height", measure(r.height)}};
}

Json cut_json(const layout::Cut& cut, std::size_t n, bool flat, const LayoutNumbers& numbers) {
    Json json{{"n", n},
              {"axis", cut.axis == layout::Cut::Axis::x ? "x" : "y"},
              {"at", number(numbers.measure(cut.at))}};
    if (!flat) {
        json["from"] = number(numbers.measure(cut.from));
        json["to"] = number(numbers.measure(cut.to));
    }
    json["stop"] = number(numbers.measure(cut.stop));
    if (cut.beyond_trimmer) json["beyond_trimmer"] = true;
    return json;
}

const char* effort_name(layout::Effort effort) {
    switch (effort) {
    case layout::Effort::quick: return "quick";
    case layout::Effort::normal: return "normal";
    case layout::Effort::thorough: return "thorough";
    }
    throw base::broken("an effort without a name");
}

} // namespace

const char* status_name(layout::Status status) {
    switch (status) {
    case layout::Status::optimal: return "optimal";
    case layout::Status::feasible: return "feasible";
    case layout::Status::not_found: return "not_found";
    case layout::Status::infeasible: return "infeasible";
    }
    throw base::broken("a status without a name");
}

Json plans_json(const layout::Job& job, const layout::Outcome& outcome,
                const LayoutNumbers& numbers) {
    const bool flat = job.one_dimensional;
    Json plans = Json::array();
    for (const layout::Plan& plan : outcome.plans) {
        Json json{{"stock", job.stock[plan.stock].id}, {"copies", plan.copies}};
        json["pieces"] = Json::array();
        for (const layout::Placed& placed : plan.pieces) {
            Json piece{{"id", job.pieces[placed.piece].id}};
            piece.update(rectangle_json(placed.place, flat, numbers));
            if (!flat) piece["turned"] = placed.turned;
            json["pieces"].push_back(piece);
        }
        json["cuts"] = Json::array();
        for (std::size_t i = 0; i < plan.cuts.size(); ++i)
            json["cuts"].push_back(cut_json(plan.cuts[i], i + 1, flat, numbers));
        json["offcuts"] = Json::array();
        for (const layout::Rectangle& offcut : plan.offcuts)
            json["offcuts"].push_back(rectangle_json(offcut, flat, numbers));
        plans.push_back(json);
    }
    return plans;
}

std::string layout_document(const layout::Job& job, const layout::Outcome& outcome,
                            layout::Effort effort, const LayoutNumbers& numbers) {
    Json document = begin("layout");
    const bool value_goal = job.goal == layout::Goal::most_value;
    document["status"] = status_name(outcome.status);
    document["cost"] = number(numbers.cost(outcome.cost));
    document["bound"] = number(numbers.cost(outcome.bound));
    document["value"] = value_goal ? number(numbers.cost(outcome.value)) : Json(nullptr);
    document["sheets"] = outcome.sheets;
    document["effort"] = {{"level", effort_name(effort)},
                          {"work", outcome.work},
                          {"stopped_early", outcome.stopped_early}};
    document["plans"] = plans_json(job, outcome, numbers);
    if (!outcome.unplaced.empty()) {
        document["unplaced"] = Json::array();
        for (const layout::Unplaced& unplaced : outcome.unplaced)
            document["unplaced"].push_back({{"id", job.pieces[unplaced.piece].id},
                                            {"count", unplaced.count},
                                            {"fits_no_stock", unplaced.fits_no_stock}});
    }
    return finished(document);
}

} // namespace barrow::print
