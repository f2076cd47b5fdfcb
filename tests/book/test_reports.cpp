#include "book/shop.hpp"

#include <catch2/catch.hpp>

#include <set>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

json line_of(const json& lines, const char* key, const std::string& code) {
    for (const auto& line : lines)
        if (line.at(key) == code) return line;
    return nullptr;
}

json usage_of(Shop& shop, const std::string& month, const std::string& code) {
    for (const auto& line : shop.list("report usage --from 2027-01-01 --to 2027-12-31", "lines"))
        if (line.at("month") == month && line.at("material") == code) return line;
    return nullptr;
}

} // namespace

TEST_CASE("usage tells each month what went into journals, was kept and written off",
          "[reports][usage]") {
    Shop shop;
    stock_up(shop);
    shop.today = "2027-03-06";
    shop.done("make leaflet --make 4");
    shop.done("write-off ENV --units 5 --note wet");
    shop.today = "2027-04-02";
    shop.done("make leaflet --make 4");

    // By hand: 1.6 m of a roll of 2 m, at 3.00 the roll; 0.4 m kept.
    const auto ribbon = usage_of(shop, "2027-03", "RIB");
    CHECK(ribbon.at("unit") == "mm");
    CHECK(ribbon.at("in_journals") == json{{"quantity", 1600}, {"value", "2.40"}});
    CHECK(ribbon.at("kept") == json{{"quantity", 400}, {"value", "0.60"}});
    CHECK(ribbon.at("written_off") == json{{"quantity", 0}, {"value", "0.00"}});
    const auto envelopes = usage_of(shop, "2027-03", "ENV");
    CHECK(envelopes.at("in_journals") == json{{"quantity", 12}, {"value", "1.20"}});
    CHECK(envelopes.at("written_off") == json{{"quantity", 5}, {"value", "0.50"}});
    CHECK(usage_of(shop, "2027-04", "ENV").at("written_off").at("quantity") == 0);
    CHECK(usage_of(shop, "2027-05", "ENV").is_null());

    const auto march = shop.json("report usage --from 2027-03-01 --to 2027-03-31");
    CHECK(march.at("in_journals") == "4.72");
    CHECK(march.at("written_off") == "0.50");
    CHECK_THAT(shop.done("report usage"), Contains("2027-04") && Contains("1.6 m"));
    CHECK_THAT(shop.done("report usage --from 2026-01-01 --to 2026-12-31"), Contains("Nothing"));
    CHECK_THAT(shop.refused(2, "report usage --from 2027-04-01 --to 2027-03-01"),
               Contains("before"));
    CHECK_THAT(shop.refused(3, "report usage --from yesterday"), Contains("--from"));
}

TEST_CASE("what was taken back counts against the month of the taking back", "[reports][usage]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 4");
    const auto made = std::to_string(shop.entry());
    shop.today = "2027-03-30";
    shop.done("reverse " + made);
    // In one month it never was.
    CHECK(usage_of(shop, "2027-03", "RIB").is_null());
    const auto undone = std::to_string(shop.entry());
    shop.today = "2027-04-10";
    shop.done("reverse " + undone);
    CHECK(usage_of(shop, "2027-04", "RIB").at("in_journals").at("value") == "2.40");
    CHECK(usage_of(shop, "2027-04", "RIB").at("kept").at("value") == "0.60");
    const auto again = std::to_string(shop.entry());
    shop.today = "2027-05-10";
    shop.done("reverse " + again);
    CHECK(usage_of(shop, "2027-05", "RIB").at("in_journals").at("value") == "-2.40");
    CHECK(usage_of(shop, "2027-05", "RIB").at("kept").at("quantity") == -400);
    CHECK(shop.json("report usage --from 2027-01-01 --to 2027-12-31").at("in_journals") == "0.00");
    CHECK_THAT(shop.done("report usage --to 2027-05-31"), Contains("-1.6 m"));
    shop.sound();
}

TEST_CASE("what comes back out of journals is used the less", "[reports][usage]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 4");
    shop.done({"journal", "apart", "1-01", "--get", "ENV=3", "--get", "RIB=400mm"});
    CHECK(usage_of(shop, "2027-03", "ENV").at("in_journals").at("quantity") == 9);
    CHECK(usage_of(shop, "2027-03", "RIB").at("in_journals").at("quantity") == 1200);
    CHECK(usage_of(shop, "2027-03", "RIB").at("kept").at("quantity") == 800);
}

TEST_CASE("usage, stock at both ends and receipts make one sum for every counted material",
          "[reports][usage]") {
    // Quantity, invariant of the ledger: on hand then + received - in journals - written off = now.
    Shop shop;
    stock_up(shop);
    shop.today = "2027-03-06";
    shop.done("make leaflet --make 6");
    shop.done("write-off ENV --units 3 --note wet");
    shop.today = "2027-05-02";
    shop.done("make leaflet --make 2");
    long used = 0;
    for (const auto& line : shop.list("report usage --from 2027-01-01 --to 2027-12-31", "lines"))
        if (line.at("material") == "ENV")
            used += line.at("in_journals").at("quantity").get<long>()
                    + line.at("written_off").at("quantity").get<long>();
    CHECK(100 - used == line_of(shop.json("stock").at("materials"), "code", "ENV").at("on_hand"));
}

