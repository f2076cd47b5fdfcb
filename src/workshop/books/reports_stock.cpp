#include "workshop/books/reports.hpp"

#include "base/error.hpp"
#include "store/books/reports.hpp"

#include <array>
#include <map>

namespace barrow::workshop {
namespace {

struct AgeBand {
    long below; ///< days
    const char* name;
};

constexpr std::array<AgeBand, 4> bands = {{{91, "under 3 months"},
                                           {183, "3 to 6 months"},
                                           {365, "6 to 12 months"},
                                           {1'000'000, "a year and more"}}};

std::size_t band_of(long days) {
    std::size_t band = 0;
    while (band + 1 < bands.size() && days >= bands.at(band).below) ++band;
    return band;
}

void add(BoxSum& sum, const store::OffcutOnHand& there) {
    ++sum.offcuts;
    sum.quantity += there.quantity;
    sum.value += there.value;
}

} // namespace

StockOn stock_on(store::Database& database, const base::Date& on, const base::Date& today) {
    if (on > today)
        throw base::bad_input("--on", base::to_text(on) + " has not come yet",
                              "give today or a day before");
    return reading(database, [&] {
        const store::StockThen then = store::stock_on(database, on);
        std::map<std::int64_t, store::MaterialThen> there;
        for (const store::MaterialThen& material : then.materials)
            there[material.on_hand.material_id] = material;
        StockOn result;
        result.on = on;
        result.in_work = then.in_work;
        result.journals = then.journals;
        result.in_journals = then.in_journals;
        result.stock.settings = read_settings(database);
        for (const store::Material& material : store::all_materials(database)) {
            const auto found = there.find(material.id);
            if (found == there.end()) continue;
            const store::OnHand& on_hand = found->second.on_hand;
            StockLine line;
            line.material = material;
            line.quantity = on_hand.quantity;
            line.units = found->second.units;
            line.offcuts = on_hand.offcuts;
            line.offcut_quantity = on_hand.offcut_quantity;
            line.shelf_value = on_hand.shelf_value;
            line.offcut_value = on_hand.offcut_value;
            result.stock.value += line.shelf_value + line.offcut_value;
            result.stock.lines.push_back(line);
        }
        return result;
    });
}

BoxByAge box_by_age(store::Database& database, const base::Date& today) {
    return reading(database, [&] {
        BoxByAge box;
        box.settings = read_settings(database);
        std::map<std::int64_t, store::Material> materials;
        for (const store::Material& material : store::all_materials(database))
            materials[material.id] = material;
        for (const AgeBand& band : bands) box.ages.push_back({band.name, {}, {}, 0, 0, {}});
        std::map<std::string, BoxSum> sums;
        for (const store::OffcutOnHand& there : store::offcuts_by_age(database)) {
            const store::Material& material = materials[there.offcut.material_id];
            const long days = base::days_between(there.offcut.kept_on, today);
            box.lines.push_back({there, material.code, material.name, material.form, days});
            box.value += there.value;
            BoxSum& sum = sums[material.code];
            sum.code = material.code;
            sum.name = material.name;
            sum.form = material.form;
            add(sum, there);
            add(box.ages[band_of(days)], there);
        }
        for (const auto& [code, sum] : sums) box.materials.push_back(sum);
        return box;
    });
}

} // namespace barrow::workshop
