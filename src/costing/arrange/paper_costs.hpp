#pragma once

#include "costing/arrange/choosers.hpp"
#include "costing/bill/bill.hpp"
#include "costing/cutting/cutting_job.hpp"
#include "layout/job.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace barrow::costing {

/// What is made small: cost first, then joins.
struct Weight {
    layout::Cost cost = 0;
    std::int64_t joins = 0;
    std::int64_t bought = 0; ///< papers of which something must be bought
    friend auto operator<=>(const Weight&, const Weight&) = default;
    friend Weight operator+(const Weight& a, const Weight& b) {
        return {a.cost + b.cost, a.joins + b.joins, a.bought + b.bought};
    }
    friend Weight operator-(const Weight& a, const Weight& b) {
        return {a.cost - b.cost, a.joins - b.joins, a.bought - b.bought};
    }
};

/// What it costs to take so many units of each chooser from one paper, every panel divided as
/// comes out best. Found through the layout engine and remembered; papers that are alike in all
/// that the layout sees share what is remembered.
class PaperCosts {
public:
    /// All must outlive it. `buying`: twice or never.
    PaperCosts(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf,
               const std::vector<Chooser>& choosers, layout::Effort effort, Buying buying);

    Buying buying() const { return buying_; }

    struct Answer {
        Weight weight;
        /// For each chooser with units, for each of its uses: how the panels are made.
        std::map<std::size_t, std::vector<std::vector<Way>>> ways;
    };

    /// So many layouts are asked for in one answer at most, about: with fewer mixtures of divisions
    /// than that all of them are weighed, with more some.
    void limit_mixtures(std::int64_t layouts) { mixtures_in_full_ = layouts; }

    /// Nothing when it cannot be laid out. `units` stand beside `who`, ascending chooser indices.
    const std::optional<Answer>& of(std::size_t paper, const std::vector<std::size_t>& who,
                                    const std::vector<std::int64_t>& units);

    /// A mixture to begin with when that is asked: beside who (with units only) and its uses, so
    /// many of each division.
    using Mixture = std::vector<std::vector<std::vector<std::int64_t>>>;
    void suggest(std::size_t paper, const std::vector<std::size_t>& who,
                 const std::vector<std::int64_t>& units, Mixture mixture);

    /// The same without a layout when there is but one way to make every panel (weight 0); nothing
    /// when there is a choice, or no way at all.
    std::optional<Answer> only_way(std::size_t paper, const std::vector<std::size_t>& who,
                                   const std::vector<std::int64_t>& units) const;

    /// First chooser, and its part, that no division lets the paper hold; nothing when all fit.
    std::optional<std::pair<std::size_t, std::size_t>>
    too_large(std::size_t paper, const std::vector<std::size_t>& who,
              const std::vector<std::int64_t>& units) const;

    /// Papers alike for the layout have the same.
    const std::string& likeness(std::size_t paper);

    /// Whether every mixture of divisions was weighed, in all answers so far.
    bool all_mixtures() const { return all_mixtures_; }
    /// Layouts asked of the engine so far.
    std::int64_t layouts() const { return layouts_; }

private:
    struct Panel; ///< one use that may be divided
    using Counts = std::vector<std::int64_t>;

    std::string question_of(std::size_t paper, const std::vector<std::size_t>& who,
                            const std::vector<std::int64_t>& units);
    std::optional<Answer> weigh(std::size_t paper, const std::vector<std::size_t>& who,
                                const std::vector<std::int64_t>& units, const Mixture* suggested);
    std::vector<Panel> panels_of(std::size_t paper, const std::vector<std::size_t>& who,
                                 const std::vector<std::int64_t>& units) const;
    static Answer answer_of(const Weight& weight, const std::vector<Panel>& panels);
    void all_ways(std::vector<Panel>& panels, std::size_t from, std::size_t paper,
                  std::optional<Weight>& best);
    void some_ways(std::vector<Panel>& panels, std::size_t paper, std::optional<Weight>& best);
    void try_suggested(std::vector<Panel>& panels, const Mixture& mixture, std::size_t paper,
                       std::optional<Weight>& best);
    void improve(std::vector<Panel>& panels, std::size_t paper, std::optional<Weight>& best,
                 std::int64_t most_layouts);
    bool take_if_better(std::vector<Panel>& panels, std::size_t paper, std::optional<Weight>& best);
    std::optional<Weight> weigh_panels(const std::vector<Panel>& panels, std::size_t paper);
    std::optional<Weight> lay_out(const Demand& demand, std::vector<std::int64_t>* spent);
    std::string key_of(std::size_t paper) const;

    const std::vector<Run>& runs_;
    const std::vector<ShelfMaterial>& shelf_;
    const std::vector<Chooser>& choosers_;
    layout::Effort effort_;
    Buying buying_;
    std::map<std::size_t, std::string> keys_;
    std::map<std::string, std::optional<Answer>> known_;
    std::map<std::string, Mixture> suggested_;
    std::int64_t mixtures_in_full_ = 300;
    std::int64_t work_ = 0; ///< for a layout
    bool all_mixtures_ = true;
    std::int64_t layouts_ = 0;
};

} // namespace barrow::costing
