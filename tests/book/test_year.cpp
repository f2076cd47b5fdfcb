#include "book/shop.hpp"

#include "support_csv.hpp"

#include <catch2/catch.hpp>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

json year(Shop& shop, const std::string& from, const std::string& to) {
    return shop.json("report year --from " + from + " --to " + to);
}

/// Serials "1-01" to "1-120" of a batch.
std::vector<std::string> serials(int batch, int number) {
    std::vector<std::string> words;
    for (int i = 1; i <= number; ++i)
        words.push_back(std::to_string(batch) + "-" + (i < 10 ? "0" : "") + std::to_string(i));
    return words;
}

void sell(Shop& shop, int batch, int number, const std::string& price) {
    std::vector<std::string> words = {"journal", "sell", "--price", price};
    const auto all = serials(batch, number);
    words.insert(words.end(), all.begin(), all.end());
    shop.done(words);
}

/// Plays the purchases and sales of OpenStax, Principles of Accounting Vol. 1: Financial Accounting
/// (2019), ch. 10.3: one journal is one unit. `picked` names the lots of each sale, for specific
/// identification.
void play(Shop& shop, const std::vector<std::vector<std::string>>& picked = {}) {
    shop.import("material import", "code,name,form\nUNIT,A unit,count\n");
    shop.design("[design]\ncode = \"one\"\nname = \"One\"\n[materials]\nunit = \"UNIT\"\n"
                "[[part]]\nname = \"unit\"\nmaterial = \"unit\"\nnumber = \"1\"\n");
    int batch = 0;
    for (const auto& row : barrow::test::rows_of("costing/fifo_openstax.csv")) {
        shop.today = "2027-" + row[0];
        const int units = std::stoi(row[2]);
        if (row[1] == "purchase") {
            shop.done("receive UNIT --units " + row[2] + " --cost "
                      + std::to_string(units * std::stoi(row[3])));
            continue;
        }
        // Specific identification takes named lots: 120@21, then 20@21 and 160@27.
        if (picked.empty()) {
            shop.done("make one --make " + row[2]);
            sell(shop, ++batch, units, row[3]);
            continue;
        }
        for (const std::string& make : picked.at(static_cast<std::size_t>(row[0] == "07-15"))) {
            const std::size_t at = make.find('@');
            const auto lots = shop.json("lots UNIT").at("lots");
            const auto lot = lots.at(static_cast<std::size_t>(std::stoi(make.substr(at + 1))));
            const int number = std::stoi(make.substr(0, at));
            shop.done("make one --make " + std::to_string(number)
                      + " --lot UNIT=" + lot.at("lot").dump());
            sell(shop, ++batch, number, row[3]);
        }
    }
    shop.today = "2027-12-31";
}

} // namespace

TEST_CASE("first in first out: opening + bought - closing is the published cost of goods sold",
          "[year]") {
    // OpenStax, ch. 10.3: available 16,155, sold 300 units for 11,340; cost of goods sold 7,200,
    // left 8,955, gross margin 4,140.
    Shop shop;
    play(shop);
    const auto all = year(shop, "2027-01-01", "2027-12-31");
    CHECK(all.at("opening") == "0.00");
    CHECK(all.at("bought") == "16155.00");
    CHECK(all.at("closing") == "8955.00");
    CHECK(all.at("used") == "7200.00");
    CHECK(all.at("sold") == "7200.00");
    CHECK(all.at("written_off") == "0.00");
    CHECK(all.at("takings") == "11340.00");
    CHECK(all.at("gross_profit") == "4140.00");
    CHECK(all.at("journals").at("sold") == 300);
    CHECK(all.at("difference") == "0.00");
    shop.sound();

    // The same month with its beginning inventory as one (opening 150 @ 21 = 3,150; purchases
    // 435 for 13,005).
    const auto july = year(shop, "2027-07-02", "2027-07-31");
    CHECK(july.at("opening") == "3150.00");
    CHECK(july.at("bought") == "13005.00");
    CHECK(july.at("used") == "7200.00");
    CHECK(july.at("difference") == "0.00");
}

TEST_CASE("the gross profit of a year bears what was written off", "[year]") {
    // IAS 2.34: losses of inventories are an expense of the period in which they occur. By hand:
    // ten at 2.00; three sold in a journal for 9.00, two lost: 9.00 - 6.00 - 4.00 = -1.00.
    Shop shop;
    shop.done("material add PIN --name Pin --form count");
    shop.done("receive PIN --units 10 --cost 20.00");
    shop.design("[design]\ncode = \"card\"\nname = \"Card\"\n[materials]\npin = \"PIN\"\n"
                "[[part]]\nname = \"pin\"\nmaterial = \"pin\"\nnumber = 3\n");
    shop.done("make card --make 1");
    shop.done("journal sell 1-01 --price 9.00");
    shop.done("write-off PIN --units 2 --note lost");
    const auto all = year(shop, "2027-01-01", "2027-12-31");
    CHECK(all.at("gross_profit") == "-1.00");
    CHECK_THAT(shop.done("report year --from 2027-01-01 --to 2027-12-31"),
               Catch::Contains("- written off"));
}

