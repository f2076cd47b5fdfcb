#include "costing/arrange/pairing.hpp"

#include "costing/arrange/dealing.hpp"

#include <algorithm>
#include <map>

namespace barrow::costing {
namespace {

class Pairer {
public:
    Pairer(std::int64_t journals, const std::vector<std::size_t>& who,
           const std::vector<std::vector<std::pair<std::size_t, std::int64_t>>>& counts,
           const std::vector<Chooser>& choosers)
        : left_(journals), who_(who), choosers_(choosers),
          sets_(exclusive_sets(who, choosers, false)), counts_(who.size()) {
        for (std::size_t i = 0; i < who.size(); ++i)
            for (const auto& [paper, count] : counts[i]) counts_[i][paper] = count;
    }

    std::optional<Pairing> run() {
        Pairing pairing;
        std::vector<std::size_t> last(who_.size(), 0);
        bool first = true;
        while (left_ > 0) {
            std::vector<std::size_t> journal;
            if (!first && possible(last))
                journal = last;
            else if (!choose(journal, first ? nullptr : &last))
                return std::nullopt;
            for (std::size_t i = 0; i < who_.size(); ++i) --counts_[i][journal[i]];
            --left_;
            pairing.push_back(journal);
            last = std::move(journal);
            first = false;
        }
        return pairing;
    }

private:
    bool has(std::size_t i, std::size_t paper) const {
        const auto found = counts_[i].find(paper);
        return found != counts_[i].end() && found->second > 0;
    }

    /// A paper that a set of choosers still wants in every journal that is left must be in this
    /// one.
    bool covers(const std::vector<std::size_t>& journal) const {
        for (const auto& set : sets_) {
            std::map<std::size_t, std::int64_t> wanted;
            for (const std::size_t i : set)
                for (const auto& [paper, count] : counts_[i]) wanted[paper] += count;
            for (const auto& [paper, count] : wanted) {
                if (count < left_) continue;
                if (std::none_of(set.begin(), set.end(),
                                 [&, p = paper](std::size_t i) { return journal[i] == p; }))
                    return false;
            }
        }
        return true;
    }

    bool clashes(const std::vector<std::size_t>& journal, std::size_t i, std::size_t paper) const {
        for (std::size_t k = 0; k < journal.size(); ++k) {
            const auto& differs = choosers_[who_[i]].differs_from;
            if (journal[k] == paper
                && std::find(differs.begin(), differs.end(), who_[k]) != differs.end())
                return true;
        }
        return false;
    }

    bool possible(const std::vector<std::size_t>& journal) const {
        for (std::size_t i = 0; i < journal.size(); ++i)
            if (!has(i, journal[i])) return false;
        return covers(journal);
    }

    /// Depth first over the choosers; the paper of the journal before goes first, then the most
    /// numerous.
    bool choose(std::vector<std::size_t>& journal, const std::vector<std::size_t>* last) const {
        const std::size_t i = journal.size();
        if (i == who_.size()) return covers(journal);
        std::vector<std::pair<std::int64_t, std::size_t>> papers;
        for (const auto& [paper, count] : counts_[i])
            if (count > 0)
                papers.emplace_back(last != nullptr && (*last)[i] == paper ? left_ + 1 : count,
                                    paper);
        std::sort(papers.begin(), papers.end(), [](const auto& a, const auto& b) {
            return a.first != b.first ? a.first > b.first : a.second < b.second;
        });
        for (const auto& [count, paper] : papers) {
            if (clashes(journal, i, paper)) continue;
            journal.push_back(paper);
            if (choose(journal, last)) return true;
            journal.pop_back();
        }
        return false;
    }

    std::int64_t left_;
    const std::vector<std::size_t>& who_;
    const std::vector<Chooser>& choosers_;
    std::vector<std::vector<std::size_t>> sets_;
    std::vector<std::map<std::size_t, std::int64_t>> counts_; ///< of journals, by paper
};

} // namespace

std::optional<Pairing>
pair_up(std::int64_t journals, const std::vector<std::size_t>& who,
        const std::vector<std::vector<std::pair<std::size_t, std::int64_t>>>& counts,
        const std::vector<Chooser>& choosers) {
    return Pairer(journals, who, counts, choosers).run();
}

} // namespace barrow::costing
