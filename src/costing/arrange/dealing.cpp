#include "costing/arrange/dealing.hpp"

#include "costing/arrange/guide.hpp"

#include <algorithm>
#include <set>

namespace barrow::costing {
namespace {

using Units = std::vector<std::int64_t>;

/// The dynamic program is run in full when it asks for so many answers at most.
constexpr std::size_t answers_in_full = 150;
/// Layouts that the answers of a deal may take, about; and of those in one answer.
constexpr std::int64_t layouts_for_answers = 1'500;
constexpr std::int64_t fewest_in_an_answer = 8;
constexpr std::int64_t most_in_an_answer = 300;
/// For the linear program, in units of work (see layout::joint_falls).
constexpr std::int64_t work_for_guidance = 1'000'000;
/// Journals are moved about until so many more layouts were asked for.
constexpr std::int64_t layouts_for_moves = 250;

bool differ(const Chooser& chooser, std::size_t other) {
    return std::find(chooser.differs_from.begin(), chooser.differs_from.end(), other)
           != chooser.differs_from.end();
}

class Dealer {
public:
    Dealer(const Table& table, const std::vector<Chooser>& choosers, const std::vector<Run>& runs,
           const std::vector<ShelfMaterial>& shelf, bool strict, PaperCosts& costs)
        : table_(table), choosers_(choosers), runs_(runs), shelf_(shelf), costs_(costs),
          sets_(exclusive_sets(table.choosers, choosers, strict)) {
        std::set<std::string> kinds;
        for (const std::size_t paper : table.papers) kinds.insert(costs.likeness(paper));
        kinds_ = kinds.size();
    }

    std::optional<Dealt> run() {
        std::optional<Dealt> best;
        const auto keep = [&best](std::optional<Dealt> found) {
            if (found && (!best || found->weight < best->weight)) best = std::move(found);
        };
        const std::int64_t group = smallest_group();
        if (group == 1) {
            const auto answers = static_cast<std::int64_t>(states(1) * kinds_);
            costs_.limit_mixtures(
                std::clamp(layouts_for_answers / answers, fewest_in_an_answer, most_in_an_answer));
            best = by_program(1);
            if (best) best->all_weighed = true;
            return best;
        }
        costs_.limit_mixtures(fewest_in_an_answer);
        keep(guided());
        if (!best) {
            if (group > 0) keep(by_program(group));
            // In tenths, in fifths, and all at once.
            for (const std::int64_t parts : {10, 5, 1}) keep(by_turns(groups(most_units(), parts)));
        }
        if (best) move_about(*best);
        return best;
    }

private:
    const Chooser& chooser(std::size_t i) const { return choosers_[table_.choosers[i]]; }
    std::size_t width() const { return table_.choosers.size(); }

    std::int64_t most_units() const {
        std::int64_t most = 1;
        for (std::size_t i = 0; i < width(); ++i) most = std::max(most, chooser(i).units);
        return most;
    }

    static std::int64_t groups(std::int64_t units, std::int64_t group) {
        return (units + group - 1) / group;
    }

    std::size_t states(std::int64_t group) const {
        std::size_t number = 1;
        for (std::size_t i = 0; i < width(); ++i) {
            number *= static_cast<std::size_t>(groups(chooser(i).units, group)) + 1;
            if (number > answers_in_full) return answers_in_full + 1;
        }
        return number;
    }

    /// Fewest units dealt out together for which the program stays small; 0: there is none.
    std::int64_t smallest_group() const {
        for (std::int64_t group = 1; group <= most_units(); ++group)
            if (states(group) * kinds_ <= answers_in_full) return group;
        return 0;
    }

    bool may_have(std::size_t i, std::size_t paper) const {
        const auto& papers = chooser(i).papers;
        return std::find(papers.begin(), papers.end(), paper) != papers.end();
    }

    /// What the paper costs with so many units of each chooser; nothing when it cannot have them.
    std::optional<Weight> weight(std::size_t k, const Units& units) {
        const std::size_t paper = table_.papers[k];
        for (std::size_t i = 0; i < width(); ++i)
            if (units[i] > 0 && !may_have(i, paper)) return std::nullopt;
        for (const auto& set : sets_) {
            std::int64_t journals = 0;
            for (const std::size_t i : set) journals += units[i] * chooser(i).journals;
            if (journals > runs_[chooser(set.front()).run].journals) return std::nullopt;
        }
        std::vector<std::size_t> who;
        Units theirs;
        gather(paper, units, who, theirs);
        if (who.empty()) return Weight{};
        const auto& answer = costs_.of(paper, who, theirs);
        if (!answer) return std::nullopt;
        return answer->weight;
    }

    void gather(std::size_t paper, const Units& units, std::vector<std::size_t>& who,
                Units& theirs) const {
        for (std::size_t i = 0; i < width(); ++i) {
            if (units[i] == 0) continue;
            who.push_back(table_.choosers[i]);
            theirs.push_back(units[i]);
        }
        for (const std::size_t settled : table_.settled) {
            if (choosers_[settled].papers.front() != paper) continue;
            who.push_back(settled);
            theirs.push_back(choosers_[settled].units);
        }
    }

