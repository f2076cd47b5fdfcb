#include "costing/arrange/paper_costs.hpp"

#include "base/error.hpp"
#include "costing/bill/bill.hpp"
#include "costing/bill/cut_wants.hpp"
#include "costing/cutting/cutting_job.hpp"
#include "layout/solve.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::costing {
namespace {

using design::Take;
using design::WorkedPart;
using layout::Cost;

/// Work for one layout among the many that are asked for (see layout::Options::most_work).
constexpr std::int64_t work_for_a_layout = 1'000;
/// The same for one that was suggested.
constexpr std::int64_t work_for_a_suggestion = 30'000;
/// A thing to buy counts double, as in Buying::twice; costs in thousandths of a minor unit.
constexpr Cost plain_scale = 1'000;

/// Number of ways to divide `count` panels among `divisions`, or a number above `most`.
std::int64_t mixtures(std::int64_t count, std::size_t divisions, std::int64_t most) {
    std::int64_t number = 1;
    for (std::int64_t i = 1; i < static_cast<std::int64_t>(divisions); ++i) {
        number = number * (count + i) / i;
        if (number > most) return most + 1;
    }
    return number;
}

/// Counted and poured things by what the shelf gives and what must be bought.
Weight weigh_plain(const ShelfMaterial& material, std::int64_t wanted) {
    std::vector<ShelfLot> lots = material.lots;
    const std::int64_t taken = std::min(wanted, on_hand(lots));
    const auto takes = take_from(lots, taken, CostOrder::first_in_first_out);
    Weight weight{value_of(takes).minor() * plain_scale, 0, 0};
    if (wanted > taken) {
        weight.cost +=
            2 * plain_scale
            * std::max<Cost>(1, cost_to_buy(material, wanted - taken).value_or(Money()).minor());
        weight.bought = 1;
    }
    return weight;
}

} // namespace

struct PaperCosts::Panel {
    std::size_t chooser = 0;
    std::size_t use = 0;
    std::int64_t count = 0;
    std::vector<Division> divisions; ///< one, without pieces, for what is not cut from sheets
    Counts now;                      ///< beside divisions
    Counts best;
};

PaperCosts::PaperCosts(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
                       const std::vector<Chooser>& choosers, layout::Effort effort, Buying buying)
    : runs_(runs), shelf_(shelf), choosers_(choosers), effort_(effort), buying_(buying),
      work_(work_for_a_layout) {}

/// All of a material that the layout sees, so that papers alike share their answers.
std::string PaperCosts::key_of(std::size_t paper) const {
    const ShelfMaterial& m = shelf_[paper];
    std::string key = fmt::format("{}x{} t{} g{} m{},{},{},{} k{} u{}x{} p{}", m.fresh.width,
                                  m.fresh.height, static_cast<int>(m.turn),
                                  m.grain ? static_cast<int>(*m.grain) : -1, m.trim.left.units(),
                                  m.trim.right.units(), m.trim.top.units(), m.trim.bottom.units(),
                                  m.kerf.units(), m.least_useful.width, m.least_useful.height,
                                  m.unit_price ? m.unit_price->ceiling() : std::int64_t{-1});
    for (const ShelfLot& lot : m.lots)
        key += fmt::format(" l{}x{} {} {}", lot.size.width, lot.size.height, lot.quantity,
                           lot.value.minor());
    for (const ShelfOffcut& offcut : m.offcuts)
        key += fmt::format(" o{}x{} {}", offcut.size.width, offcut.size.height, offcut.age_days);
    return key;
}

const std::string& PaperCosts::likeness(std::size_t paper) {
    std::string& key = keys_[paper];
    if (key.empty()) key = key_of(paper);
    return key;
}

std::string PaperCosts::question_of(std::size_t paper, const std::vector<std::size_t>& who,
                                    const std::vector<std::int64_t>& units) {
    std::string question = likeness(paper);
    for (std::size_t i = 0; i < who.size(); ++i)
        if (units[i] > 0) question += fmt::format(" c{}:{}", who[i], units[i]);
    return question;
}

const std::optional<PaperCosts::Answer>& PaperCosts::of(std::size_t paper,
                                                        const std::vector<std::size_t>& who,
                                                        const std::vector<std::int64_t>& units) {
    const std::string question = question_of(paper, who, units);
    const auto known = known_.find(question);
    if (known != known_.end()) return known->second;
    const auto suggested = suggested_.find(question);
    return known_
        .emplace(question, weigh(paper, who, units,
                                 suggested == suggested_.end() ? nullptr : &suggested->second))
        .first->second;
}

void PaperCosts::suggest(std::size_t paper, const std::vector<std::size_t>& who,
                         const std::vector<std::int64_t>& units, Mixture mixture) {
    const std::string question = question_of(paper, who, units);
    known_.erase(question); // a better answer may come of it
    suggested_[question] = std::move(mixture);
}

