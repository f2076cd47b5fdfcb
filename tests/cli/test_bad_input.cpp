#include "book/shop.hpp"

#include "store/dump.hpp"

#include <catch2/catch.hpp>

using namespace barrow::test;
using Catch::Matchers::Contains;

namespace {

/// Runs a command on a file of that text; it must be refused as bad input and change nothing.
std::string complaint(Shop& shop, const std::string& command, const std::string& name,
                      const std::string& text) {
    const auto path = shop.folder() / name;
    write_bytes(path, text);
    const std::string before = dump(shop.path());
    auto words = Shop::words_of(command);
    words.push_back(path.string());
    const std::string said = shop.refused(3, words);
    CHECK(dump(shop.path()) == before);
    return said;
}

std::string design(const std::string& part) {
    return "[design]\ncode = \"bad\"\nname = \"Bad\"\n[materials]\npaper = \"MOSS\"\n" + part;
}

} // namespace

TEST_CASE("a CSV row that does not fit is told by file, line and field, all of them at once",
          "[cli][bad-input]") {
    Shop shop;
    stock_up(shop);
    const std::string said = complaint(shop, "material import", "papers.csv",
                                       "code,name,form,width,height\n"
                                       "GOOD,Good paper,sheet,12in,12in\n"
                                       "AA,A paper,sheet,12in,\n"
                                       "\"B B\",B paper,shet,1,1\n"
                                       "CC,C paper,sheet,-3mm,0.0001mm\n");
    CHECK_THAT(said, Contains("papers.csv:3, height"));
    CHECK_THAT(said, Contains("papers.csv:4, code"));
    CHECK_THAT(said, Contains("papers.csv:4, form") && Contains("did you mean sheet"));
    CHECK_THAT(said, Contains("papers.csv:5, width"));
    CHECK_THAT(said, Contains("papers.csv:5, height"));
    CHECK_THAT(said, !Contains("papers.csv:2"));
}

TEST_CASE("receipts that do not fit are told likewise", "[cli][bad-input]") {
    Shop shop;
    stock_up(shop);
    const std::string said = complaint(shop, "receive --from", "receipts.csv",
                                       "date,material,units,cost\n"
                                       "2027-01-12,MOSS,10,8.00\n"
                                       "12/01/2027,MOSS,10,8.00\n"
                                       "2027-02-30,ENV,10,8.00\n"
                                       "2027-01-12,MOS,10,8.00\n"
                                       "2027-01-12,ENV,ten,8.00\n"
                                       "2027-01-12,ENV,1.5,8.00\n"
                                       "2027-01-12,ENV,10,8.005\n"
                                       "2027-01-12,ENV,-1,8.00\n");
    CHECK_THAT(said, Contains("receipts.csv:3, date") && Contains("receipts.csv:4, date"));
    CHECK_THAT(said, Contains("receipts.csv:5, material") && Contains("did you mean MOSS"));
    CHECK_THAT(said, Contains("receipts.csv:6, units") && Contains("receipts.csv:7, units"));
    CHECK_THAT(said, Contains("receipts.csv:8, cost") && Contains("receipts.csv:9, units"));
}

TEST_CASE("materials and suppliers that rows name and nobody has are told alike in every file",
          "[cli][bad-input]") {
    Shop shop;
    stock_up(shop);
    const std::string order = complaint(shop, "order place PELL --from", "order.csv",
                                        "material,units\nmoss,10\nMOS,10\n,10\nQQQQ,1\n");
    CHECK_THAT(order, Contains("order.csv:3, material: there is no material MOS (did you mean "
                               "MOSS?)"));
    CHECK_THAT(order, Contains("order.csv:4, material: is empty"));
    CHECK_THAT(order, Contains("order.csv:5, material: there is no material QQQQ (see all with: "
                               "barrow material list)"));
    CHECK_THAT(order, !Contains("order.csv:2"));
    const std::string receipts =
        complaint(shop, "receive --from", "receipts.csv",
                  "material,units,cost,supplier\nENV,1,1.00,hob\nENV,1,1.00,HOBB\n,1,1.00,\n"
                  "QQQQ,1,1.00,\nENV,1,1.00,QQQQ\n");
    CHECK_THAT(receipts, Contains("receipts.csv:3, supplier: there is no supplier HOBB (did you "
                                  "mean HOB?)"));
    CHECK_THAT(receipts, Contains("receipts.csv:4, material: is empty"));
    CHECK_THAT(receipts, Contains("receipts.csv:5, material: there is no material QQQQ"));
    const std::string unknown = "supplier: there is no supplier QQQQ (see all with: barrow "
                                "supplier list, or add it first)";
    CHECK_THAT(receipts, Contains("receipts.csv:6, " + unknown));
    CHECK_THAT(receipts, !Contains("receipts.csv:2"));
    const std::string materials = complaint(shop, "material import", "materials.csv",
                                            "code,name,form,supplier\nAA,Tag,count,hob\n"
                                            "BB,Tag,count,-\nCC,Tag,count,QQQQ\n");
    CHECK_THAT(materials, Contains("materials.csv:4, " + unknown));
    CHECK_THAT(materials, !Contains("materials.csv:2") && !Contains("materials.csv:3"));
    // The same words on the command line.
    CHECK_THAT(shop.refused(3, "supplier change QQQQ --note x"),
               Contains("there is no supplier QQQQ (see all with: barrow supplier list, or add"));
}