    /// The exact program, units dealt out in groups. State: groups of each chooser dealt so far.
    std::optional<Dealt> by_program(std::int64_t group) {
        const std::size_t number = states(group);
        std::vector<Units> groups_of(number, Units(width(), 0)); // state to groups
        std::vector<std::size_t> stride(width(), 1);
        for (std::size_t i = 1; i < width(); ++i) stride[i] = stride[i - 1] * span(i - 1, group);
        for (std::size_t s = 0; s < number; ++s)
            for (std::size_t i = 0; i < width(); ++i)
                groups_of[s][i] = static_cast<std::int64_t>(s / stride[i] % span(i, group));
        std::vector<std::optional<Weight>> reached(number);
        reached[0] = Weight{};
        std::vector<std::vector<std::size_t>> came(table_.papers.size(),
                                                   std::vector<std::size_t>(number, 0));
        for (std::size_t k = 0; k < table_.papers.size(); ++k) {
            std::vector<std::optional<Weight>> next(number);
            for (std::size_t take = 0; take < number; ++take) {
                Units most(width());
                for (std::size_t i = 0; i < width(); ++i)
                    most[i] = std::min(groups_of[take][i] * group, chooser(i).units);
                const bool last_is_short = most != scaled(groups_of[take], group);
                const auto all = weight(k, most);
                for (std::size_t from = 0; from < number; ++from) {
                    if (!reached[from] || !fits(groups_of[from], groups_of[take], group)) continue;
                    std::optional<Weight> added = all;
                    if (last_is_short || ends(groups_of[from], groups_of[take], group))
                        added = weight(k, units_of(groups_of[from], groups_of[take], group));
                    if (!added) continue;
                    const std::size_t to = from + take;
                    const Weight sum = *reached[from] + *added;
                    if (next[to] && !(sum < *next[to])) continue;
                    next[to] = sum;
                    came[k][to] = take;
                }
            }
            reached = std::move(next);
        }
        if (!reached[number - 1]) return std::nullopt;
        return trace(came, groups_of, group, *reached[number - 1]);
    }

    std::size_t span(std::size_t i, std::int64_t group) const {
        return static_cast<std::size_t>(groups(chooser(i).units, group)) + 1;
    }
    static Units scaled(const Units& groups, std::int64_t group) {
        Units units = groups;
        for (std::int64_t& unit : units) unit *= group;
        return units;
    }
    bool fits(const Units& from, const Units& take, std::int64_t group) const {
        for (std::size_t i = 0; i < width(); ++i)
            if (from[i] + take[i] > groups(chooser(i).units, group)) return false;
        return true;
    }
    /// Whether the take reaches the last, perhaps smaller group of some chooser.
    bool ends(const Units& from, const Units& take, std::int64_t group) const {
        for (std::size_t i = 0; i < width(); ++i)
            if (take[i] > 0 && (from[i] + take[i]) * group > chooser(i).units) return true;
        return false;
    }
    Units units_of(const Units& from, const Units& take, std::int64_t group) const {
        Units units(width());
        for (std::size_t i = 0; i < width(); ++i)
            units[i] = std::min((from[i] + take[i]) * group, chooser(i).units)
                       - std::min(from[i] * group, chooser(i).units);
        return units;
    }

    Dealt trace(const std::vector<std::vector<std::size_t>>& came,
                const std::vector<Units>& groups_of, std::int64_t group,
                const Weight& weight) const {
        Dealt dealt{Deal(width(), Units(table_.papers.size(), 0)), weight, false};
        std::size_t state = groups_of.size() - 1;
        for (std::size_t k = table_.papers.size(); k-- > 0;) {
            const std::size_t take = came[k][state];
            state -= take;
            const Units units = units_of(groups_of[state], groups_of[take], group);
            for (std::size_t i = 0; i < width(); ++i) dealt.deal[i][k] = units[i];
        }
        return dealt;
    }

    Units column(const Deal& deal, std::size_t k) const {
        Units units(width());
        for (std::size_t i = 0; i < width(); ++i) units[i] = deal[i][k];
        return units;
    }

    /// The deal that the linear program over all papers leads to.
    std::optional<Dealt> guided() {
        std::vector<std::vector<std::size_t>> exclusive = sets_;
        for (auto& set : exclusive)
            for (std::size_t& i : set) i = table_.choosers[i];
        auto deal =
            guided_deal(table_, choosers_, runs_, shelf_, exclusive, work_for_guidance, costs_);
        if (!deal) return std::nullopt;
        return weighed(std::move(*deal));
    }

    std::optional<Dealt> weighed(Deal deal) {
        Dealt dealt{std::move(deal), {}, false};
        for (std::size_t k = 0; k < table_.papers.size(); ++k) {
            const auto part = weight(k, column(dealt.deal, k));
            if (!part) return std::nullopt;
            dealt.weight = dealt.weight + *part;
        }
        return dealt;
    }

