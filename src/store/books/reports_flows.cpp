#include "store/books/reports.hpp"

#include "store/file/rows.hpp"

#include <algorithm>
#include <tuple>

namespace barrow::store {
namespace {

// The joins are crossed so that the entries of the period come first, by the index on their day,
// and each finds its movements by the index on theirs.
constexpr const char* grouped =
    "SELECT substr(made_on, 1, 7), ifnull(lot.material_id, 0), f.kind, t.kind, "
    "sum(movement.quantity), sum(movement.value) "
    "FROM posting CROSS JOIN movement ON movement.posting_id = posting.id "
    "CROSS JOIN holder f ON f.id = from_holder CROSS JOIN holder t ON t.id = to_holder "
    "LEFT JOIN lot ON lot.id = movement.lot_id WHERE ";

/// A reversal in a period, with its sign: -1 when it takes an entry back, 1 when it takes back a
/// taking back, and so on.
struct Reversal {
    std::int64_t id = 0;
    std::int64_t origin = 0;
    int sign = 1;
};

std::vector<Reversal> reversals(Database& database, const base::Date& from, const base::Date& to) {
    std::vector<Reversal> found;
    Query query(database,
                "SELECT id FROM posting WHERE made_on BETWEEN ? AND ? "
                "AND reverses IS NOT NULL",
                from, to);
    while (query.next()) {
        Reversal reversal;
        reversal.id = reversal.origin = query.number();
        for (auto posting = posting_by_id(database, reversal.id); posting && posting->reverses;
             posting = posting_by_id(database, reversal.origin)) {
            reversal.origin = *posting->reverses;
            reversal.sign = -reversal.sign;
        }
        found.push_back(reversal);
    }
    return found;
}

using Way = std::tuple<std::string, std::int64_t, std::string, std::string>;

void gather(Query& query, int sign, std::map<Way, Flow>& ways) {
    while (query.next()) {
        Flow flow;
        flow.month = query.text();
        flow.material_id = query.number();
        flow.from = query.text();
        flow.to = query.text();
        // What takes back moves the other way: turned round it counts against the first.
        if (sign < 0) std::swap(flow.from, flow.to);
        Flow& sum = ways[{flow.month, flow.material_id, flow.from, flow.to}];
        flow.quantity = sum.quantity + sign * query.number();
        flow.value = sum.value + base::Money::of_minor(sign * query.number());
        sum = flow;
    }
}

} // namespace

std::vector<Flow> flows(Database& database, const base::Date& from, const base::Date& to) {
    std::map<Way, Flow> ways;
    Query entries(database,
                  std::string(grouped)
                      + "posting.made_on BETWEEN ? AND ? AND posting.reverses IS NULL "
                        "GROUP BY 1, 2, 3, 4",
                  from, to);
    gather(entries, 1, ways);
    for (const Reversal& reversal : reversals(database, from, to)) {
        Query one(database, std::string(grouped) + "posting.id = ? GROUP BY 1, 2, 3, 4",
                  reversal.id);
        gather(one, reversal.sign, ways);
    }
    std::vector<Flow> result;
    for (const auto& [way, flow] : ways)
        if (flow.quantity != 0 || !flow.value.is_zero()) result.push_back(flow);
    return result;
}

Takings takings(Database& database, const base::Date& from, const base::Date& to) {
    Takings sum;
    const auto add = [&](Query& query, int sign) {
        query.next();
        sum.journals += sign * query.number();
        sum.taken += base::Money::of_minor(sign * query.number());
    };
    Query sales(database,
                "SELECT count(*), ifnull(sum(price), 0) FROM posting "
                "CROSS JOIN sale ON sale.posting_id = posting.id "
                "WHERE posting.made_on BETWEEN ? AND ?",
                from, to);
    add(sales, 1);
    for (const Reversal& reversal : reversals(database, from, to)) {
        Query one(database, "SELECT count(*), ifnull(sum(price), 0) FROM sale WHERE posting_id = ?",
                  reversal.origin);
        add(one, reversal.sign);
    }
    return sum;
}

std::set<std::int64_t> materials_used(Database& database, const base::Date& from,
                                      const base::Date& to) {
    std::set<std::int64_t> used;
    Query query(database,
                "SELECT DISTINCT posting.id, lot.material_id FROM posting "
                "CROSS JOIN movement ON movement.posting_id = posting.id "
                "CROSS JOIN lot ON lot.id = movement.lot_id "
                "WHERE posting.made_on BETWEEN ? AND ? AND movement.kind = 'use'",
                from, to);
    std::map<std::int64_t, bool> standing;
    while (query.next()) {
        const std::int64_t posting = query.number();
        const auto known = standing.find(posting);
        const bool holds = known != standing.end()
                               ? known->second
                               : (standing[posting] = stands(database, posting));
        if (holds) used.insert(query.number());
    }
    return used;
}

std::optional<base::Date> last_use(Database& database, std::int64_t material) {
    Query lots(database, "SELECT id FROM lot WHERE material_id = ?", material);
    std::optional<base::Date> last;
    while (lots.next()) {
        Query uses(database,
                   "SELECT movement.posting_id, made_on FROM movement "
                   "CROSS JOIN posting ON posting.id = movement.posting_id "
                   "WHERE movement.lot_id = ? AND movement.kind = 'use' "
                   "ORDER BY movement.id DESC",
                   lots.number());
        while (uses.next()) {
            if (!stands(database, uses.number())) continue;
            const base::Date day = uses.date("posting made_on");
            last = std::max(last.value_or(day), day);
            break;
        }
    }
    return last;
}

} // namespace barrow::store
