#include "layout/finish/plans.hpp"

#include "base/error.hpp"
#include "base/wide.hpp"
#include "layout/finish/cut_order.hpp"
#include "layout/finish/drawing.hpp"

#include <algorithm>

namespace barrow::layout {
namespace {

/// Assigns the entries of the job that a kind stands for, first entry first.
class Issue {
public:
    explicit Issue(const std::vector<Source>& sources) : left_(sources) {}

    /// Assigns `slots` entries for one copy; afterwards copies() is how many copies may share the
    /// same entries.
    std::vector<Source> one_copy(std::int64_t slots) {
        std::vector<Source> given;
        taken_.assign(left_.size(), 0);
        for (std::size_t i = 0; i < left_.size() && slots > 0; ++i) {
            taken_[i] = std::min(slots, left_[i].count);
            slots -= taken_[i];
            for (std::int64_t n = 0; n < taken_[i]; ++n) given.push_back(left_[i]);
        }
        if (slots > 0) throw base::broken("a cut plan uses more than the job has");
        return given;
    }

    std::int64_t copies(std::int64_t wanted) const {
        for (std::size_t i = 0; i < taken_.size(); ++i)
            if (taken_[i] > 0) wanted = std::min(wanted, left_[i].count / taken_[i]);
        return wanted;
    }

    void use(std::int64_t copies) {
        for (std::size_t i = 0; i < taken_.size(); ++i) left_[i].count -= taken_[i] * copies;
    }

private:
    std::vector<Source> left_;
    std::vector<std::int64_t> taken_;
};

void collect(const Job& job, const Part& part, std::vector<const Part*>& pieces,
             std::vector<Rectangle>& offcuts) {
    if (part.item >= 0) {
        pieces.push_back(&part);
    } else if (part.parts.empty()) {
        if (useful_size(job, part.place.width, part.place.height)) offcuts.push_back(part.place);
    }
    for (const Part& child : part.parts) collect(job, child, pieces, offcuts);
}

void largest_first(std::vector<Rectangle>& offcuts) {
    const auto area = [](const Rectangle& r) { return base::Wide(r.width) * r.height; };
    std::sort(offcuts.begin(), offcuts.end(), [&](const Rectangle& a, const Rectangle& b) {
        if (area(a) != area(b)) return area(a) > area(b);
        return a.x != b.x ? a.x < b.x : a.y < b.y;
    });
}

class Writer {
public:
    Writer(const Job& job, const Instance& instance) : job_(job), instance_(instance) {
        for (const Item& item : instance.items) items_.emplace_back(item.sources);
        for (const Sheet& sheet : instance.sheets) sheets_.emplace_back(sheet.sources);
    }

    void write(const Pattern& pattern, std::vector<Plan>& plans) {
        std::vector<std::int64_t> counts(instance_.items.size(), 0);
        count_items(pattern.block, counts);
        for (std::int64_t left = pattern.copies; left > 0;) {
            const Source stock = sheets_[pattern.sheet].one_copy(1).front();
            std::int64_t copies = sheets_[pattern.sheet].copies(left);
            std::vector<std::vector<Source>> entries(counts.size());
            for (std::size_t i = 0; i < counts.size(); ++i) {
                entries[i] = items_[i].one_copy(counts[i]);
                copies = items_[i].copies(copies);
            }
            for (Issue& issue : items_) issue.use(copies);
            sheets_[pattern.sheet].use(copies);
            plans.push_back(plan(pattern, stock.index, copies, entries));
            left -= copies;
        }
    }

private:
    Plan plan(const Pattern& pattern, std::size_t stock, std::int64_t copies,
              std::vector<std::vector<Source>>& entries) const {
        const Stock& entry = job_.stock[stock];
        const Margin& margin = entry.margin;
        const Rectangle usable{margin.left, margin.bottom, entry.width - margin.left - margin.right,
                               entry.height - margin.top - margin.bottom};
        const Part sheet = Drawing(job_, instance_, pattern.block).draw(usable);
        Plan plan;
        plan.stock = stock;
        plan.copies = copies;
        plan.cuts = cuts_in_order(job_, sheet);
        std::vector<const Part*> pieces;
        collect(job_, sheet, pieces, plan.offcuts);
        largest_first(plan.offcuts);
        for (const Part* part : pieces) plan.pieces.push_back(placed(*part, entries));
        return plan;
    }

    Placed placed(const Part& part, std::vector<std::vector<Source>>& entries) const {
        std::vector<Source>& left = entries[static_cast<std::size_t>(part.item)];
        const Source source = left.back();
        left.pop_back();
        return {source.index, part.place, part.turned != source.swapped};
    }

    const Job& job_;
    const Instance& instance_;
    std::vector<Issue> items_;
    std::vector<Issue> sheets_;
};

} // namespace

std::vector<Plan> plans_of(const Job& job, const Instance& instance,
                           const std::vector<Pattern>& patterns) {
    std::vector<Plan> plans;
    Writer writer(job, instance);
    for (const Pattern& pattern : patterns) writer.write(pattern, plans);
    return plans;
}

} // namespace barrow::layout
