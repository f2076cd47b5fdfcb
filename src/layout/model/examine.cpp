#include "layout/job.hpp"

#include "base/wide.hpp"
#include "layout/model/instance.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

namespace barrow::layout {
namespace {

using base::Wide;
using List = JobProblem::List;

class Examiner {
public:
    explicit Examiner(const Job& job) : job_(job), factor_(common_factor(job)) {}

    std::vector<JobProblem> run() {
        whole();
        for (std::size_t i = 0; i < job_.stock.size(); ++i) stock(i);
        for (std::size_t i = 0; i < job_.pieces.size(); ++i) piece(i);
        ids(List::stock, job_.stock);
        ids(List::pieces, job_.pieces);
        // Totals mean something only when every entry is sound.
        if (problems_.empty()) totals();
        return std::move(problems_);
    }

private:
    void report(List list, std::size_t index, std::string field, std::string what) {
        problems_.push_back({list, index, std::move(field), std::move(what)});
    }

    void not_negative(List list, std::size_t index, const char* field, std::int64_t value) {
        if (value < 0)
            report(list, index, field,
                   fmt::format("{} is {}; expected zero or more", field, value));
    }

    void side(List list, std::size_t index, const char* field, Measure value, Measure factor) {
        if (value <= 0)
            report(list, index, field,
                   fmt::format("{} is {}; expected a positive number", field, value));
        else if (value / factor > largest_side)
            report(list, index, field,
                   fmt::format("{} is {}; expected at most {} times the common unit of all "
                               "measures, {}",
                               field, value, largest_side, factor));
    }

    void sides(List list, std::size_t index, Measure width, Measure height) {
        side(list, index, "width", width, factor_);
        if (!job_.one_dimensional)
            side(list, index, "height", height, factor_);
        else if (height != 1)
            report(list, index, "height",
                   fmt::format("height is {}; expected 1 in a one-dimensional job", height));
    }

    void count(List list, std::size_t index, std::optional<std::int64_t> value) {
        if (value && (*value < 0 || *value > largest_count))
            report(list, index, "count",
                   fmt::format("count is {}; expected 0 to {}", *value, largest_count));
    }

    void whole() {
        if (job_.stock.empty())
            report(List::job, 0, "stock", "stock is empty; expected one entry or more");
        if (job_.pieces.empty())
            report(List::job, 0, "pieces", "pieces is empty; expected one entry or more");
        not_negative(List::job, 0, "kerf", job_.kerf);
        not_negative(List::job, 0, "useful.shorter", job_.useful.shorter);
        not_negative(List::job, 0, "useful.longer", job_.useful.longer);
        if (job_.useful.shorter > job_.useful.longer)
            report(List::job, 0, "useful.longer",
                   fmt::format("useful.longer is {}; expected at least useful.shorter, {}",
                               job_.useful.longer, job_.useful.shorter));
        if (job_.trimmer) side(List::job, 0, "trimmer", *job_.trimmer, factor_);
    }

    void margin(std::size_t i, const char* field, Measure value) {
        not_negative(List::stock, i, field, value);
        if (value / factor_ > largest_side)
            report(List::stock, i, field, fmt::format("{} is {}; too large", field, value));
    }

    void stock(std::size_t i) {
        const Stock& entry = job_.stock[i];
        sides(List::stock, i, entry.width, entry.height);
        not_negative(List::stock, i, "cost", entry.cost);
        count(List::stock, i, entry.count);
        margin(i, "margin.left", entry.margin.left);
        margin(i, "margin.right", entry.margin.right);
        margin(i, "margin.top", entry.margin.top);
        margin(i, "margin.bottom", entry.margin.bottom);
        // A side must still be in range with the kerf added, which is how the search counts.
        if (entry.width > 0 && job_.kerf > 0
            && (Wide(std::max(entry.width, entry.height)) + job_.kerf) / factor_ > largest_side)
            report(List::job, 0, "kerf",
                   fmt::format("kerf is {}; too large beside stock {}", job_.kerf, i + 1));
    }

    void piece(std::size_t i) {
        const Piece& entry = job_.pieces[i];
        sides(List::pieces, i, entry.width, entry.height);
        count(List::pieces, i, entry.count);
        if (job_.goal == Goal::least_cost && !entry.count)
            report(List::pieces, i, "count", "count is missing; expected how many are wanted");
        if (job_.goal == Goal::most_value) not_negative(List::pieces, i, "value", entry.value);
    }

    template <typename Entry>
    void ids(List list, const std::vector<Entry>& entries) {
        std::unordered_map<std::string, std::size_t> seen;
        for (std::size_t i = 0; i < entries.size(); ++i) {
            if (entries[i].id.empty()) {
                report(list, i, "id", "id is empty; expected a name");
                continue;
            }
            const auto [first, fresh] = seen.emplace(entries[i].id, i);
            if (!fresh)
                report(list, i, "id",
                       fmt::format("id \"{}\" is used twice; expected another than entry {} has",
                                   entries[i].id, first->second + 1));
        }
    }

    /// The greatest possible cost and value must fit 62 bits, and one plan must be small enough to
    /// write out.
    void totals() {
        const Wide limit = Wide(1) << 62;
        Wide pieces = 0;
        Wide area = 0;
        Wide value = 0;
        const Stock& sheet = job_.stock.front();
        for (std::size_t i = 0; i < job_.pieces.size(); ++i) {
            const Piece& piece = job_.pieces[i];
            if (job_.goal == Goal::least_cost) {
                pieces += *piece.count;
                area += Wide(piece.width / factor_) * (piece.height / factor_) * *piece.count;
                continue;
            }
            const Wide fit = (Wide(sheet.width) + job_.kerf) * (Wide(sheet.height) + job_.kerf)
                             / ((Wide(piece.width) + job_.kerf) * (Wide(piece.height) + job_.kerf));
            const Wide most = std::min<Wide>(fit, piece.count.value_or(largest_count + 1));
            if (most > largest_count)
                report(List::pieces, i, "count",
                       fmt::format("more than {} would fit on the sheet; expected a limit",
                                   largest_count));
            value += most * piece.value;
            if (value > limit)
                report(List::pieces, i, "value",
                       "value is too large: the total needs over 62 bits");
        }
        // The bounds multiply areas by costs in 128 bits.
        const Wide room = (Wide(1) << 124) / (area + 1);
        for (std::size_t i = 0; i < job_.stock.size(); ++i)
            if (job_.goal == Goal::least_cost
                && (pieces * job_.stock[i].cost > limit || job_.stock[i].cost > room))
                report(List::stock, i, "cost", "cost is too large: the total needs over 62 bits");
    }

    const Job& job_;
    Measure factor_;
    std::vector<JobProblem> problems_;
};

} // namespace

std::vector<JobProblem> examine(const Job& job) {
    return Examiner(job).run();
}

} // namespace barrow::layout
