#include "supply/reorder.hpp"

#include "support_csv.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

using namespace barrow::supply;
using barrow::base::Date;
using barrow::base::Money;
using barrow::base::read_date;
using barrow::test::rows_of;

namespace {

const Date today = read_date("2027-03-01", "");
const Date fair = read_date("2027-05-01", "");

Supply supply(const std::string& code, std::int64_t on_hand, std::int64_t wanted) {
    Supply made;
    made.material = code;
    made.supplier = "PELL";
    made.on_hand = on_hand;
    made.used = std::min(on_hand, wanted);
    made.short_of = std::max<std::int64_t>(0, wanted - on_hand);
    return made;
}

std::vector<SupplierOrder> orders(const std::vector<Supply>& supplies) {
    return orders_for(supplies, fair, today);
}

OrderLine only_line(const Supply& wanted) {
    const auto all = orders({wanted});
    REQUIRE(all.size() == 1);
    REQUIRE(all[0].lines.size() == 1);
    return all[0].lines[0];
}

std::int64_t ordered(const Supply& wanted) {
    const auto all = orders({wanted});
    return all.empty() ? 0 : all[0].lines[0].units;
}

} // namespace

TEST_CASE("net needs of every period are those of the published netting example", "[reorder]") {
    std::int64_t on_hand = 23;
    std::int64_t total = 0;
    for (const auto& row : rows_of("supply/mrp_netting.csv")) {
        INFO("period " << row[0]);
        const std::int64_t gross = std::stoll(row[1]);
        on_hand += std::stoll(row[2]);
        const std::int64_t net = ordered(supply("ENV", on_hand, gross));
        CHECK(net == std::stoll(row[3]));
        total += net;
        on_hand = std::max<std::int64_t>(0, on_hand - gross);
    }
    CHECK(total == 19); // 72 - 30 - 23
}

TEST_CASE("the netting example asked for at once gives the same total", "[reorder]") {
    CHECK(ordered(supply("ENV", 23 + 30, 72)) == 19);
}

TEST_CASE("what is on order counts as the example's scheduled receipt does", "[reorder]") {
    // The receipt of 30 in period 3, as an order still to come instead of stock.
    std::int64_t on_hand = 23;
    for (const auto& row : rows_of("supply/mrp_netting.csv")) {
        INFO("period " << row[0]);
        Supply wanted = supply("ENV", on_hand, std::stoll(row[1]));
        wanted.on_order = std::stoll(row[2]);
        CHECK(ordered(wanted) == std::stoll(row[3]));
        on_hand = std::max<std::int64_t>(0, on_hand + wanted.on_order - std::stoll(row[1]));
    }
    Supply at_once = supply("ENV", 23, 72);
    at_once.on_order = 30;
    CHECK(ordered(at_once) == 19);
    at_once.on_order = 49;
    CHECK(orders({at_once}).empty());
    at_once.reorder_level = 5; // the level is reached by what is on order too
    CHECK(ordered(at_once) == 5);
}

TEST_CASE("net needs lot for lot follow the published exercise", "[reorder]") {
    std::int64_t on_hand = 120;
    for (const auto& row : rows_of("supply/mrp_lot_for_lot.csv")) {
        INFO("period " << row[0]);
        const std::int64_t gross = std::stoll(row[1]);
        CHECK(ordered(supply("ENV", on_hand, gross)) == std::stoll(row[2]));
        on_hand = std::max<std::int64_t>(0, on_hand - gross);
    }
}

TEST_CASE("what is needed is rounded up to whole packs and priced by the pack", "[reorder]") {
    Supply wanted = supply("ENV", 0, 101);
    wanted.pack_units = 50;
    wanted.pack_price = Money::of_minor(600);
    const OrderLine line = only_line(wanted);
    CHECK(line.for_journals == 101);
    CHECK(line.packs == 3);
    CHECK(line.units == 150);
    CHECK(line.cost == Money::of_minor(1800));
    wanted.short_of = 100;
    CHECK(only_line(wanted).packs == 2); // just fits
}

