#include "costing/arrange/bound.hpp"

#include "costing/arrange/choosers.hpp"
#include "costing/arrange/divisions.hpp"
#include "costing/bill.hpp"
#include "costing/cut_wants.hpp"
#include "costing/cutting_job.hpp"
#include "layout/joint/joint_bound.hpp"

#include <algorithm>

namespace barrow::costing {
namespace {

using layout::JointPiece;

/// Ways to make all panels of one unit from one paper: more are not set down one by one.
constexpr std::size_t most_ways = 200;

class Bounder {
public:
    Bounder(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf)
        : runs_(runs), shelf_(shelf), choosers_(choosers_of(runs, shelf)), demands_(shelf.size()) {
        for (std::size_t i = 0; i < shelf.size(); ++i) demands_[i].material = &shelf[i];
    }

    layout::Cost run(std::int64_t work) {
        std::vector<layout::JointChoice> choices;
        for (const Chooser& chooser : choosers_) {
            layout::JointChoice choice{chooser.units, {}};
            for (const std::size_t paper : chooser.papers)
                if (!add_options(chooser, paper, choice)) return 0;
            if (choice.options.empty()) return 0; // nothing to be cut, or no way at all
            choices.push_back(std::move(choice));
        }
        std::vector<layout::Job> jobs;
        for (const Demand& demand : demands_) jobs.push_back(job_of(demand));
        return layout::joint_bound(jobs, choices, work);
    }

private:
    /// A material of which nothing is cut has a job without pieces.
    static layout::Job job_of(const Demand& demand) {
        if (demand.cuts.empty()) return {};
        return cutting_job(demand, Buying::twice).job;
    }

    /// Every way to make the panels of one unit. False when there are too many.
    bool add_options(const Chooser& chooser, std::size_t paper, layout::JointChoice& choice) {
        std::vector<std::vector<JointPiece>> options = {{}};
        for (const Use& use : chooser.uses) {
            const auto ways = ways_of(chooser, use, paper);
            if (ways.empty()) return true; // not from this paper
            if (options.size() * ways.size() > most_ways) return false;
            std::vector<std::vector<JointPiece>> longer;
            for (const auto& option : options)
                for (const auto& way : ways) {
                    longer.push_back(option);
                    longer.back().insert(longer.back().end(), way.begin(), way.end());
                }
            options = std::move(longer);
        }
        choice.options.insert(choice.options.end(), options.begin(), options.end());
        return true;
    }

    std::vector<std::vector<JointPiece>> ways_of(const Chooser& chooser, const Use& use,
                                                 std::size_t paper) {
        const design::WorkedPart& part = *part_behind(runs_[chooser.run], use.part);
        Taken taken{{chooser.run, use.part}, paper, chooser.units * use.copies, {}};
        std::vector<std::vector<JointPiece>> ways;
        if (part.take == design::Take::count || part.take == design::Take::spread) return {{}};
        if (part.take != design::Take::piece) return {pieces_of(taken, use.copies)};
        const auto divisions =
            divisions_of(part, widths_for(want_for(part, shelf_[paper], taken.origin),
                                          shelf_[paper], chooser.offcuts_only));
        for (const Division& division : divisions) {
            taken.ways = {{division, taken.number}};
            ways.push_back(pieces_of(taken, use.copies));
        }
        return ways;
    }

    /// Puts the wants into the paper's demand, at the number that could be wanted at most.
    std::vector<JointPiece> pieces_of(const Taken& taken, std::int64_t copies) {
        Demand& demand = demands_[taken.material];
        const std::size_t before = demand.cuts.size();
        add_to_demand(taken, runs_[taken.origin.run], shelf_[taken.material], demand);
        std::vector<JointPiece> pieces;
        for (std::size_t i = before; i < demand.cuts.size(); ++i)
            pieces.push_back({taken.material, i, copies});
        return pieces;
    }

    const std::vector<Run>& runs_;
    const std::vector<ShelfMaterial>& shelf_;
    std::vector<Chooser> choosers_;
    std::vector<Demand> demands_; ///< beside shelf_
};

} // namespace

layout::Cost arrangement_bound(const std::vector<Run>& runs,
                               const std::vector<ShelfMaterial>& shelf, std::int64_t work) {
    return Bounder(runs, shelf).run(work);
}

} // namespace barrow::costing
