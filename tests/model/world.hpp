#pragma once

#include "model/book.hpp"
#include "model/step.hpp"

#include "store/file/database.hpp"
#include "workshop/making/cost.hpp"
#include "workshop/shared/context.hpp"

#include <functional>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace model {

/// Thrown when the shop and the naive book differ, or the shop is not sound.
struct Disagreement : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// A shop in memory and the naive book beside it, led through the same steps.
class World {
public:
    World();

    /// Does one step in both and compares them: whether it was refused, every holder's quantity and
    /// value, the state of every batch, the value of the shop. The shop checks each write itself
    /// (every lot it touched). Throws Disagreement.
    void take(const Step& step);

    /// Everything that grows with the ledger: the whole of `check`, what was there on past days,
    /// the year's accounts, histories, and that nothing written before has changed.
    void look_back(int number);

    const Book& book() const { return book_; }
    /// How often each kind of step was done, and how often refused.
    const std::map<Do, std::pair<long, long>>& tally() const { return tally_; }
    /// Offcuts that plans took for fillers alone.
    long from_box() const { return from_box_; }

private:
    using Shop = std::function<void(barrow::workshop::Context&)>;
    using Told = std::function<void(Book&)>;

    void both(const Step& step, const Shop& shop, const Told& told);
    barrow::workshop::Context context();
    std::string day_text(Count day) const;

    void receive(const Step& step);
    void plan(const Step& step);
    const Batch* batch_standing(const std::string& at, int dice) const;
    void cut(const Step& step);
    void finish(const Step& step);
    void reverse(const Step& step);
    void leave(const Step& step);
    void offcut_box(const Step& step);
    void journals(const Step& step);
    void take_apart(const Step& step);
    void decide(const Step& step);
    void count(const Step& step);
    void orders(const Step& step);
    void fairs(const Step& step);

    std::vector<barrow::workshop::WantedRun> wanted_runs(const Step& step) const;
    barrow::workshop::HowToCost how(const Step& step) const;
    Plan kept_plan(Count batch_number);
    void judge_pick(Count source, const barrow::workshop::HowToCost& how) const;
    void judge_plan(const Plan& plan, const barrow::workshop::HowToCost& how,
                    const std::vector<barrow::workshop::WantedRun>& wanted) const;
    void judge_fillers(const Plan& plan, const barrow::workshop::HowToCost& how,
                       const std::vector<barrow::workshop::WantedRun>& wanted) const;
    void judge_refusal(const std::vector<barrow::workshop::WantedRun>& wanted,
                       const barrow::workshop::HowToCost& how, bool refused) const;
    CutReport cut_report(const Batch& batch, const Step& step) const;

    void name_new_things();
    void compare();
    void compare_balances();
    void compare_values();
    void compare_stock();
    void compare_market();
    void compare_past(Count day);
    void compare_histories();
    void nothing_changed();

    barrow::store::Database database_;
    Book book_;
    Count today_ = 0;
    std::size_t named_offcuts_ = 0;
    std::size_t named_journals_ = 0;
    Count seen_movement_ = 0;
    std::string seen_sum_;
    std::map<Do, std::pair<long, long>> tally_;
    long from_box_ = 0;
};

} // namespace model
