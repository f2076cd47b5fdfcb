#include "workshop/use_cases.hpp"

#include "store/buying/orders.hpp"
#include "store/ledger/decisions.hpp"
#include "store/making/batch_plans.hpp"
#include "store/selling/fairs.hpp"
#include "store/stock/lots.hpp"
#include "store/stock/offcuts.hpp"
#include "workshop/books/reverse.hpp"
#include "workshop/buying/delivery.hpp"
#include "workshop/buying/orders.hpp"
#include "workshop/making/batch.hpp"
#include "workshop/making/designs.hpp"
#include "workshop/selling/fairs.hpp"
#include "workshop/selling/journal_apart.hpp"
#include "workshop/selling/journal_care.hpp"
#include "workshop/stock/catalogue.hpp"
#include "workshop/stock/leaving.hpp"
#include "workshop/stock/offcut_box.hpp"
#include "workshop/stock/stockroom.hpp"
#include "workshop/stock/stocktake.hpp"

#include <algorithm>
#include <stdexcept>

namespace barrow::test {
namespace {

using workshop::Context;

workshop::Row row(const std::map<std::string, std::string>& fields) {
    return {"test", "", fields};
}

/// Label of the largest offcut of a material that no planned batch waits for.
std::string label(Context& context, const std::string& material) {
    const auto found = store::find_material(context.database, material);
    auto there = store::offcuts_on_hand(context.database, found->id);
    std::sort(there.begin(), there.end(),
              [](const auto& a, const auto& b) { return a.quantity > b.quantity; });
    const auto free = std::find_if(there.begin(), there.end(), [&](const auto& offcut) {
        return store::batches_reserving(context.database, offcut.offcut.id).empty();
    });
    if (free == there.end()) throw std::runtime_error("no offcut is free");
    return free->offcut.code;
}

const std::string other_design = "[design]\n"
                                 "code = \"slip\"\n"
                                 "name = \"Slip\"\n"
                                 "[materials]\n"
                                 "paper = \"MOSS\"\n"
                                 "[[part]]\n"
                                 "name = \"slip\"\n"
                                 "material = \"paper\"\n"
                                 "width = \"70 mm\"\n"
                                 "height = \"60 mm\"\n";

/// A filler that nothing of the design leaves over.
const std::string with_filler = "[design]\n"
                                "code = \"bundle\"\n"
                                "name = \"Bundle\"\n"
                                "[materials]\n"
                                "paper = \"MOSS\"\n"
                                "envelope = \"ENV\"\n"
                                "[[part]]\n"
                                "name = \"envelopes\"\n"
                                "material = \"envelope\"\n"
                                "number = \"2\"\n"
                                "[[filler]]\n"
                                "name = \"tag\"\n"
                                "material = \"paper\"\n"
                                "width = \"40 mm\"\n"
                                "height = \"30 mm\"\n"
                                "worth = \"1.00\"\n";

std::vector<UseCase> catalogue_cases() {
    using namespace workshop;
    return {
        {"suppliers are kept",
         [](Context& c) {
             keep_suppliers(c, {row({{"code", "NEW"}, {"name", "New"}}),
                                row({{"code", "HOB"}, {"note", "closed on Mondays"}})});
         }},
        {"materials are kept",
         [](Context& c) {
             keep_materials(c, {row({{"code", "TAG"}, {"name", "Tag"}, {"form", "count"}}),
                                row({{"code", "MOSS"}, {"place", "drawer 2"}})});
         }},
        {"designs are brought in",
         [](Context& c) {
             bring_designs(c, {{other_design, "slip.toml"}});
         }},
        {"a setting is changed", [](Context& c) { change_setting(c, "hourly-rate", "12.00"); }},
        {"the cost order is decided",
         [](Context& c) { change_setting(c, "cost-order", "moving-average"); }},
        {"a delivery is received",
         [](Context& c) {
             receive(
                 c,
                 {row({{"material", "MOSS"}, {"units", "3"}, {"cost", "2.40"}, {"freight", "1"}}),
                  row({{"material", "ENV"}, {"units", "10"}, {"cost", "1.00"}})},
                 costing::ShareBy::value);
         }},
        {"a delivery of last year is received",
         [](Context& c) {
             receive(c,
                     {row({{"material", "ENV"},
                           {"units", "10"},
                           {"cost", "1.00"},
                           {"date", "2026-12-01"}})},
                     costing::ShareBy::value);
         }},
    };
}

std::vector<UseCase> batch_cases() {
    using namespace workshop;
    return {
        {"journals are made",
         [](Context& c) {
             make(c, {{"leaflet", 3, {}}});
         }},
        {"a batch is planned",
         [](Context& c) {
             plan_batch(c, {{"leaflet", 3, {}}});
         }},
        {"journals are made, and their fillers from the box",
         [](Context& c) {
             HowToCost how;
             how.fillers_from_box = true;
             const Made made = make(c, {{"bundle", 2, {}}}, how);
             if (made.costing.estimate.lines.back().from_box == 0)
                 throw std::runtime_error("no filler came from the box");
         }},
        {"a batch is cut as planned", [](Context& c) { cut_batch(c, 2, {}); }},
        {"a batch is cut otherwise than planned",
         [](Context& c) {
             CutReport report;
             report.spoiled = {{"MOSS", 1}};
             report.remnants = {{1, std::nullopt}};
             cut_batch(c, 2, report);
         }},
        {"a batch is finished",
         [](Context& c) {
             FinishedCount count;
             count.journals = 2;
             count.seconds = 1;
             count.minutes = base::Rational(90);
             finish_batch(c, 3, {count});
         }},
        {"a planned batch is abandoned", [](Context& c) { abandon_batch(c, 2); }},
        {"a cut batch is abandoned", [](Context& c) { abandon_batch(c, 3); }},
        {"what was planned is taken back",
         [](Context& c) {
             reverse(c, store::standing_events(c.database, batch_numbered(c.database, 2).id)
                            .back()
                            .posting_id);
         }},
        {"what was cut is taken back",
         [](Context& c) {
             reverse(c, store::standing_events(c.database, batch_numbered(c.database, 3).id)
                            .back()
                            .posting_id);
         }},
    };
}

std::vector<UseCase> stock_cases() {
    using namespace workshop;
    return {
        {"an offcut is described",
         [](Context& c) { describe_offcut(c, label(c, "MOSS"), "tin", "torn"); }},
        {"an offcut is split",
         [](Context& c) {
             split_offcut(c, label(c, "MOSS"), {"60mm x 60mm", "50mm x 60mm"});
         }},
        {"an offcut is found", [](Context& c) { keep_found(c, "MOSS", "60mm x 60mm", "bin"); }},
        {"sheets are written off", [](Context& c) { write_off_material(c, "MOSS", "1"); }},
        {"an offcut is written off", [](Context& c) { write_off_offcut(c, label(c, "MOSS")); }},
        {"a lot goes back",
         [](Context& c) {
             const auto env = store::find_material(c.database, "ENV");
             return_to_supplier(c, store::lots_on_shelf(c.database, env->id).back().lot.id, "5");
         }},
        {"a count goes on",
         [](Context& c) {
             enter_counts(c, {row({{"code", "ENV"}, {"counted", "7"}}),
                              row({{"code", "GLUE"}, {"counted", "80 ml"}})});
         }},
        {"a count is posted", [](Context& c) { post_stocktake(c); }},
        {"a count is dropped", [](Context& c) { drop_stocktake(c); }},
        {"a count is started", [](Context& c) { start_stocktake(c, "tin"); }, "stocktake drop"},
    };
}

std::vector<UseCase> journal_cases() {
    using namespace workshop;
    return {
        {"journals are described",
         [](Context& c) {
             change_journals(c, {"1-01", "1-02"}, {"tin", "9.50", "second", "dent"});
         }},
        {"journals are sold",
         [](Context& c) {
             sell_journals(c, {"1-01", "1-02"}, {"9.50", std::nullopt});
         }},
        {"journals are given away", [](Context& c) { give_journals(c, {"1-01"}); }},
        {"journals are damaged",
         [](Context& c) {
             damage_journals(c, {"1-01", "1-03"});
         }},
        {"a journal is taken apart",
         [](Context& c) {
             take_apart(c, "1-04", {{"ENV", "2"}, {"MOSS", "150mm x 100mm"}, {"RIB", "40cm"}});
         }},
        {"a sale is taken back",
         [](Context& c) {
             reverse(c,
                     store::standing_sales(c.database, store::find_journal(c.database, "1-05")->id)
                         .back()
                         .posting_id);
         }},
    };
}

std::vector<UseCase> order_cases() {
    using namespace workshop;
    return {
        {"an order is placed",
         [](Context& c) {
             place_order(c, {"PELL",
                             {row({{"material", "MOSS"}, {"units", "3"}}),
                              row({{"material", "ENV"}, {"packs", "2"}})},
                             std::nullopt,
                             std::nullopt});
         }},
        {"what must be bought is ordered",
         [](Context& c) {
             place_reorder(c, {{"leaflet", 60, {}}}, base::read_date("2027-04-01", ""));
         }},
        {"an order comes",
         [](Context& c) {
             receive(c, {row({{"order", "1"}, {"freight", "1.20"}})}, costing::ShareBy::value);
         }},
        {"an order is ended", [](Context& c) { end_order(c, 1); }},
        {"an order is taken back",
         [](Context& c) { reverse(c, store::find_order(c.database, 1)->placed.id); }},
    };
}

std::vector<UseCase> fair_cases() {
    using namespace workshop;
    return {
        {"a fair is noted",
         [](Context& c) {
             new_fair(c, {"May fair", base::read_date("2027-05-08", ""), "12.00"});
         }},
        {"a fair costs more", [](Context& c) { pay_for_fair(c, 1, "travel", "3.20"); }},
        {"journals are taken to a fair",
         [](Context& c) {
             take_to_fair(c, 1, {{"1-02"}, {{"leaflet", 2}}});
         }},
        {"journals are sold at a fair",
         [](Context& c) {
             sell_at_fair(c, 1, {"1-01", "1-02"}, "9.50");
         }},
        {"a fair is taken back",
         [](Context& c) { reverse(c, store::find_fair(c.database, 2)->noted.id); }},
    };
}

} // namespace

std::vector<UseCase> writing_use_cases() {
    std::vector<UseCase> all;
    for (const auto& some : {catalogue_cases(), batch_cases(), stock_cases(), journal_cases(),
                             order_cases(), fair_cases()})
        all.insert(all.end(), some.begin(), some.end());
    return all;
}

void keep_busy(Shop& shop) {
    stock_up(shop);
    shop.design(with_filler);
    shop.done("make leaflet --make 5");
    shop.done("journal sell 1-05 --price 9");
    shop.done("batch plan leaflet --make 2");
    shop.done("batch plan leaflet --make 2");
    shop.done("batch cut 3");
    shop.done("order place PELL MOSS=20 ENV=50");
    shop.done({"fair", "new", "Spring fair", "--on", "2027-03-06", "--fee", "8.00"});
    shop.done("fair take 1 1-01");
    shop.done({"fair", "new", "Autumn fair", "--on", "2027-10-02", "--fee", "8.00"});
    shop.done("stocktake start");
    shop.import("stocktake enter --from", "code,counted\nENV,70\nGLUE,95 ml\n");
    shop.sound();
}

workshop::Context context_of(store::Database& database, store::Mode mode) {
    return {database, base::read_date("2027-03-06", ""), "2027-03-06T09:30:00Z", mode, "a reason"};
}

} // namespace barrow::test