TEST_CASE("a file that is no table is told where it stops being one", "[cli][bad-input]") {
    Shop shop;
    CHECK_THAT(complaint(shop, "material import", "a.csv", "code,nme,form\n"),
               Contains("a.csv:1, column 2") && Contains("did you mean name"));
    CHECK_THAT(complaint(shop, "material import", "a.csv", "code,name,form\nA,b\n"),
               Contains("a.csv:2"));
    CHECK_THAT(complaint(shop, "material import", "a.csv", "code,name,form\nA,\"b,count\n"),
               Contains("a.csv:2"));
    complaint(shop, "material import", "a.csv", "");
}

TEST_CASE("a design that does not fit is told by file, line and column", "[cli][bad-input]") {
    Shop shop;
    stock_up(shop);
    const auto said = [&](const std::string& text) {
        return complaint(shop, "design bring", "bad.toml", text);
    };
    CHECK_THAT(said(design("[[part]]\nname = \"a\"\nmaterial = \"paper\"\nwidth = \"1 mm +\"\n"
                           "height = \"2 mm\"\n")),
               Contains("bad.toml:9:") && Contains("width"));
    CHECK_THAT(said(design("[[part]]\nname = \"a\"\nmaterial = \"paper\"\nwidth = \"wide\"\n"
                           "height = \"2 mm\"\n")),
               Contains("bad.toml:9:") && Contains("wide"));
    CHECK_THAT(said(design("[[part]]\nname = \"a\"\nmaterial = \"papr\"\nwidth = \"1 mm\"\n"
                           "height = \"2 mm\"\n")),
               Contains("bad.toml:8:") && Contains("paper"));
    CHECK_THAT(said(design("[let]\nwidth = \"depth + 1 mm\"\ndepth = \"rise\"\nrise = \"width\"\n"
                           "[[part]]\nname = \"a\"\nmaterial = \"paper\"\nwidth = \"rise\"\n"
                           "height = \"2 mm\"\n")),
               Contains("bad.toml:") && Contains("width") && Contains("depth") && Contains("rise"));
    CHECK_THAT(said("[design]\ncode = \"bad\n"), Contains("bad.toml:2:"));
    CHECK_THAT(said(design("[[prt]]\nname = \"a\"\n")), Contains("bad.toml:6") && Contains("part"));
    CHECK_THAT(said(design("[[part]]\nname = \"a\"\nmaterial = \"paper\"\nwidth = \"1 mm * 2 mm\"\n"
                           "height = \"2 mm\"\n")),
               Contains("bad.toml:9:"));
}

TEST_CASE("a code there is not is told with the nearest there is", "[cli][bad-input]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 5");
    const std::string before = dump(shop.path());
    const std::string label = shop.json("offcut list").at("offcuts").at(0).at("code");
    CHECK_THAT(shop.refused(3, "cost leaflt --make 1"), Contains("did you mean leaflet"));
    CHECK_THAT(shop.refused(3, "history material MOS"), Contains("did you mean MOSS"));
    CHECK_THAT(shop.refused(3, "lots RIBB"), Contains("did you mean RIB"));
    CHECK_THAT(shop.refused(3, "receive ENVV --units 1 --cost 1"), Contains("did you mean ENV"));
    CHECK_THAT(shop.refused(3, "supplier change PEL --note x"), Contains("did you mean PELL"));
    CHECK_THAT(shop.refused(3, "journal sell 1-1 --price 3"), Contains("1-01"));
    CHECK_THAT(shop.refused(3, "batch show 7"), Contains("batch list"));
    CHECK_THAT(shop.refused(3, "cost leaflet --make 1 --use papr=MOSS"), Contains("paper"));
    CHECK_THAT(shop.refused(3, "material add TAG --name Tag --form count --supplier HOBB"),
               Contains("did you mean HOB"));
    // A wrong sign in a label is found by its check sign (tests/base says how).
    std::string wrong = label;
    wrong[0] = wrong[0] == '7' ? '8' : '7';
    CHECK_THAT(shop.refused(3, "write-off --offcut " + wrong + " --note x"),
               Contains("read the label again"));
    CHECK(dump(shop.path()) == before);
}

TEST_CASE("numbers that do not fit an option are told by its name", "[cli][bad-input]") {
    Shop shop;
    stock_up(shop);
    CHECK_THAT(shop.refused(3, "receive ENV --units 1 --cost 1.001"), Contains("--cost"));
    CHECK_THAT(shop.refused(3, "receive ENV --units 1 --cost 1,5"), Contains("--cost"));
    CHECK_THAT(
        shop.refused(3, "material add TAG --name T --form sheet --width 3 --height 2furlong"),
        Contains("--height"));
    CHECK_THAT(shop.refused(3, "settings margin 100%"), Contains("margin"));
    CHECK_THAT(shop.refused(3, "reorder leaflet=3 --by soon"), Contains("--by"));
}
