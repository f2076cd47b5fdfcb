#include "page/visitor.hpp"

#include <catch2/catch.hpp>

#include <fstream>

using namespace barrow::test;
using Catch::Contains;

namespace {

/// Every address that links of ours lead to, from the first page on.
std::vector<std::string> all_addresses(Visitor& visitor) {
    std::vector<std::string> found = {"/"};
    for (std::size_t next = 0; next < found.size() && next < 400; ++next) {
        const std::string body = visitor.gets(found[next]).body;
        for (std::size_t at = body.find("href=\"/"); at != std::string::npos;
             at = body.find("href=\"/", at + 1)) {
            const std::string address = body.substr(at + 6, body.find('"', at + 6) - at - 6);
            if (std::find(found.begin(), found.end(), address) == found.end())
                found.push_back(address);
        }
    }
    return found;
}

/// One piece of paper, and five minutes.
const char* const leaf_design = R"([design]
code = "mine"
name = "Leaf"

[parameters]
side = { usual = "100 mm", about = "side of the leaf", least = "50 mm", most = "150 mm" }

[materials]
paper = "MOSS"

[[part]]
name = "leaf"
material = "paper"
width = "side"
height = "side"

[[operation]]
name = "cutting"
minutes = 5
)";

} // namespace

TEST_CASE("a shop is begun with a few answers, and once", "[page]") {
    const ScratchFolder folder;
    Visitor visitor(folder / "shop.db", "2027-03-06");
    CHECK_THAT(visitor.reads("/"), Contains("A new shop"));
    const auto wrong = visitor.sends("/", "/begin", {{"margin", "120%"}});
    CHECK(wrong.status == 422);
    CHECK_FALSE(std::filesystem::exists(folder / "shop.db"));
    const std::string today = visitor.done(
        "/", "/begin", {{"currency", "EUR"}, {"hourly-rate", "12.50"}, {"maker", "Wren Aldous"}});
    CHECK_THAT(today, Contains("First steps"));
    CHECK_THAT(visitor.reads("/books/settings"), Contains("value=\"EUR\""));
}

TEST_CASE("every link of a shop in which everything happened leads to a page", "[page]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 5");
    shop.done("batch plan leaflet --make 2");
    shop.done("journal sell 1-01 --price 9");
    shop.done({"fair", "new", "Spring fair", "--on", "2027-05-01", "--fee", "22"});
    shop.done("fair take 1 leaflet=2");
    Visitor visitor(shop);
    const auto addresses = all_addresses(visitor);
    CHECK(addresses.size() > 40);
    for (const std::string& address : addresses) {
        INFO(address);
        const auto response = visitor.gets(address);
        CHECK(response.status == 200);
        CHECK(response.body.find("<script>") == std::string::npos);
        CHECK(response.body.find(" style=") == std::string::npos); // the policy forbids both
        CHECK(response.body.find(" onclick=") == std::string::npos);
    }
}

TEST_CASE("from an empty shop to a journal sold at a fair, by forms alone", "[page]") {
    Shop shop({"--hourly-rate", "12"});
    Visitor visitor(shop);
    visitor.done("/stock/new", "/stock/new",
                 {{"name", "Moss"},
                  {"code", "MOSS"},
                  {"form", "sheet"},
                  {"width", "300 mm"},
                  {"height", "200 mm"},
                  {"pack", "10"},
                  {"pack_price", "5.00"}});
    const std::string booked = visitor.done("/stock/material/MOSS", "/stock/material/MOSS/receive",
                                            {{"packs", "1"}, {"cost", "5.00"}});
    CHECK_THAT(booked, Contains("Booked in: 10 sheets of MOSS for 5.00 GBP."));
    const std::string begun = visitor.done(
        "/designs", "/designs", {{"base", "wire"}, {"code", "mine"}, {"name", "My journal"}});
    CHECK_THAT(begun, Contains("My journal"));
    visitor.done("/designs/mine/text", "/designs/mine/text", {{"text", leaf_design}});
    CHECK_THAT(visitor.reads("/designs/mine?make=4"), Contains("name=\"set.side\""));
    CHECK_THAT(visitor.reads("/designs/mine/answer?make=4"), Contains("<dt>Ask</dt>"));
    CHECK_THAT(visitor.reads("/designs/mine/answer?make=4&set.side=400+mm"), Contains("alert"));
    visitor.done("/designs/mine?make=4", "/designs/mine/plan", {});
    visitor.done("/bench/batch/1", "/bench/batch/1/cut", {});
    visitor.done("/bench/batch/1", "/bench/batch/1/finish", {});
    visitor.done("/stall", "/stall", {{"name", "Spring fair"}, {"on", "2027-03-06"}, {"fee", "5"}});
    visitor.done("/stall/fair/1", "/stall/fair/1/take", {{"take.mine", "3"}});
    const auto sold =
        visitor.posts("/stall/fair/1/sell",
                      {{"key", "0123456789abcdef"}, {"serials", "1-01"}, {"price", "7.50"}});
    CHECK(sold.status == 303);
    CHECK_THAT(visitor.reads(sold.headers.at("Location")), Contains("1-01 sold for 7.50 GBP."));
    shop.sound();
    CHECK(shop.json("fair show 1").at("takings") == "7.50");
}