TEST_CASE("slow stock was used once, dead stock never since it came", "[reports][slow]") {
    Shop shop;
    stock_up(shop);
    shop.import("material import", "code,name,form\nTAG,Paper tag,count\nBEAD,Glass bead,count\n");
    shop.done("receive TAG --units 10 --cost 2.00 --date 2027-01-05");
    shop.today = "2027-02-20";
    shop.done("make leaflet --make 1");
    shop.today = "2027-06-01";
    shop.done("receive BEAD --units 10 --cost 1.00");

    shop.today = "2027-06-15";
    const auto slow = shop.json("report slow --days 60");
    const auto moss = line_of(slow.at("materials"), "code", "MOSS");
    CHECK(moss.at("state") == "slow");
    CHECK(moss.at("last_use") == "2027-02-20");
    CHECK(moss.at("days") == 115); // 8 + 31 + 30 + 31 + 15: February to mid-June 2027
    const auto tag = line_of(slow.at("materials"), "code", "TAG");
    CHECK(tag.at("state") == "dead");
    CHECK(tag.at("last_use").is_null());
    CHECK(tag.at("since") == "2027-01-05");
    CHECK(tag.at("value") == "2.00");
    // It came two weeks ago: neither slow nor dead yet.
    CHECK(line_of(slow.at("materials"), "code", "BEAD").is_null());
    CHECK(slow.at("materials").at(0).at("code") == "TAG"); // longest first
    CHECK_THAT(shop.done("report slow --days 60"), Contains("dead") && Contains("never"));

    // Used within the time: not slow; nor with a use that was taken back.
    shop.done("make leaflet --make 1");
    CHECK(line_of(shop.json("report slow --days 60").at("materials"), "code", "MOSS").is_null());
    shop.done("reverse " + std::to_string(shop.entry()));
    CHECK(line_of(shop.json("report slow --days 60").at("materials"), "code", "MOSS").at("last_use")
          == "2027-02-20");
    CHECK_THAT(shop.done("report slow --days 1000"), Contains("within the last"));
    CHECK(shop.refused(2, "report slow --days 0").size() > 0);
}

TEST_CASE("what is left of an old lot is slow, a new lot of a long unused material is not",
          "[reports][slow]") {
    Shop shop;
    shop.import("material import", "code,name,form\nTAG,Paper tag,count\n");
    shop.design("[design]\ncode = \"slip\"\nname = \"Slip\"\n[materials]\ntag = \"TAG\"\n"
                "[[part]]\nname = \"tag\"\nmaterial = \"tag\"\nnumber = \"1\"\n");
    shop.today = "2027-01-01";
    shop.done("receive TAG --units 2 --cost 2.00");
    shop.done("make slip --make 2");
    shop.today = "2027-06-01";
    shop.done("receive TAG --units 5 --cost 5.00");
    shop.today = "2027-07-01";
    CHECK(shop.json("report slow --days 90").at("materials").empty());
    shop.today = "2027-12-01";
    const auto line = shop.json("report slow --days 90").at("materials").at(0);
    CHECK(line.at("state") == "dead"); // none of what is there now was ever used
    CHECK(line.at("last_use") == "2027-01-01");
    CHECK(line.at("since") == "2027-06-01");
}

TEST_CASE("the box by age lists the oldest first and sums up by material and age",
          "[reports][offcuts]") {
    Shop shop;
    stock_up(shop);
    shop.today = "2027-03-01";
    shop.done("make leaflet --make 1");
    shop.today = "2027-08-01";
    // What another batch would leave depends on the layout; what is split does not.
    shop.done("offcut split 22-2 --into 110mmx160mm");
    shop.today = "2027-08-15";
    const auto box = shop.json("report offcuts");
    const auto& lines = box.at("offcuts");
    REQUIRE(lines.size() >= 2);
    for (std::size_t i = 1; i < lines.size(); ++i)
        CHECK(lines[i - 1].at("age_days") >= lines[i].at("age_days"));
    CHECK(box.at("value") == shop.json("value").at("in_offcuts"));
    long offcuts = 0;
    for (const auto& sum : box.at("materials")) {
        const auto stock = line_of(shop.json("stock").at("materials"), "code", sum.at("code"));
        CHECK(stock.at("offcuts") == sum.at("offcuts"));
        CHECK(stock.at("offcut_value") == sum.at("value"));
        offcuts += sum.at("offcuts").get<long>();
    }
    CHECK(offcuts == static_cast<long>(lines.size()));
    long by_age = 0;
    for (const auto& sum : box.at("ages")) by_age += sum.at("offcuts").get<long>();
    CHECK(by_age == offcuts);
    CHECK_THAT(shop.done("report offcuts"), Contains("3 to 6 months") && Contains("14 days"));
}

TEST_CASE("under a moving average an offcut is still one, whatever lots bear its value",
          "[reports][offcuts]") {
    Shop shop;
    stock_up(shop);
    shop.done("settings cost-order moving-average");
    shop.done("receive MOSS --units 3 --cost 9.00");
    shop.done("receive RIB --units 10 --cost 31.00");
    shop.done("receive ENV --units 50 --cost 7.00");
    shop.done("make leaflet --make 21");
    shop.done("make leaflet --make 21");
    shop.sound();
    const auto box = shop.json("report offcuts");
    std::set<std::string> labels;
    for (const auto& offcut : box.at("offcuts")) labels.insert(offcut.at("code"));
    CHECK(labels.size() == box.at("offcuts").size());
    CHECK(box.at("value") == shop.json("value").at("in_offcuts"));
}

TEST_CASE("an empty shop has empty reports", "[reports]") {
    Shop shop;
    for (const std::string report : {"stock", "usage", "slow", "offcuts"}) {
        CHECK(!shop.done("report " + report).empty());
        shop.json("report " + report);
        CHECK(!shop.done("report " + report + " --csv").empty());
    }
    const auto year = shop.json("report year --from 2027-01-01 --to 2027-12-31");
    CHECK(year.at("used") == "0.00");
}