std::vector<PaperCosts::Panel> PaperCosts::panels_of(std::size_t paper,
                                                     const std::vector<std::size_t>& who,
                                                     const std::vector<std::int64_t>& units) const {
    std::vector<Panel> panels;
    for (std::size_t i = 0; i < who.size(); ++i) {
        if (units[i] == 0) continue;
        const Chooser& chooser = choosers_[who[i]];
        for (std::size_t u = 0; u < chooser.uses.size(); ++u) {
            const std::size_t p = chooser.uses[u].part;
            const WorkedPart& part = *part_behind(runs_[chooser.run], p);
            Panel panel{who[i], u, units[i] * chooser.uses[u].copies, {Division{}}, {}, {}};
            if (part.take == Take::piece)
                panel.divisions =
                    divisions_of(part, widths_for(want_for(part, shelf_[paper], {chooser.run, p}),
                                                  shelf_[paper], chooser.offcuts_only));
            panel.now.assign(panel.divisions.size(), 0);
            panels.push_back(std::move(panel));
        }
    }
    return panels;
}

std::optional<PaperCosts::Answer> PaperCosts::weigh(std::size_t paper,
                                                    const std::vector<std::size_t>& who,
                                                    const std::vector<std::int64_t>& units,
                                                    const Mixture* suggested) {
    std::vector<Panel> panels = panels_of(paper, who, units);
    std::int64_t number = 1;
    for (const Panel& panel : panels) {
        if (panel.divisions.empty()) return std::nullopt;
        number = std::min(number * mixtures(panel.count, panel.divisions.size(), mixtures_in_full_),
                          mixtures_in_full_ + 1);
    }
    std::optional<Weight> best;
    if (number <= mixtures_in_full_) {
        all_ways(panels, 0, paper, best);
    } else {
        all_mixtures_ = false;
        const std::int64_t begun = layouts_;
        if (suggested) try_suggested(panels, *suggested, paper, best);
        if (!best) {
            some_ways(panels, paper, best);
            if (best) improve(panels, paper, best, begun + mixtures_in_full_);
        }
    }
    if (!best) return std::nullopt;
    return answer_of(*best, panels);
}

PaperCosts::Answer PaperCosts::answer_of(const Weight& weight, const std::vector<Panel>& panels) {
    Answer answer{weight, {}};
    for (const Panel& panel : panels) {
        std::vector<Way> ways;
        for (std::size_t d = 0; d < panel.divisions.size(); ++d)
            if (panel.best[d] > 0) ways.push_back({panel.divisions[d], panel.best[d]});
        answer.ways[panel.chooser].push_back(std::move(ways));
    }
    return answer;
}

std::optional<PaperCosts::Answer>
PaperCosts::only_way(std::size_t paper, const std::vector<std::size_t>& who,
                     const std::vector<std::int64_t>& units) const {
    std::vector<Panel> panels = panels_of(paper, who, units);
    for (Panel& panel : panels) {
        if (panel.divisions.size() != 1) return std::nullopt;
        panel.best = {panel.count};
    }
    return answer_of({}, panels);
}

std::optional<std::pair<std::size_t, std::size_t>>
PaperCosts::too_large(std::size_t paper, const std::vector<std::size_t>& who,
                      const std::vector<std::int64_t>& units) const {
    for (const Panel& panel : panels_of(paper, who, units))
        if (panel.divisions.empty())
            return std::pair(panel.chooser, choosers_[panel.chooser].uses[panel.use].part);
    return std::nullopt;
}

/// Every mixture, panel after panel.
void PaperCosts::all_ways(std::vector<Panel>& panels, std::size_t from, std::size_t paper,
                          std::optional<Weight>& best) {
    if (from == panels.size()) {
        take_if_better(panels, paper, best);
        return;
    }
    Panel& panel = panels[from];
    const auto deal = [&](const auto& self, std::size_t d, std::int64_t left) -> void {
        if (d + 1 == panel.divisions.size()) {
            panel.now[d] = left;
            all_ways(panels, from + 1, paper, best);
            return;
        }
        for (std::int64_t n = left; n >= 0; --n) {
            panel.now[d] = n;
            self(self, d + 1, left - n);
        }
    };
    deal(deal, 0, panel.count);
}

/// Each panel in one way throughout, all combinations as far as they are few.
void PaperCosts::some_ways(std::vector<Panel>& panels, std::size_t paper,
                           std::optional<Weight>& best) {
    std::vector<std::size_t> way(panels.size(), 0);
    const std::int64_t begun = layouts_;
    while (layouts_ - begun < std::max<std::int64_t>(mixtures_in_full_ / 2, 4)) {
        for (std::size_t i = 0; i < panels.size(); ++i) {
            std::fill(panels[i].now.begin(), panels[i].now.end(), 0);
            panels[i].now[way[i]] = panels[i].count;
        }
        take_if_better(panels, paper, best);
        std::size_t i = 0;
        while (i < panels.size() && ++way[i] == panels[i].divisions.size()) way[i++] = 0;
        if (i == panels.size()) break;
    }
}

