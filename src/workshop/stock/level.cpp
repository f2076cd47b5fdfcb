#include "workshop/stock/level.hpp"

#include "store/making/batch_plans.hpp"
#include "store/making/batches.hpp"

#include <algorithm>

namespace barrow::workshop {

std::int64_t units_there(const store::Material& material, std::int64_t shelf_quantity,
                         std::int64_t shelf_units, std::int64_t offcut_quantity) {
    if (material.form != base::Form::length && material.form != base::Form::wire)
        return shelf_units;
    const auto unit = static_cast<std::int64_t>(material.fresh.measure());
    const std::int64_t there = std::max<std::int64_t>(0, shelf_quantity + offcut_quantity);
    return there / unit + (there % unit > 0 ? 1 : 0);
}

std::map<std::int64_t, std::int64_t> planned_use(store::Database& database) {
    std::map<std::int64_t, std::int64_t> use;
    for (const store::Batch& batch : store::batches_under_way(database)) {
        if (batch.status != store::BatchStatus::planned) continue;
        for (const store::PlannedTake& take : store::planned_takes(database, batch.id))
            use[take.material_id] += take.quantity;
        for (const store::PlannedSheet& sheet : store::planned_sheets(database, batch.id)) {
            base::Wide used = sheet.size.measure();
            for (const store::PlannedRemnant& kept : sheet.remnants) used -= kept.place.area();
            use[sheet.material_id] += static_cast<std::int64_t>(used);
        }
    }
    return use;
}

} // namespace barrow::workshop
