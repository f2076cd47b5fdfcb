#include "costing/arrange/guide.hpp"

#include "costing/arrange/paper_question.hpp"

#include <algorithm>
#include <map>

namespace barrow::costing {
namespace {

using Counts = std::vector<std::int64_t>;

/// What falls to one paper, by choice.
struct Share {
    std::map<std::size_t, std::int64_t> units;
    std::map<std::size_t, std::vector<Counts>> counts; ///< of divisions, by use
};

using Shares = std::map<std::size_t, Share>; ///< by paper

/// How many divisions each use of a chooser has on a paper.
Counts divisions_on(const std::vector<PaperQuestion::Option>& options, std::size_t paper) {
    Counts number;
    for (const PaperQuestion::Option& option : options) {
        if (option.paper != paper) continue;
        number.resize(option.divisions.size(), 0);
        for (std::size_t u = 0; u < number.size(); ++u)
            number[u] = std::max(number[u], static_cast<std::int64_t>(option.divisions[u]) + 1);
    }
    return number;
}

void add(Share& share, std::size_t choice, const Chooser& chooser,
         const std::vector<PaperQuestion::Option>& options, const PaperQuestion::Option& option,
         std::int64_t falls) {
    share.units[choice] += falls;
    std::vector<Counts>& counts = share.counts[choice];
    if (counts.empty())
        for (const std::int64_t number : divisions_on(options, option.paper))
            counts.emplace_back(static_cast<std::size_t>(number), 0);
    for (std::size_t u = 0; u < counts.size(); ++u)
        counts[u][option.divisions[u]] += falls * chooser.uses[u].copies;
}

void suggest(std::size_t paper, const Share& share, const std::vector<std::size_t>& choosers,
             PaperCosts& costs) {
    std::vector<std::size_t> who;
    Counts units;
    PaperCosts::Mixture mixture;
    for (const auto& [choice, number] : share.units) {
        who.push_back(choosers[choice]);
        units.push_back(number);
        mixture.push_back(share.counts.at(choice));
    }
    costs.suggest(paper, who, units, std::move(mixture));
}

} // namespace

std::optional<Deal> guided_deal(const Table& table, const std::vector<Chooser>& choosers,
                                const std::vector<Run>& runs,
                                const std::vector<ShelfMaterial>& shelf,
                                const std::vector<std::vector<std::size_t>>& exclusive,
                                std::int64_t work, PaperCosts& costs) {
    std::vector<std::size_t> who = table.choosers;
    who.insert(who.end(), table.settled.begin(), table.settled.end());
    const auto question = paper_question(runs, shelf, choosers, who, exclusive, costs.buying());
    if (!question) return std::nullopt;
    const auto falls = layout::joint_falls(question->question, work);
    if (!falls) return std::nullopt;
    Shares shares;
    for (std::size_t i = 0; i < who.size(); ++i)
        for (std::size_t o = 0; o < (*falls)[i].size(); ++o) {
            const PaperQuestion::Option& option = question->options[i][o];
            if ((*falls)[i][o] > 0)
                add(shares[option.paper], i, choosers[who[i]], question->options[i], option,
                    (*falls)[i][o]);
        }
    Deal deal(table.choosers.size(), Counts(table.papers.size(), 0));
    for (const auto& [paper, share] : shares) {
        const auto k = static_cast<std::size_t>(
            std::lower_bound(table.papers.begin(), table.papers.end(), paper)
            - table.papers.begin());
        for (std::size_t i = 0; i < table.choosers.size(); ++i) {
            const auto units = share.units.find(i); // they come first among the choices
            if (units != share.units.end()) deal[i][k] = units->second;
        }
        suggest(paper, share, who, costs);
    }
    return deal;
}

} // namespace barrow::costing