TEST_CASE("a form sent twice is booked once", "[page][once]") {
    Shop shop;
    stock_up(shop);
    Visitor visitor(shop);
    const auto before = shop.entry();
    const Visitor::Fields fields = {{"key", "fedcba9876543210"}, {"packs", "1"}, {"cost", "3.00"}};
    CHECK(visitor.posts("/stock/material/MOSS/receive", fields).status == 303);
    const auto again = visitor.posts("/stock/material/MOSS/receive", fields);
    CHECK(again.status == 200);
    CHECK_THAT(again.body, Contains("booked already"));
    CHECK(shop.entry() == before + 1);
    // A refused form may be sent again under its key once it is right.
    const Visitor::Fields wrong = {{"key", "aaaabbbbccccdddd"}, {"packs", "x"}, {"cost", "3.00"}};
    const auto refused = visitor.posts("/stock/material/MOSS/receive", wrong);
    CHECK(refused.status == 422);
    CHECK_THAT(refused.body, Contains("aria-invalid"));
    CHECK_THAT(refused.body, Contains("value=\"x\"")); // what was typed is still there
    CHECK(visitor
              .posts("/stock/material/MOSS/receive",
                     {{"key", "aaaabbbbccccdddd"}, {"packs", "1"}, {"cost", "3.00"}})
              .status
          == 303);
    CHECK(shop.entry() == before + 2);
    CHECK(visitor.posts("/stock/material/MOSS/receive", {{"packs", "1"}, {"cost", "1"}}).status
          == 422);
    shop.sound();
}

TEST_CASE("what is typed is never run", "[page]") {
    const std::string evil = "<script>alert(1)</script>\"'><img src=x onerror=alert(1)>";
    Shop shop;
    stock_up(shop);
    Visitor visitor(shop);
    visitor.done("/stock/new", "/stock/new",
                 {{"name", evil},
                  {"code", "EVIL"},
                  {"form", "count"},
                  {"place", evil},
                  {"note", evil},
                  {"collection", evil}});
    visitor.done("/stock/material/EVIL", "/stock/material/EVIL/receive",
                 {{"units", "3"}, {"cost", "1"}, {"note", evil}});
    visitor.done("/buying", "/buying/supplier", {{"code", "EV"}, {"name", evil}, {"note", evil}});
    visitor.done("/stall", "/stall", {{"name", evil}, {"on", "2027-03-06"}});
    visitor.sends("/stock/new", "/stock/new", {{"name", evil}, {"code", evil}, {"form", evil}});
    for (const std::string& address : all_addresses(visitor)) {
        const auto response = visitor.gets(address);
        if (response.type.compare(0, 9, "text/html") != 0) continue;
        INFO(address);
        CHECK(response.body.find("<script>") == std::string::npos);
        CHECK(response.body.find("<img") == std::string::npos);
    }
    for (const char* address : {"/designs/%3Cscript%3E", "/stock/material/%3Cimg%3E",
                                "/books/entry/%22%3E%3Cimg", "/../../etc/passwd"}) {
        const auto response = visitor.gets(address);
        CHECK(response.status == 404);
        CHECK(response.body.find("<img") == std::string::npos);
        CHECK(response.body.find("<script>") == std::string::npos);
    }
}

TEST_CASE("an entry is taken back from its page", "[page]") {
    Shop shop;
    stock_up(shop);
    shop.done("write-off ENV --units 2 --note wet");
    const std::string at = "/books/entry/" + std::to_string(shop.entry());
    Visitor visitor(shop);
    CHECK_THAT(visitor.done(at, at + "/undo", {{"note", "they dried"}}),
               Contains("is taken back by entry"));
    shop.sound();
}
