#include "workshop/books/reports.hpp"

#include "base/error.hpp"
#include "store/books/reports.hpp"
#include "store/ledger/quarters.hpp"
#include "store/selling/fairs.hpp"

#include <map>

namespace barrow::workshop {
namespace {

using base::Money;
using store::Flow;

/// What the ledger moved between kinds of holders in the period.
class Moved {
public:
    explicit Moved(const std::vector<Flow>& flows) {
        for (const Flow& flow : flows) {
            // Shelf and offcut box are one here: what is kept is still material.
            const std::string from = flow.from == "offcut" ? "shelf" : flow.from;
            const std::string to = flow.to == "offcut" ? "shelf" : flow.to;
            values_[{from, to}] += flow.value;
            if (flow.material_id == 0) journals_[{from, to}] += flow.quantity;
        }
    }

    /// What went there, less what came back.
    Money net(const char* from, const char* to) const { return at(from, to) - at(to, from); }

    std::int64_t journals(const char* from, const char* to) const {
        const auto count = [&](const char* a, const char* b) {
            const auto found = journals_.find({a, b});
            return found == journals_.end() ? 0 : found->second;
        };
        return count(from, to) - count(to, from);
    }

private:
    Money at(const char* from, const char* to) const {
        const auto found = values_.find({from, to});
        return found == values_.end() ? Money() : found->second;
    }

    std::map<std::pair<std::string, std::string>, Money> values_;
    std::map<std::pair<std::string, std::string>, std::int64_t> journals_;
};

Money of(const std::map<std::string, Money>& values, const char* kind) {
    const auto found = values.find(kind);
    return found == values.end() ? Money() : found->second;
}

void read_ends(store::Database& database, Year& year) {
    const auto before = store::values_on(database, base::plus_days(year.from, -1));
    const auto after = store::values_on(database, year.to);
    const auto ends = [&](const char* kind) { return Ends{of(before, kind), of(after, kind)}; };
    const Ends shelf = ends("shelf");
    const Ends box = ends("offcut");
    year.materials = {shelf.opening + box.opening, shelf.closing + box.closing};
    year.work = ends("batch");
    year.journals = ends("journal");
}

Money size_of(Money amount) {
    return amount < Money() ? -amount : amount;
}

/// What each account should have at the end, less what it has.
Money difference(const Year& y) {
    const Money materials = y.materials.opening + y.bought + y.came_back - y.put_to_work
                            - y.materials_lost - y.materials.closing;
    const Money work = y.work.opening + y.put_to_work - y.made - y.work_lost - y.work.closing;
    const Money journals =
        y.journals.opening + y.made - y.came_back - y.sold - y.journals_lost - y.journals.closing;
    return size_of(materials) + size_of(work) + size_of(journals);
}

} // namespace

Year year(store::Database& database, const base::Date& from, const base::Date& to) {
    if (to < from)
        throw base::Error(base::Kind::usage,
                          base::to_text(to) + " lies before " + base::to_text(from),
                          "give the first day with --from and the last with --to");
    return reading(database, [&] {
        Year year;
        year.settings = read_settings(database);
        year.from = from;
        year.to = to;
        read_ends(database, year);
        const Moved moved(store::flows(database, from, to));
        year.bought = moved.net("outside", "shelf");
        year.came_back = moved.net("made", "shelf");
        year.put_to_work = moved.net("shelf", "batch");
        year.materials_lost = moved.net("shelf", "written_off");
        year.made = moved.net("batch", "made");
        year.work_lost = moved.net("batch", "written_off");
        year.sold = moved.net("journal", "sold");
        year.journals_lost = moved.net("journal", "written_off");
        year.journals_made = moved.journals("made", "journal");
        year.journals_sold = moved.journals("journal", "sold");
        year.takings = store::takings(database, from, to).taken;
        year.fairs = store::fair_costs(database, from, to);
        year.difference = difference(year);
        return year;
    });
}

} // namespace barrow::workshop
