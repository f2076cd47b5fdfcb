#include "costing/arrange/arrange.hpp"

#include "base/error.hpp"
#include "costing/arrange/dealing.hpp"
#include "costing/arrange/pairing.hpp"
#include "costing/bill/cut_wants.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <tuple>

namespace barrow::costing {
namespace {

using base::Length;
using design::WorkedPart;

bool open(const Chooser& chooser) {
    return chooser.papers.size() > 1;
}

class Arranging {
public:
    Arranging(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
              layout::Effort effort)
        : runs_(runs), shelf_(shelf), choosers_(choosers_of(runs, shelf)),
          costs_(runs, shelf, choosers_, effort, Buying::twice),
          shelf_costs_(runs, shelf, choosers_, effort, Buying::never) {}

    Arrangement run() {
        result_.all_weighed = true;
        for (const Table& table : tables()) table.choosers.empty() ? settle(table) : deal(table);
        result_.all_weighed = result_.all_weighed && costs_.all_mixtures();
        std::stable_sort(result_.taken.begin(), result_.taken.end(),
                         [this](const Taken& a, const Taken& b) {
                             return std::tuple(a.origin, shelf_[a.material].code)
                                    < std::tuple(b.origin, shelf_[b.material].code);
                         });
        for (std::size_t r = 0; r < runs_.size(); ++r) pair(r);
        return std::move(result_);
    }

private:
    /// Choosers that may take the same paper sit at one table.
    std::vector<Table> tables() const {
        std::vector<std::size_t> leader(shelf_.size());
        std::iota(leader.begin(), leader.end(), std::size_t{0});
        const auto find = [&leader](std::size_t paper) {
            while (leader[paper] != paper) paper = leader[paper];
            return paper;
        };
        for (const Chooser& chooser : choosers_)
            for (const std::size_t paper : chooser.papers)
                leader[std::max(find(paper), find(chooser.papers.front()))] =
                    std::min(find(paper), find(chooser.papers.front()));
        // Choosers that must differ are dealt out together.
        for (const Chooser& chooser : choosers_)
            for (const std::size_t other : chooser.differs_from) {
                const std::size_t a = find(chooser.papers.front());
                const std::size_t b = find(choosers_[other].papers.front());
                leader[std::max(a, b)] = std::min(a, b);
            }
        std::map<std::size_t, Table> by_leader;
        for (std::size_t c = 0; c < choosers_.size(); ++c) {
            Table& table = by_leader[find(choosers_[c].papers.front())];
            (open(choosers_[c]) ? table.choosers : table.settled).push_back(c);
            for (const std::size_t paper : choosers_[c].papers) table.papers.push_back(paper);
        }
        std::vector<Table> result;
        for (auto& [paper, table] : by_leader) {
            std::sort(table.papers.begin(), table.papers.end());
            table.papers.erase(std::unique(table.papers.begin(), table.papers.end()),
                               table.papers.end());
            result.push_back(std::move(table));
        }
        return result;
    }

    /// One paper, all settled: only joins are left to be decided.
    void settle(const Table& table) {
        for (const std::size_t paper : table.papers) {
            std::vector<std::size_t> who;
            std::vector<std::int64_t> units;
            for (const std::size_t c : table.settled)
                if (choosers_[c].papers.front() == paper) {
                    who.push_back(c);
                    units.push_back(choosers_[c].units);
                }
            if (const auto bad = costs_.too_large(paper, who, units))
                throw too_large(bad->first, bad->second, paper);
            if (const auto only = costs_.only_way(paper, who, units)) {
                take(paper, who, units, *only);
            } else if (const auto& answer = costs_.of(paper, who, units)) {
                take(paper, who, units, *answer);
            } else {
                throw cannot_be_laid_out(who.front(), paper);
            }
        }
    }

    /// What the shelf can give is not bought, even where another paper would cost less.
    void deal(const Table& table) {
        auto dealt = dealt_with(table, costs_);
        if (dealt && dealt->weight.bought == 0) return give(table, *dealt, costs_);
        if (const auto from_shelf = dealt_with(table, shelf_costs_))
            return give(table, *from_shelf, shelf_costs_);
        if (!dealt) throw no_way(table);
        give(table, *dealt, costs_);
    }

