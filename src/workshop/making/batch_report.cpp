#include "workshop/making/batch_report.hpp"

#include "store/making/batch_plans.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/lots.hpp"
#include "workshop/making/batch.hpp"
#include "workshop/making/batch_shares.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace barrow::workshop {
namespace {

using base::Money;

/// What a posting put into a batch of each material, less what left it as offcuts.
std::map<std::int64_t, Money> net_into(store::Database& database, std::int64_t posting,
                                       std::int64_t batch) {
    std::map<std::int64_t, Money> net;
    std::map<std::int64_t, std::int64_t> material_of; // lot
    for (const store::Movement& movement : store::movements_of(database, posting)) {
        if (!movement.lot || movement.kind == "finish") continue;
        auto [known, fresh] = material_of.emplace(*movement.lot, 0);
        if (fresh) known->second = store::lot_by_id(database, *movement.lot).value().material_id;
        if (movement.to == batch) net[known->second] += movement.value;
        if (movement.from == batch) net[known->second] -= movement.value;
    }
    return net;
}

class Reporting {
public:
    Reporting(store::Database& database, std::int64_t number) : database_(database) {
        report_.settings = read_settings(database);
        report_.batch = batch_numbered(database, number);
    }

    BatchReport run() {
        find_entries();
        add_runs();
        add_papers();
        add_parts();
        add_sheets();
        share_actual();
        return std::move(report_);
    }

private:
    void find_entries() {
        for (const store::BatchEvent& event : store::standing_events(database_, report_.batch.id)) {
            report_.entries.push_back(store::posting_by_id(database_, event.posting_id).value());
            const bool made = report_.entries.back().kind == "make";
            if (event.status == store::BatchStatus::cut || made) cut_ = event.posting_id;
            if (event.status == store::BatchStatus::finished) finished_ = event.posting_id;
        }
    }

    void add_runs() {
        const auto finished = finished_ == 0 ? std::vector<store::FinishedRun>{}
                                             : store::finished_runs(database_, finished_);
        const auto journals = finished_ == 0 ? std::vector<store::Journal>{}
                                             : store::journals_of_posting(database_, finished_);
        for (std::size_t r = 0; r < report_.batch.runs.size(); ++r) {
            const store::BatchRun& planned = report_.batch.runs[r];
            BatchRunLine line{planned.code, planned.name, planned, std::nullopt, 0};
            for (const store::FinishedRun& run : finished)
                if (run.run == static_cast<std::int64_t>(r)) line.finished = run;
            line.seconds =
                std::count_if(journals.begin(), journals.end(), [&](const auto& journal) {
                    return journal.run == static_cast<std::int64_t>(r) && journal.second;
                });
            report_.runs.push_back(line);
        }
    }

    void add_papers() {
        for (const store::BatchPaper& paper : store::papers_of(database_, report_.batch.id)) {
            auto& lines = report_.papers;
            if (lines.empty() || lines.back().run != paper.run || lines.back().first != paper.first)
                lines.push_back({paper.run, paper.first, paper.last, {}});
            lines.back().papers.push_back({paper.slot, paper.material, paper.name});
        }
    }

    BatchMaterialLine& material_line(std::int64_t id) {
        const auto known = at_.find(id);
        if (known != at_.end()) return report_.materials[known->second];
        const store::Material material = store::material_by_id(database_, id).value();
        at_[id] = report_.materials.size();
        BatchMaterialLine line;
        line.material = material.code;
        line.form = material.form;
        line.bulk_is_mass = material.bulk_unit == "g";
        report_.materials.push_back(line);
        return report_.materials.back();
    }

    void add_parts() {
        parts_ = store::parts_of(database_, report_.batch.id);
        for (const store::BatchPart& part : parts_) {
            BatchMaterialLine& material = material_line(part.material_id);
            material.planned += part.cost;
            report_.parts.push_back({part.run, part.part, material.material, material.form,
                                     material.bulk_is_mass, part.quantity, part.cost,
                                     std::nullopt});
        }
    }

    void add_sheets() {
        std::map<std::int64_t, std::int64_t> material_of; // planned sheet
        std::int64_t number = 0;
        for (const store::PlannedSheet& sheet :
             store::planned_sheets(database_, report_.batch.id)) {
            BatchMaterialLine& material = material_line(sheet.material_id);
            ++material.planned_sheets;
            material_of[sheet.id] = sheet.material_id;
            for (const store::PlannedRemnant& remnant : sheet.remnants)
                report_.remnants.push_back({++number,
                                            material.material,
                                            material.form,
                                            {remnant.place.width, remnant.place.height}});
        }
        if (cut_ == 0) return;
        for (const store::CutSheet& sheet : store::cut_sheets(database_, cut_)) {
            if (sheet.planned_id != 0) {
                ++material_line(material_of[sheet.planned_id]).cut_sheets;
            } else {
                ++material_line(store::lot_by_id(database_, sheet.source_id).value().material_id)
                      .spoiled;
            }
        }
    }

    void share_actual() {
        if (cut_ == 0) return;
        const auto taken = net_into(database_, cut_, report_.batch.id);
        for (const auto& [id, value] : taken) material_line(id).actual = value;
        const auto shares = share_among_parts(taken, parts_);
        for (std::size_t i = 0; i < parts_.size(); ++i)
            if (taken.count(parts_[i].material_id) > 0) report_.parts[i].actual = shares[i];
    }

    store::Database& database_;
    BatchReport report_;
    std::int64_t cut_ = 0;
    std::int64_t finished_ = 0;
    std::map<std::int64_t, std::size_t> at_; ///< material to its line
    std::vector<store::BatchPart> parts_;    ///< beside report_.parts
};

} // namespace

BatchReport batch_report(store::Database& database, std::int64_t number) {
    return reading(database, [&] { return Reporting(database, number).run(); });
}

std::vector<BatchListLine> list_batches(store::Database& database) {
    return reading(database, [&] {
        std::vector<BatchListLine> lines;
        for (const store::Batch& listed : store::all_batches(database)) {
            const store::Batch batch = store::batch_by_id(database, listed.id).value();
            BatchListLine line{batch, {}, {}};
            for (const store::BatchRun& run : batch.runs)
                line.designs += fmt::format("{}{} {}", line.designs.empty() ? "" : ", ",
                                            run.journals, run.code);
            const auto first = store::first_event(database, batch.id);
            line.began = store::posting_by_id(database, first.posting_id).value().made_on;
            lines.push_back(line);
        }
        return lines;
    });
}

} // namespace barrow::workshop