    /// Choosers in turn give so many units at a time to the paper where they add least.
    std::optional<Dealt> by_turns(std::int64_t some) {
        Deal deal(width(), Units(table_.papers.size(), 0));
        Units left(width());
        for (std::size_t i = 0; i < width(); ++i) left[i] = chooser(i).units;
        for (bool more = true; more;) {
            more = false;
            for (std::size_t i = 0; i < width(); ++i) {
                if (left[i] == 0) continue;
                const std::int64_t now = std::min(some, left[i]);
                if (!give(deal, i, now)) return std::nullopt;
                left[i] -= now;
                more = true;
            }
        }
        return weighed(std::move(deal));
    }

    bool give(Deal& deal, std::size_t i, std::int64_t units) {
        std::optional<Weight> least;
        std::size_t best = 0;
        std::set<std::pair<std::string, Units>> tried; // papers alike cost alike
        for (std::size_t k = 0; k < table_.papers.size(); ++k) {
            Units with = column(deal, k);
            if (!tried.emplace(costs_.likeness(table_.papers[k]), with).second) continue;
            const auto before = weight(k, with);
            with[i] += units;
            const auto after = weight(k, with);
            if (!before || !after) continue;
            const Weight added = *after - *before;
            if (least && !(added < *least)) continue;
            least = added;
            best = k;
        }
        if (!least) return false;
        deal[i][best] += units;
        return true;
    }

    /// Moves units between papers while that helps.
    void move_about(Dealt& dealt) {
        const std::int64_t end = costs_.layouts() + layouts_for_moves;
        for (bool better = true; better && costs_.layouts() < end;) {
            better = false;
            for (std::size_t i = 0; i < width(); ++i)
                for (std::size_t from = 0; from < table_.papers.size(); ++from)
                    for (std::size_t to = 0; to < table_.papers.size(); ++to) {
                        if (costs_.layouts() >= end) return;
                        better = move(dealt, i, from, to) || better;
                    }
        }
    }

    bool move(Dealt& dealt, std::size_t i, std::size_t from, std::size_t to) {
        if (from == to || dealt.deal[i][from] == 0) return false;
        const Units was_from = column(dealt.deal, from);
        const Units was_to = column(dealt.deal, to);
        const auto before_from = weight(from, was_from);
        const auto before_to = weight(to, was_to);
        for (std::int64_t some = dealt.deal[i][from]; some > 0; some /= 2) {
            Units now_from = was_from;
            Units now_to = was_to;
            now_from[i] -= some;
            now_to[i] += some;
            const auto after_to = weight(to, now_to);
            if (!after_to) continue;
            const auto after_from = weight(from, now_from);
            if (!after_from || !before_from || !before_to) continue;
            if (!(*after_from + *after_to < *before_from + *before_to)) continue;
            dealt.deal[i][from] -= some;
            dealt.deal[i][to] += some;
            dealt.weight = dealt.weight + (*after_from + *after_to) - (*before_from + *before_to);
            return true;
        }
        return false;
    }

    const Table& table_;
    const std::vector<Chooser>& choosers_;
    const std::vector<Run>& runs_;
    const std::vector<ShelfMaterial>& shelf_;
    PaperCosts& costs_;
    std::vector<std::vector<std::size_t>> sets_; ///< indices into Table::choosers
    std::size_t kinds_ = 1;                      ///< of papers that the layout can tell apart
};

} // namespace

std::vector<std::vector<std::size_t>> exclusive_sets(const std::vector<std::size_t>& among,
                                                     const std::vector<Chooser>& choosers,
                                                     bool strict) {
    std::set<std::vector<std::size_t>> sets;
    for (std::size_t i = 0; i < among.size(); ++i) {
        std::vector<std::size_t> tied = {i};
        for (std::size_t k = 0; k < tied.size(); ++k) // grows as it is walked, when strict
            for (std::size_t j = 0; j < among.size(); ++j)
                if (differ(choosers[among[tied[k]]], among[j])
                    && std::find(tied.begin(), tied.end(), j) == tied.end() && (strict || k == 0))
                    tied.push_back(j);
        std::sort(tied.begin(), tied.end());
        bool all = true;
        for (const std::size_t a : tied)
            for (const std::size_t b : tied)
                all = all && (a == b || differ(choosers[among[a]], among[b]));
        if (tied.size() > 1 && (all || strict)) {
            sets.insert(tied);
            continue;
        }
        for (const std::size_t j : tied)
            if (j != i) sets.insert({std::min(i, j), std::max(i, j)});
    }
    return {sets.begin(), sets.end()};
}

std::optional<Dealt> deal_out(const Table& table, const std::vector<Chooser>& choosers,
                              const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
                              bool strict, PaperCosts& costs) {
    return Dealer(table, choosers, runs, shelf, strict, costs).run();
}

} // namespace barrow::costing