    std::optional<Dealt> dealt_with(const Table& table, PaperCosts& costs) const {
        auto dealt = deal_out(table, choosers_, runs_, shelf_, false, costs);
        if (!dealt || can_be_paired(table, *dealt)) return dealt;
        dealt = deal_out(table, choosers_, runs_, shelf_, true, costs);
        if (dealt) dealt->all_weighed = false;
        return dealt;
    }

    void give(const Table& table, const Dealt& dealt, PaperCosts& costs) {
        result_.all_weighed = result_.all_weighed && dealt.all_weighed && costs.all_mixtures();
        for (std::size_t k = 0; k < table.papers.size(); ++k) {
            const std::size_t paper = table.papers[k];
            std::vector<std::size_t> who;
            std::vector<std::int64_t> units;
            for (std::size_t i = 0; i < table.choosers.size(); ++i) {
                if (dealt.deal[i][k] == 0) continue;
                who.push_back(table.choosers[i]);
                units.push_back(dealt.deal[i][k]);
                given_[table.choosers[i]].emplace_back(paper, dealt.deal[i][k]);
            }
            for (const std::size_t c : table.settled)
                if (choosers_[c].papers.front() == paper) {
                    who.push_back(c);
                    units.push_back(choosers_[c].units);
                }
            if (who.empty()) continue;
            const auto& answer = costs.of(paper, who, units);
            if (!answer) throw base::broken("a paper was dealt that cannot be laid out");
            take(paper, who, units, *answer);
        }
    }

    void take(std::size_t paper, const std::vector<std::size_t>& who,
              const std::vector<std::int64_t>& units, const PaperCosts::Answer& answer) {
        result_.weight += answer.weight.cost;
        for (std::size_t i = 0; i < who.size(); ++i) {
            const Chooser& chooser = choosers_[who[i]];
            for (std::size_t u = 0; u < chooser.uses.size(); ++u)
                result_.taken.push_back({{chooser.run, chooser.uses[u].part},
                                         paper,
                                         units[i] * chooser.uses[u].copies,
                                         answer.ways.at(who[i])[u]});
        }
    }

    /// Choosers of a run that go by whole journals and have a choice.
    std::vector<std::size_t> by_journal(std::size_t r) const {
        std::vector<std::size_t> who;
        for (std::size_t c = 0; c < choosers_.size(); ++c)
            if (choosers_[c].run == r && choosers_[c].journals > 0 && open(choosers_[c]))
                who.push_back(c);
        return who;
    }

    using Counts = std::vector<std::vector<std::pair<std::size_t, std::int64_t>>>;

    bool can_be_paired(const Table& table, const Dealt& dealt) const {
        for (std::size_t r = 0; r < runs_.size(); ++r) {
            std::vector<std::size_t> who;
            Counts counts;
            for (std::size_t i = 0; i < table.choosers.size(); ++i) {
                const Chooser& chooser = choosers_[table.choosers[i]];
                if (chooser.run != r || chooser.journals == 0) continue;
                who.push_back(table.choosers[i]);
                counts.emplace_back();
                for (std::size_t k = 0; k < table.papers.size(); ++k)
                    if (dealt.deal[i][k] > 0)
                        counts.back().emplace_back(table.papers[k],
                                                   dealt.deal[i][k] * chooser.journals);
            }
            if (!who.empty() && !pair_up(runs_[r].journals, who, counts, choosers_)) return false;
        }
        return true;
    }

