#include "workshop/books/reports.hpp"

#include "base/error.hpp"
#include "store/books/reports.hpp"
#include "store/ledger/totals.hpp"

#include <algorithm>
#include <map>

namespace barrow::workshop {
namespace {

using base::Money;
using store::Flow;

void add(Amount& amount, const Flow& flow, int sign) {
    amount.quantity += sign * flow.quantity;
    amount.value += Money::of_minor(sign * flow.value.minor());
}

/// Counts a flow where it belongs; gives whether it belongs anywhere.
void count(const Flow& flow, UsageLine& line) {
    if (flow.from == "batch" && flow.to == "made") add(line.in_journals, flow, 1);
    // Found again, or come back out of a journal.
    if (flow.from == "made") add(line.in_journals, flow, -1);
    if (flow.to == "offcut" && flow.from != "offcut") add(line.kept, flow, 1);
    if (flow.to == "written_off") add(line.written_off, flow, 1);
    if (flow.from == "written_off") add(line.written_off, flow, -1);
}

bool is_empty(const Amount& amount) {
    return amount.quantity == 0 && amount.value.is_zero();
}

/// Every material with something there, by code.
std::vector<StockLine> lines_on_hand(store::Database& database) {
    const auto there = store::on_hand(database);
    std::vector<StockLine> lines;
    for (const store::Material& material : store::all_materials(database)) {
        const auto found = there.find(material.id);
        if (found == there.end()) continue;
        const store::OnHand& on_hand = found->second;
        StockLine line;
        line.material = material;
        line.quantity = on_hand.quantity;
        line.units = on_hand.units;
        line.offcuts = on_hand.offcuts;
        line.offcut_quantity = on_hand.offcut_quantity;
        line.shelf_value = on_hand.shelf_value;
        line.offcut_value = on_hand.offcut_value;
        lines.push_back(line);
    }
    return lines;
}

void check_period(const base::Date& from, const base::Date& to) {
    if (to < from)
        throw base::Error(base::Kind::usage,
                          base::to_text(to) + " lies before " + base::to_text(from),
                          "give the first day with --from and the last with --to");
}

} // namespace

Usage usage(store::Database& database, const base::Date& from, const base::Date& to) {
    check_period(from, to);
    return reading(database, [&] {
        Usage usage;
        usage.settings = read_settings(database);
        usage.from = from;
        usage.to = to;
        std::map<std::int64_t, store::Material> materials;
        for (const store::Material& material : store::all_materials(database))
            materials[material.id] = material;
        std::map<std::pair<std::string, std::string>, UsageLine> lines;
        for (const Flow& flow : store::flows(database, from, to)) {
            if (flow.material_id == 0) continue;
            const store::Material& material = materials[flow.material_id];
            UsageLine& line = lines[{flow.month, material.code}];
            line.month = flow.month;
            line.material = material.code;
            line.name = material.name;
            line.form = material.form;
            line.bulk_is_mass = material.bulk_unit == "g";
            count(flow, line);
        }
        for (const auto& [key, line] : lines) {
            if (is_empty(line.in_journals) && is_empty(line.kept) && is_empty(line.written_off))
                continue;
            usage.in_journals += line.in_journals.value;
            usage.kept += line.kept.value;
            usage.written_off += line.written_off.value;
            usage.lines.push_back(line);
        }
        return usage;
    });
}

SlowStock slow_stock(store::Database& database, long days, const base::Date& today) {
    return reading(database, [&] {
        SlowStock slow;
        slow.settings = read_settings(database);
        slow.days = days;
        const base::Date limit = base::plus_days(today, -days);
        const auto used = store::materials_used(database, base::plus_days(limit, 1), today);
        const auto oldest = store::oldest_on_hand(database);
        for (const StockLine& line : lines_on_hand(database)) {
            const auto came = oldest.find(line.material.id);
            if (came == oldest.end() || came->second > limit || used.count(line.material.id) > 0)
                continue;
            SlowLine own;
            own.stock = line;
            own.last_use = store::last_use(database, line.material.id);
            own.dead = !own.last_use || *own.last_use < came->second;
            own.since = own.dead ? came->second : *own.last_use;
            own.days = base::days_between(own.since, today);
            slow.value += line.shelf_value + line.offcut_value;
            slow.lines.push_back(own);
        }
        std::stable_sort(slow.lines.begin(), slow.lines.end(),
                         [](const SlowLine& a, const SlowLine& b) { return a.days > b.days; });
        return slow;
    });
}

} // namespace barrow::workshop
