#include "costing/arrange/paper_question.hpp"

#include "costing/bill/bill.hpp"
#include "costing/bill/cut_wants.hpp"
#include "costing/bill/divisions.hpp"
#include "costing/cutting/cutting_job.hpp"

#include <algorithm>
#include <map>

namespace barrow::costing {
namespace {

using layout::JointPiece;

/// Ways to make all panels of one unit from one paper: more are not set down one by one.
constexpr std::size_t most_ways = 200;

/// A way to make what a chooser takes, as far as it has been put together.
struct UnitWay {
    std::vector<std::size_t> divisions;
    std::vector<JointPiece> pieces;
};

class Asking {
public:
    Asking(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf, Buying buying)
        : runs_(runs), shelf_(shelf), buying_(buying), demands_(shelf.size()) {
        for (std::size_t i = 0; i < shelf.size(); ++i) demands_[i].material = &shelf[i];
    }

    bool add(const Chooser& chooser) {
        layout::JointChoice choice{chooser.units, {}};
        std::vector<PaperQuestion::Option> options;
        for (const std::size_t paper : chooser.papers) {
            auto ways = ways_of(chooser, paper);
            if (!ways) return false;
            for (UnitWay& way : *ways) {
                choice.options.push_back(std::move(way.pieces));
                options.push_back({paper, std::move(way.divisions)});
            }
        }
        if (options.empty()) return false;
        result_.question.choices.push_back(std::move(choice));
        result_.options.push_back(std::move(options));
        return true;
    }

    /// Choices stand for choosers as `numbers` says.
    void limit(const std::vector<Chooser>& choosers, const std::vector<std::size_t>& set,
               const std::map<std::size_t, std::size_t>& numbers) {
        std::map<std::size_t, layout::JointLimit> by_paper;
        for (const std::size_t c : set) {
            const std::size_t choice = numbers.at(c);
            for (std::size_t o = 0; o < result_.options[choice].size(); ++o)
                by_paper[result_.options[choice][o].paper].terms.push_back(
                    {choice, o, choosers[c].journals});
        }
        for (auto& [paper, limit] : by_paper) {
            limit.most = runs_[choosers[set.front()].run].journals;
            result_.question.limits.push_back(std::move(limit));
        }
    }

    PaperQuestion finish() {
        for (const Demand& demand : demands_) result_.question.jobs.push_back(job_of(demand));
        return std::move(result_);
    }

private:
    /// A material of which nothing is cut, or of which there is nothing, has a job without pieces:
    /// options that ask for its pieces are none.
    layout::Job job_of(const Demand& demand) const {
        if (demand.cuts.empty()) return {};
        layout::Job job = cutting_job(demand, buying_).job;
        return job.stock.empty() ? layout::Job{} : job;
    }

    /// Every way to make the panels of one unit; none when the paper does not hold them. Nothing
    /// when there are too many.
    std::optional<std::vector<UnitWay>> ways_of(const Chooser& chooser, std::size_t paper) {
        std::vector<UnitWay> ways = {{}};
        for (const Use& use : chooser.uses) {
            const auto each = ways_of(chooser, use, paper);
            if (ways.size() * each.size() > most_ways) return std::nullopt;
            std::vector<UnitWay> longer;
            for (const UnitWay& way : ways)
                for (std::size_t d = 0; d < each.size(); ++d) {
                    longer.push_back(way);
                    longer.back().divisions.push_back(d);
                    longer.back().pieces.insert(longer.back().pieces.end(), each[d].begin(),
                                                each[d].end());
                }
            ways = std::move(longer);
        }
        return ways;
    }

    std::vector<std::vector<JointPiece>> ways_of(const Chooser& chooser, const Use& use,
                                                 std::size_t paper) {
        const design::WorkedPart& part = *part_behind(runs_[chooser.run], use.part);
        Taken taken{{chooser.run, use.part}, paper, chooser.units * use.copies, {}};
        if (part.take == design::Take::count || part.take == design::Take::spread) return {{}};
        if (part.take != design::Take::piece) return {pieces_of(taken, use.copies)};
        const auto divisions =
            divisions_of(part, widths_for(want_for(part, shelf_[paper], taken.origin),
                                          shelf_[paper], chooser.offcuts_only));
        std::vector<std::vector<JointPiece>> ways;
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
    Buying buying_;
    std::vector<Demand> demands_; ///< beside shelf_
    PaperQuestion result_;
};

} // namespace

std::optional<PaperQuestion>
paper_question(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
               const std::vector<Chooser>& choosers, const std::vector<std::size_t>& who,
               const std::vector<std::vector<std::size_t>>& exclusive, Buying buying) {
    Asking asking(runs, shelf, buying);
    std::map<std::size_t, std::size_t> numbers;
    for (const std::size_t c : who) {
        numbers.emplace(c, numbers.size());
        if (!asking.add(choosers[c])) return std::nullopt;
    }
    for (const auto& set : exclusive) asking.limit(choosers, set, numbers);
    PaperQuestion question = asking.finish();
    return question;
}

} // namespace barrow::costing