    /// Who gets what, journals with the same papers side by side.
    void pair(std::size_t r) {
        const std::vector<std::size_t> who = by_journal(r);
        if (who.empty()) return;
        Counts counts;
        for (const std::size_t c : who) {
            counts.push_back(given_[c]);
            for (auto& [paper, units] : counts.back()) units *= choosers_[c].journals;
        }
        const auto pairing = pair_up(runs_[r].journals, who, counts, choosers_);
        if (!pairing) throw base::broken("papers were dealt that cannot be paired up");
        for (std::size_t j = 0; j < pairing->size(); ++j) {
            const auto number = static_cast<std::int64_t>(j) + 1;
            if (j > 0 && (*pairing)[j] == (*pairing)[j - 1]) {
                result_.rows.back().last = number;
                continue;
            }
            PaperRow row{r, number, number, {}};
            for (std::size_t i = 0; i < who.size(); ++i)
                row.papers.emplace_back(choosers_[who[i]].slot, (*pairing)[j][i]);
            result_.rows.push_back(std::move(row));
        }
    }

    base::Error too_large(std::size_t c, std::size_t p, std::size_t paper) const {
        const Run& run = runs_[choosers_[c].run];
        const WorkedPart& part = *part_behind(run, p);
        const ShelfMaterial& material = shelf_[paper];
        const auto mm = [](std::int64_t units) { return base::mm_text(Length::of_units(units)); };
        const std::string what =
            fmt::format("{}: {} x {} mm cannot be cut from {}", title_of(run, p),
                        base::mm_text(part.width), base::mm_text(part.height), material.code);
        if (choosers_[c].offcuts_only)
            return base::refused(what + ", of which only offcuts may be used",
                                 "no offcut in the box is large enough");
        return base::refused(
            fmt::format(
                "{}, whose sheets are {} x {} mm", what,
                mm(material.fresh.width - material.trim.left.units() - material.trim.right.units()),
                mm(material.fresh.height - material.trim.top.units()
                   - material.trim.bottom.units())),
            part.joining.allowed()
                ? "not even joined where it may be: choose a larger sheet or a smaller journal"
                : "it has no fold to join at: give the part join = \"folds\" and an overlap, or "
                  "choose a larger sheet");
    }

    base::Error cannot_be_laid_out(std::size_t c, std::size_t paper) const {
        const Chooser& chooser = choosers_[c];
        const std::string title = title_of(runs_[chooser.run], chooser.uses.front().part);
        if (chooser.offcuts_only)
            return base::refused(fmt::format("{}: the offcuts of {} in the box are not enough",
                                             title, shelf_[paper].code),
                                 "make fewer, or see what the box gives: barrow offcut fits");
        return base::refused(
            fmt::format("{}: its pieces cannot be cut from {}", title, shelf_[paper].code),
            "choose a material that comes larger, or change the design");
    }

    bool fits_nowhere(std::size_t c) const {
        const auto& papers = choosers_[c].papers;
        return std::all_of(papers.begin(), papers.end(), [&](std::size_t paper) {
            return costs_.too_large(paper, {c}, {1}).has_value();
        });
    }

    base::Error no_way(const Table& table) const {
        for (const std::size_t c : table.choosers)
            if (fits_nowhere(c)) {
                const std::size_t paper = choosers_[c].papers.front();
                return too_large(c, costs_.too_large(paper, {c}, {1})->second, paper);
            }
        const Chooser& chooser = choosers_[table.choosers.front()];
        std::string slots;
        for (const std::size_t c : table.choosers)
            slots += (slots.empty() ? "" : ", ") + choosers_[c].slot;
        return base::refused(
            fmt::format("{}: {} papers cannot be given to {} as the design asks",
                        runs_[chooser.run].design.code, table.papers.size(), slots),
            "slots that must differ need as many papers; or choose some: --use SLOT=CODE");
    }

    const std::vector<Run>& runs_;
    const std::vector<ShelfMaterial>& shelf_;
    std::vector<Chooser> choosers_;
    PaperCosts costs_;
    PaperCosts shelf_costs_; ///< nothing is bought
    Arrangement result_;
    std::map<std::size_t, std::vector<std::pair<std::size_t, std::int64_t>>> given_;
};

} // namespace

Arrangement arrange(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
                    layout::Effort effort) {
    return Arranging(runs, shelf, effort).run();
}

} // namespace barrow::costing
