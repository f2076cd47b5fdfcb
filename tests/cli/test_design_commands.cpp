#include "book/shop.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

using barrow::test::Shop;
using Catch::Matchers::Contains;

namespace {

const std::string materials =
    "code,name,form,width,height,length,loops,bulk_unit,caliper,grammage,bulk,faces,repeat,pitch,"
    "diameter,flap,spread\n"
    "PAPER,Paper,sheet,300mm,300mm,,,,,120,1.25,2,60mm,,,,\n"
    "BOARD,Board,sheet,700mm,500mm,,,,0.42mm,,,,,,,,\n"
    "ENV,Envelope,count,165mm,90mm,,,,0.12mm,,,,,,,3.5cm,\n"
    "WIRE,Wire,wire,,,,23,,,,,,,2:1,5/8in,,\n"
    "RIB,Ribbon,length,10mm,,10m,,,,,,,,,,,\n"
    "PASTE,Paste,bulk,,,,,ml,,,,,,,,,70\n";

const std::string folder = R"([design]
code = "folder"
name = "Folder"
[parameters]
envelopes = { usual = 6, whole = true }
[cover]
height = "envelope.long + 2 cm"
board = "board"
fold = "board.caliper"
panels = [
  { name = "front", width = "envelope.wide + 2 cm" },
  { name = "base", width = "2 cm", is = "base" },
  { name = "back", width = "envelope.wide + 2 cm" },
]
[block]
layers = [ { name = "envelopes", material = "envelope", number = "envelopes", envelope = true } ]
[materials]
board = "BOARD"
envelope = "ENV"
[[part]]
name = "cover board"
material = "board"
width = "cover.length"
height = "cover.height"
[[part]]
name = "envelopes"
material = "envelope"
number = "envelopes"
[variant.thick]
parameters = { envelopes = 60 }
)";

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

} // namespace

TEST_CASE("what designs reckon with is kept with the materials and exported again",
          "[cli][design]") {
    Shop shop;
    shop.import("material import", materials);
    const std::string exported = shop.done("export materials");
    CHECK_THAT(exported, Contains("caliper") && Contains("2:1") && Contains("0.42mm"));
    // Brought into another shop it is the same, and into this one nothing new.
    Shop other;
    other.import("material import", exported);
    CHECK(other.done("export materials") == exported);
    shop.import("material import", exported);
    CHECK(shop.done("export materials") == exported);
    // The sides of a thing have no way up; a fact can be made unknown again.
    CHECK_THAT(exported, Contains("90mm,165mm") || Contains("90 mm,165 mm"));
    shop.done("material change BOARD --caliper -");
    CHECK_THAT(shop.done("export materials"), !Contains("0.42mm"));
    const std::string told =
        shop.refused(3, "material change BOARD --pitch 2:1 --faces 3 --grammage thick --spread 70");
    CHECK_THAT(told, Contains("--pitch") && Contains("only goes with the form wire")
                         && Contains("--faces") && Contains("--grammage") && Contains("--spread"));
}

TEST_CASE("a design reckons with what the shop knows of its materials", "[cli][design]") {
    Shop shop;
    shop.import("material import", materials);
    shop.design(folder);
    const auto document = shop.json("design show folder");
    // 90 + 20 = 110; two folds of 0.42: 110 + 20 + 110 + 0.84; 165 + 20 high.
    CHECK(document["cover"]["length"] == 240.84);
    CHECK(document["cover"]["height"] == 185);
    // 6 envelopes of 4 plies of 0.12 mm.
    CHECK(document["block"]["thickness"] == 2.88);
    CHECK(document["warnings"].empty());
    // The thick one, 60 x 0.48 = 28.8 mm, gapes.
    CHECK_THAT(shop.json("design show folder.thick")["warnings"].dump(),
               Contains("will not close"));
    CHECK(shop.json("cost folder.thick --make 2")["design"] == "folder.thick");
    CHECK_THAT(shop.refused(3, "cost folder.thin --make 2"), Contains("folder.thick"));
    // A measure nobody has given is asked for with the command that gives it.
    shop.done("material change BOARD --caliper -");
    CHECK_THAT(shop.refused(3, "design show folder"),
               Contains("board.caliper is not known")
                   && Contains("barrow material change BOARD --caliper"));
}

TEST_CASE("a design is begun, checked and drawn from files, without a shop", "[cli][design]") {
    Shop shop;
    const auto file = shop.folder() / "mine.toml";
    shop.done({"design", "new", "wire", "--code", "mine", "--name", "My own", "--file",
               file.string(), "--set", "envelope_wide=11cm"});
    CHECK_THAT(shop.refused(1, {"design", "new", "wire", "--code", "mine", "--name", "My own",
                                "--file", file.string()}),
               Contains("is there already"));
    const auto nowhere = (shop.folder() / "no-shop.db").string();
    const auto drawing = shop.folder() / "cover.svg";
    const std::string said = shop.done({"--shop", nowhere, "design", "check", file.string(),
                                        "--set", "envelopes=4", "--svg", drawing.string()});
    // 11 + 2 x 2 = 15 cm: 150 + 30 + 150 + 30 + 40 and four folds of 0.4 mm.
    CHECK_THAT(said, Contains("401.6 mm") && Contains("Score at"));
    const std::string svg = text_of(drawing);
    CHECK_THAT(svg, Contains("<svg") && Contains("second base") && Contains("401.6 mm")
                        && Contains("grain"));
    CHECK_FALSE(std::filesystem::exists(nowhere));
    CHECK_THAT(shop.refused(3, {"design", "check", file.string(), "--set", "envelops=4"}),
               Contains("did you mean envelopes"));
    CHECK_THAT(shop.refused(3, {"design", "check", file.string(), "--variant", "large"}),
               Contains("no variant"));
}

TEST_CASE("calculators answer without a shop", "[cli][design]") {
    Shop shop;
    CHECK_THAT(shop.done("calculate pounds pounds=80"), Contains("~216.329 g/m2"));
    CHECK_THAT(shop.done("calculate thickness envelopes=12 envelope=0.12mm give=0%"),
               Contains("5.76 mm"));
    CHECK_THAT(shop.done("calculate cover --unit in"), Contains("14 15/64"));
    CHECK_THAT(shop.refused(3, "calculate wire egde=20cm"), Contains("did you mean edge"));
    CHECK_THAT(shop.refused(3, "calculate wire edge=20"), Contains("is a length"));
    CHECK_THAT(shop.refused(2, "calculate wire edge"), Contains("name=value"));
    CHECK_THAT(shop.refused(2, "calculate soup"), Contains("barrow calculate --help"));
    CHECK_THAT(shop.done("calculate wire --help"), Contains("thickness=12 mm"));
}
