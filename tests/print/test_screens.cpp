#include "print/golden.hpp"
#include "print/stall.hpp"

#include "base/text.hpp"
#include "print/write/terminal.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>

using barrow::test::keep_fillers;
using barrow::test::keep_stall;
using barrow::test::matches_golden;
using barrow::test::Shop;
using barrow::test::stall_options;

namespace {

std::size_t widest(const std::string& text) {
    std::size_t most = 0;
    std::size_t width = 0;
    for (const char c : text) {
        width = c == '\n' ? 0 : width + 1;
        most = std::max(most, width);
    }
    return most;
}

std::string largest_offcut(Shop& shop, const std::string& material) {
    std::string label;
    double most = -1;
    for (const auto& offcut : shop.list("offcut list", "offcuts")) {
        if (offcut.at("material") != material) continue;
        double measure = 1;
        for (const auto& side : offcut.at("size")) measure *= side.get<double>();
        if (measure <= most) continue;
        most = measure;
        label = offcut.at("code");
    }
    return label;
}

} // namespace

TEST_CASE("the screens of planning read as they did when they were read through",
          "[screens][golden]") {
    Shop shop(stall_options());
    matches_golden("stock_empty.txt", shop.done("stock"));
    keep_stall(shop);
    matches_golden("stock.txt", shop.done("stock"));
    matches_golden("cost.txt", shop.done("cost sail --make 4"));
    matches_golden("cost_short.txt", shop.done("cost sail --make 30"));
    matches_golden("plan.txt", shop.done("plan sail --make 4"));
    matches_golden("reorder.txt", shop.done("reorder sail=30 --by 2027-05-01"));
    matches_golden("reorder_nothing.txt", shop.done("reorder"));
    matches_golden("design.txt", shop.done("design show sail"));
}

TEST_CASE("the screens of making and of the box read as they did when they were read through",
          "[screens][golden]") {
    Shop shop(stall_options());
    keep_stall(shop);
    matches_golden("make.txt", shop.done("make sail --make 2"));
    matches_golden("offcuts.txt", shop.done("offcut list"));
    matches_golden("journals.txt", shop.done("journal list"));
    shop.done("batch plan sail --make 2");
    matches_golden("stock_reserved.txt", shop.done("stock"));
    shop.done("batch cut 2 --spoiled MOSS=1");
    shop.done("batch finish 2 --minutes 90");
    matches_golden("batch.txt", shop.done("batch show 2"));
    matches_golden("value.txt", shop.done("value"));
    matches_golden("log.txt", shop.done("log"));
}

TEST_CASE("the screens of fillers and of the box read as they did when they were read through",
          "[screens][golden]") {
    Shop shop(stall_options());
    keep_stall(shop);
    shop.done("make sail --make 2");
    keep_fillers(shop);
    matches_golden("cost_box.txt", shop.done("cost letter --make 9 --fillers-from-box"));
    matches_golden("plan_box.txt", shop.done("plan letter --make 9 --fillers-from-box"));
    matches_golden("yields.txt", shop.done("offcut yields " + largest_offcut(shop, "MOSS")));
    matches_golden("yields_ribbon.txt", shop.done("offcut yields " + largest_offcut(shop, "RIB")));
    matches_golden("yields_nothing.txt",
                   shop.done("offcut yields " + largest_offcut(shop, "BOARD")));
}

TEST_CASE("the screens of buying read as they did when they were read through",
          "[screens][golden]") {
    Shop shop(stall_options());
    keep_stall(shop);
    matches_golden("reorder_placed.txt", shop.done("reorder sail=30 --by 2027-05-01 --place"));
    shop.today = "2027-03-20";
    shop.done("receive RIB --order 1 --units 2");
    matches_golden("orders.txt", shop.done("order list"));
    matches_golden("order.txt", shop.done("order show 1"));
    const auto lot = shop.list("lots RIB", "lots").back().at("lot").get<int>();
    shop.done(fmt::format("return {} --units 1", lot));
    matches_golden("order_sent_back.txt", shop.done("order show 1"));
    shop.done(fmt::format("reverse {}", shop.entry()));
    matches_golden("stock_on_order.txt", shop.done("stock"));
    matches_golden("reorder_on_order.txt", shop.done("reorder sail=40 --by 2027-03-25"));
}

TEST_CASE("the screens of a fair read as they did when they were read through",
          "[screens][golden]") {
    Shop shop(stall_options());
    keep_stall(shop);
    shop.done("make sail --make 4");
    shop.done({"fair", "new", "Harbour fair", "--on", "2027-03-20", "--fee", "24.00"});
    matches_golden("fair_empty.txt", shop.done("fair show 1"));
    matches_golden("fair_before.txt", shop.done("fair take 1 sail=3"));
    shop.today = "2027-03-21";
    shop.done("fair pay 1 bus 4.60");
    matches_golden("fair_sell.txt", shop.done("fair sell 1 1-01 1-03 --price 29.50"));
    matches_golden("fair_after.txt", shop.done("fair show 1"));
    matches_golden("fairs.txt", shop.done("fair list"));
    matches_golden("year.txt", shop.done("report year --from 2027-01-01 --to 2027-12-31"));
}

TEST_CASE("sizes are shown in the unit of the shop", "[screens]") {
    Shop shop({"--unit", "in"});
    keep_stall(shop);
    const std::string plan = shop.done("plan sail --make 1");
    CHECK_THAT(plan, Catch::Contains("12 x 12 1/2 in"));
    CHECK_THAT(plan, !Catch::Contains(" mm"));
}

TEST_CASE("no screen of daily work is wider than a terminal of a hundred columns", "[screens]") {
    Shop shop(stall_options());
    keep_stall(shop);
    shop.done("make sail --make 2");
    keep_fillers(shop);
    shop.done("reorder sail=30 --by 2027-05-01 --place");
    for (const char* command :
         {"stock", "cost sail --make 12", "plan sail --make 3", "offcut list", "journal list",
          "value", "reorder sail=30 --by 2027-05-01", "log", "batch show 1", "order list",
          "order show 1", "plan letter --make 9 --fillers-from-box",
          "cost letter --make 9 --fillers-from-box"}) {
        INFO(command);
        const std::string text = shop.done(command);
        CHECK(widest(text) <= 100);
        CHECK(text.back() == '\n');
        CHECK(text.find(" \n") == std::string::npos); // nothing trails
    }
}

TEST_CASE("a table wider than a screen goes on in the lines below", "[print]") {
    using barrow::print::Kind;
    barrow::print::Table table(
        {{"Entry", Kind::count}, {"What", Kind::text, true}, {"Value", Kind::money}});
    const std::string many = "sent back to Pellwether Papermakers because the sheets were creased "
                             "on the way and nobody wants them";
    table.row({"1", many, "3.00"});
    table.row({"2", "short", "4.00"});
    barrow::print::Blocks blocks("Entries");
    blocks.add(table);
    std::istringstream lines(barrow::print::terminal(blocks));
    std::string line, words;
    int count = 0;
    for (; std::getline(lines, line); ++count) {
        CHECK(barrow::base::display_width(line) <= 100);
        if (count == 1) CHECK(line.substr(line.size() - 4) == "3.00");
        if (count == 1 || count == 2) words += (count == 2 ? " " : "") + line.substr(7, 85);
    }
    CHECK(count == 4);
    // Nothing of it is lost.
    std::istringstream wanted(many);
    for (std::string word; wanted >> word;) CHECK(words.find(word) != std::string::npos);
}
