#include "workshop/making/batch.hpp"

#include "base/error.hpp"
#include "store/ledger/ledger.hpp"
#include "store/stock/catalogue.hpp"
#include "store/stock/lots.hpp"
#include "workshop/making/batch_steps.hpp"
#include "workshop/making/cost_in_transaction.hpp"
#include "workshop/shared/days.hpp"

#include <fmt/format.h>

namespace barrow::workshop {

using store::BatchStatus;

store::Batch batch_numbered(store::Database& database, std::int64_t number) {
    if (auto batch = store::find_batch(database, number)) return *batch;
    throw base::bad_input("batch", fmt::format("there is no batch {}", number),
                          "see all with: barrow batch list");
}

void require_status(const store::Batch& batch, BatchStatus wanted, const std::string& verb) {
    if (batch.status == wanted) return;
    throw base::refused(fmt::format("batch {} is {}: it cannot be {}", batch.number,
                                    store::name_of(batch.status), verb),
                        fmt::format("only a batch that is {} can", store::name_of(wanted)));
}

Planned plan_batch(Context& context, const std::vector<WantedRun>& wanted, const HowToCost& how) {
    return writing(context, [&] {
        Planned planned;
        planned.costing = cost_in_transaction(context.database, wanted, context.today, how);
        Context noted = with_reasons(context, planned.costing, how.anyway);
        planned.batch = keep_plan(context, planned.costing, wanted);
        planned.posting = post(noted, "plan", context.today);
        store::add_batch_event(context.database, planned.batch.id,
                               {planned.posting, BatchStatus::planned});
        planned.batch.status = BatchStatus::planned;
        return planned;
    });
}

Cut cut_batch(Context& context, std::int64_t number, const CutReport& report) {
    return cut_batch_as_read(context, number, [&] { return report; });
}

Cut cut_batch_as_read(Context& context, std::int64_t number,
                      const std::function<CutReport()>& read) {
    return writing(context, [&] {
        const CutReport report = read();
        const store::Batch batch = batch_numbered(context.database, number);
        require_status(batch, BatchStatus::planned, "cut");
        const std::int64_t posting = post(context, "cut", context.today);
        Cut cut = carry_out(context, posting, batch, report);
        store::add_batch_event(context.database, batch.id, {posting, BatchStatus::cut});
        require_its_day(context.database, posting);
        cut.batch.status = BatchStatus::cut;
        return cut;
    });
}

Finished finish_batch(Context& context, std::int64_t number,
                      const std::vector<FinishedCount>& counts) {
    return writing(context, [&] {
        const store::Batch batch = batch_numbered(context.database, number);
        require_status(batch, BatchStatus::cut, "finished");
        const std::int64_t posting = post(context, "finish", context.today);
        Finished finished = complete(context, posting, batch, counts);
        store::add_batch_event(context.database, batch.id, {posting, BatchStatus::finished});
        require_its_day(context.database, posting);
        finished.batch.status = BatchStatus::finished;
        return finished;
    });
}

namespace {

/// Whether the lot is of something that is cut: once in a batch, it cannot go back on its shelf.
bool is_cut_lot(store::Database& database, std::int64_t lot) {
    const std::int64_t material = store::lot_by_id(database, lot).value().material_id;
    return base::is_cut(store::material_by_id(database, material).value().form);
}

/// Where something goes back to: its own shelf; value without quantity, which the moving average
/// brought, to that of the first lot of the same material that things go back to.
std::int64_t shelf_for(store::Database& database, const store::Balance& held,
                       const std::vector<store::Balance>& all) {
    if (held.quantity > 0) return held.lot;
    const std::int64_t material = store::lot_by_id(database, held.lot).value().material_id;
    for (const store::Balance& other : all)
        if (other.quantity > 0
            && store::lot_by_id(database, other.lot).value().material_id == material)
            return other.lot;
    return held.lot;
}

} // namespace

Abandoned abandon_batch(Context& context, std::int64_t number) {
    return writing(context, [&] {
        store::Database& database = context.database;
        const store::Batch batch = batch_numbered(database, number);
        if (batch.status != BatchStatus::planned && batch.status != BatchStatus::cut)
            require_status(batch, BatchStatus::cut, "abandoned");
        Abandoned abandoned;
        abandoned.batch = batch;
        abandoned.posting = post(context, "abandon", context.today);
        store::MovementWriter writer(database, abandoned.posting);
        const auto all = store::balances_of(database, batch.id);
        for (const store::Balance& held : all) {
            const bool back = !is_cut_lot(database, held.lot);
            writer.move({0, 0, back ? "put_back" : "write_off", held.lot, batch.id,
                         back ? shelf_for(database, held, all) : store::written_off, held.quantity,
                         held.value});
            (back ? abandoned.put_back : abandoned.written_off) += held.value;
        }
        store::add_batch_event(database, batch.id, {abandoned.posting, BatchStatus::abandoned});
        require_its_day(database, abandoned.posting);
        abandoned.batch.status = BatchStatus::abandoned;
        return abandoned;
    });
}

Made make(Context& context, const std::vector<WantedRun>& wanted, const HowToCost& how) {
    return writing(context, [&] {
        Made made;
        made.costing = cost_in_transaction(context.database, wanted, context.today, how);
        Context noted = with_reasons(context, made.costing, how.anyway);
        const store::Batch batch = keep_plan(context, made.costing, wanted);
        made.posting = post(noted, "make", context.today);
        Cut cut = carry_out(context, made.posting, batch, {});
        Finished finished = complete(context, made.posting, batch, {});
        store::add_batch_event(context.database, batch.id, {made.posting, BatchStatus::finished});
        require_its_day(context.database, made.posting);
        made.batch = batch;
        made.batch.status = BatchStatus::finished;
        made.offcuts = std::move(cut.offcuts);
        made.materials = std::move(cut.materials);
        made.continued = std::move(cut.continued);
        made.journals = std::move(finished.journals);
        return made;
    });
}

} // namespace barrow::workshop