TEST_CASE("moving average: the published cost of goods sold", "[year]") {
    // The book prints 7,253, left 8,902 and margin 4,087, each to the dollar.
    Shop shop;
    shop.done("settings cost-order moving-average");
    play(shop);
    const auto all = year(shop, "2027-01-01", "2027-12-31");
    CHECK(all.at("sold") == "7252.94");
    CHECK(all.at("closing") == "8902.06");
    CHECK(all.at("gross_profit") == "4087.06");
    CHECK(all.at("difference") == "0.00");
    shop.sound();
}

TEST_CASE("specific identification: the published cost of goods sold", "[year]") {
    // The book sells 120@21, then 20@21 and 160@27: 7,260, left 8,895, margin 4,080.
    Shop shop;
    shop.done("settings cost-order pick-the-lot");
    play(shop, {{"120@0"}, {"20@0", "160@1"}});
    const auto all = year(shop, "2027-01-01", "2027-12-31");
    CHECK(all.at("sold") == "7260.00");
    CHECK(all.at("closing") == "8895.00");
    CHECK(all.at("gross_profit") == "4080.00");
    CHECK(all.at("difference") == "0.00");
    shop.sound();
}

TEST_CASE("years follow on: one's closing is the next one's opening", "[year]") {
    Shop shop;
    stock_up(shop);
    shop.today = "2027-03-06";
    shop.done("make leaflet --make 4");
    shop.done("journal sell 1-01 --price 9");
    shop.done("batch plan leaflet --make 3");
    shop.done("batch cut 2");
    shop.today = "2027-06-06";
    shop.done("batch finish 2");
    shop.done("journal give 1-02 --note Ada");
    shop.today = "2028-02-01";
    shop.done("journal apart 1-03 --get ENV=3");
    shop.done("receive ENV --units 10 --cost 1.00");
    shop.done("journal sell 2-01 --price 10");
    const auto first = year(shop, "2027-01-01", "2027-04-05");
    const auto second = year(shop, "2027-04-06", "2028-04-05");
    for (const char* account : {"materials", "work", "journals"})
        CHECK(first.at(account).at("closing") == second.at(account).at("opening"));
    CHECK(first.at("closing") == second.at("opening"));
    CHECK(first.at("work").at("closing") != "0.00");
    CHECK(second.at("materials").at("came_back") == "0.30");
    for (const auto& one : {first, second}) CHECK(one.at("difference") == "0.00");
    // The two together are the whole; and the whole is where the money is now.
    const auto whole = year(shop, "2027-01-01", "2028-04-05");
    CHECK(whole.at("sold") == shop.json("value").at("sold"));
    CHECK(whole.at("written_off") == shop.json("value").at("written_off"));
    CHECK(whole.at("bought") == shop.json("value").at("received"));
    CHECK(whole.at("journals").at("made") == 7);
    shop.sound();
}

TEST_CASE("a sale taken back in a later year lessens that year's sales and takings", "[year]") {
    Shop shop;
    stock_up(shop);
    shop.today = "2027-12-20";
    shop.done("make leaflet --make 4");
    shop.done("journal sell 1-01 1-02 --price 9");
    const auto sold = std::to_string(shop.entry());
    shop.today = "2028-01-10";
    shop.done("reverse " + sold);
    const auto back = std::to_string(shop.entry());
    const auto first = year(shop, "2027-01-01", "2027-12-31");
    CHECK(first.at("takings") == "18.00");
    CHECK(first.at("sold") == "2.36");
    auto second = year(shop, "2028-01-01", "2028-12-31");
    CHECK(second.at("takings") == "-18.00");
    CHECK(second.at("sold") == "-2.36");
    CHECK(second.at("journals").at("sold") == -2);
    CHECK(second.at("difference") == "0.00");
    shop.today = "2028-02-10";
    shop.done("reverse " + back);
    second = year(shop, "2028-01-01", "2028-12-31");
    CHECK(second.at("takings") == "0.00");
    CHECK(second.at("used") == "0.00");
    CHECK(second.at("difference") == "0.00");
    shop.sound();
}

TEST_CASE("the year says that it is no tax advice, and shows its sum", "[year]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 2");
    shop.done("journal sell 1-01 --price 9");
    const auto text = shop.done("report year --from 2027-01-01 --to 2027-12-31");
    CHECK_THAT(text, Contains("no tax advice") && Contains("accountant"));
    CHECK_THAT(text, Contains("1 journal ") || Contains("1 journal\n") || Contains("in 1 journal"));
    CHECK_THAT(text, Contains("difference"));
    CHECK_THAT(shop.done("report year --from 2027-01-01 --to 2027-12-31 --csv"),
               Contains("account,what,amount,currency\n") && Contains("sales,takings,9.00,GBP\n"));
    CHECK_THAT(shop.refused(2, "report year --from 2027-02-01 --to 2027-01-01"),
               Contains("before"));
    CHECK_THAT(shop.refused(2, "report year --from 2027-02-01"), Contains("--to"));
}