/// Given more work than others: what was suggested is known to be good, if it can be cut.
void PaperCosts::try_suggested(std::vector<Panel>& panels, const Mixture& mixture,
                               std::size_t paper, std::optional<Weight>& best) {
    std::size_t next = 0; // panels stand in the order of the mixture
    for (const auto& uses : mixture)
        for (const auto& counts : uses) {
            if (counts.size() != panels[next].now.size())
                throw base::broken("a mixture suggested for other divisions");
            panels[next++].now = counts;
        }
    work_ = work_for_a_suggestion;
    take_if_better(panels, paper, best);
    work_ = work_for_a_layout;
}

/// Moves a half, a quarter, ... of the panels of one way to another while that helps.
void PaperCosts::improve(std::vector<Panel>& panels, std::size_t paper, std::optional<Weight>& best,
                         std::int64_t most_layouts) {
    for (Panel& panel : panels) panel.now = panel.best;
    for (Panel& panel : panels) {
        for (std::size_t from = 0; from < panel.now.size(); ++from) {
            for (std::size_t to = 0; to < panel.now.size(); ++to) {
                if (from == to) continue;
                for (std::int64_t some = (panel.now[from] + 1) / 2; some > 0; some /= 2) {
                    if (layouts_ >= most_layouts) return;
                    if (some > panel.now[from]) continue;
                    panel.now[from] -= some;
                    panel.now[to] += some;
                    if (take_if_better(panels, paper, best)) continue;
                    panel.now[from] += some;
                    panel.now[to] -= some;
                }
            }
        }
    }
}

bool PaperCosts::take_if_better(std::vector<Panel>& panels, std::size_t paper,
                                std::optional<Weight>& best) {
    const auto weight = weigh_panels(panels, paper);
    if (!weight || (best && !(*weight < *best))) return false;
    best = weight;
    for (Panel& panel : panels) panel.best = panel.now;
    return true;
}

std::optional<Weight> PaperCosts::weigh_panels(const std::vector<Panel>& panels,
                                               std::size_t paper) {
    Demand only;
    only.material = &shelf_[paper];
    only.offcuts_only = true;
    Demand any;
    any.material = &shelf_[paper];
    Weight weight;
    for (const Panel& panel : panels) {
        const Chooser& chooser = choosers_[panel.chooser];
        Taken taken{{chooser.run, chooser.uses[panel.use].part}, paper, panel.count, {}};
        for (std::size_t d = 0; d < panel.divisions.size(); ++d) {
            if (panel.now[d] == 0) continue;
            taken.ways.push_back({panel.divisions[d], panel.now[d]});
            const auto pieces = static_cast<std::int64_t>(panel.divisions[d].size());
            weight.joins += panel.now[d] * std::max<std::int64_t>(0, pieces - 1);
        }
        add_to_demand(taken, runs_[chooser.run], shelf_[paper], chooser.offcuts_only ? only : any);
    }
    std::int64_t plain = 0;
    for (const PlainWant& want : any.plains) plain += want.quantity;
    for (const PlainWant& want : only.plains) plain += want.quantity;
    if (plain > 0) {
        const Weight counted = weigh_plain(shelf_[paper], plain);
        if (counted.bought > 0 && buying_ == Buying::never) return std::nullopt;
        weight = weight + counted;
    }
    for (Demand* demand : {&only, &any}) {
        if (demand->cuts.empty()) continue;
        const auto sheets = lay_out(*demand, &any.spent);
        if (!sheets) return std::nullopt;
        weight = weight + *sheets;
    }
    weight.bought = std::min<std::int64_t>(weight.bought, 1);
    return weight;
}

std::optional<Weight> PaperCosts::lay_out(const Demand& demand, std::vector<std::int64_t>* spent) {
    const CuttingJob made = cutting_job(demand, buying_);
    if (made.job.stock.empty()) return std::nullopt;
    if (const auto problems = layout::examine(made.job); !problems.empty())
        throw base::broken("an arrangement asked the layout wrongly: " + problems.front().what);
    ++layouts_;
    layout::Options options;
    options.effort = effort_;
    options.most_work = work_;
    const layout::Outcome outcome = layout::solve(made.job, options);
    if (!outcome.unplaced.empty()) return std::nullopt;
    if (demand.offcuts_only)
        for (const layout::Plan& plan : outcome.plans)
            spent->push_back(demand.material->offcuts[made.sources[plan.stock].second].id);
    const bool buys =
        std::any_of(outcome.plans.begin(), outcome.plans.end(), [&](const layout::Plan& plan) {
            return made.sources[plan.stock].first == Source::Kind::to_buy;
        });
    return Weight{outcome.cost, 0, buys ? 1 : 0};
}

} // namespace barrow::costing