TEST_CASE("journals and the level together fill packs, not each for itself", "[reorder]") {
    // By hand: 40 short, nothing left, level 40: 80 in packs of 50 are two packs, not one and one.
    Supply wanted = supply("ENV", 336, 376);
    wanted.reorder_level = 40;
    wanted.pack_units = 50;
    const OrderLine line = only_line(wanted);
    CHECK(line.for_journals == 40);
    CHECK(line.for_level == 40);
    CHECK(line.packs == 2);
    wanted.reorder_level = 10;
    CHECK(only_line(wanted).packs == 1);
}

TEST_CASE("stock is raised to its level when less than that would be left", "[reorder]") {
    Supply wanted = supply("CARD", 12, 5);
    wanted.reorder_level = 7;
    CHECK(orders({wanted}).empty()); // 7 are left, which is the level
    wanted.reorder_level = 10;
    const OrderLine line = only_line(wanted);
    CHECK(line.for_journals == 0);
    CHECK(line.for_level == 3);
    CHECK(line.units == 3);
}

TEST_CASE("a level alone, with nothing wanted, orders what is low", "[reorder]") {
    Supply low = supply("CARD", 2, 0);
    low.reorder_level = 10;
    CHECK(only_line(low).for_level == 8);
    CHECK(orders({supply("CARD", 0, 0)}).empty());
}

TEST_CASE("lines are gathered by supplier in the order of their codes, the unnamed last",
          "[reorder]") {
    std::vector<Supply> supplies = {supply("A", 0, 1), supply("B", 0, 1), supply("C", 0, 1),
                                    supply("D", 0, 1)};
    supplies[0].supplier = "QUILL";
    supplies[1].supplier = "";
    supplies[2].supplier = "HOB";
    supplies[3].supplier = "QUILL";
    supplies[3].supplier_name = supplies[0].supplier_name = "Quillmoor";
    const auto all = orders(supplies);
    REQUIRE(all.size() == 3);
    CHECK(all[0].supplier == "HOB");
    CHECK(all[1].supplier == "QUILL");
    CHECK(all[1].supplier_name == "Quillmoor");
    REQUIRE(all[1].lines.size() == 2);
    CHECK(all[1].lines[0].supply.material == "A");
    CHECK(all[1].lines[1].supply.material == "D");
    CHECK(all[2].supplier.empty());
}

TEST_CASE("an order is placed as long before the day as its supplier needs", "[reorder]") {
    Supply wanted = supply("ENV", 0, 1);
    wanted.lead_days = 9;
    CHECK(to_text(orders({wanted})[0].order_by) == "2027-04-22");
    CHECK_FALSE(orders({wanted})[0].late);
    wanted.lead_days = 61; // 1 May less 61 days is 1 March: today
    CHECK(to_text(orders({wanted})[0].order_by) == "2027-03-01");
    CHECK_FALSE(orders({wanted})[0].late);
    wanted.lead_days = 62;
    CHECK(orders({wanted})[0].late);
}

TEST_CASE("a total tells whether a price is missing from it", "[reorder]") {
    std::vector<Supply> supplies = {supply("A", 0, 2), supply("B", 0, 1)};
    supplies[0].pack_price = Money::of_minor(250);
    auto order = orders(supplies)[0];
    CHECK(order.total == Money::of_minor(500));
    CHECK_FALSE(order.total_is_whole);
    CHECK_FALSE(order.lines[1].cost.has_value());
    supplies[1].pack_price = Money();
    order = orders(supplies)[0];
    CHECK(order.total_is_whole);
    CHECK(order.total == Money::of_minor(500));
}

TEST_CASE("what is ordered always covers what is needed and never a pack more", "[reorder]") {
    std::mt19937_64 random(3);
    const auto below = [&](std::uint64_t limit) {
        return static_cast<std::int64_t>(random() % limit);
    };
    for (int round = 0; round < 3000; ++round) {
        Supply wanted = supply("X", below(100), below(200));
        wanted.reorder_level = below(60);
        wanted.pack_units = 1 + below(50);
        wanted.on_order = below(80);
        const std::int64_t left = wanted.on_hand - wanted.used + wanted.on_order;
        const std::int64_t units = ordered(wanted);
        REQUIRE(units % wanted.pack_units == 0);
        REQUIRE(left + units - wanted.short_of >= wanted.reorder_level);
        if (units > 0)
            REQUIRE(left + units - wanted.pack_units - wanted.short_of < wanted.reorder_level);
    }
}
