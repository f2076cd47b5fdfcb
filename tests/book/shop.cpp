#include "book/shop.hpp"

#include "cli/run.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>
#include <sstream>

namespace barrow::test {
namespace fs = std::filesystem;

Shop::Shop(const std::vector<std::string>& options) {
    std::vector<std::string> words = {"init", "--currency", "GBP", "--maker", "Wren Aldous"};
    words.insert(words.end(), options.begin(), options.end());
    if (std::find(options.begin(), options.end(), "--hourly-rate") == options.end())
        words.insert(words.end(), {"--hourly-rate", "0"});
    done(words);
}

std::vector<std::string> Shop::words_of(const std::string& line) {
    std::istringstream stream(line);
    std::vector<std::string> words;
    for (std::string word; stream >> word;) words.push_back(word);
    return words;
}

Shop::Said Shop::run(const std::vector<std::string>& words, const std::string& input) {
    std::ostringstream out;
    std::ostringstream err;
    std::istringstream in(input);
    cli::World world{out,
                     err,
                     in,
                     {{"BARROW_SHOP", path().string()}, {"BARROW_TODAY", today}},
                     today + "T09:30:00Z"};
    Said said;
    said.code = cli::run(words, world);
    said.out = out.str();
    said.err = err.str();
    return said;
}

std::string Shop::done(const std::vector<std::string>& words, const std::string& input) {
    const Said said = run(words, input);
    INFO(words[0] << (words.size() > 1 ? " " + words[1] : "") << ": " << said.err);
    REQUIRE(said.code == 0);
    return said.out;
}

std::string Shop::refused(int code, const std::vector<std::string>& words) {
    const Said said = run(words);
    INFO(said.out << said.err);
    REQUIRE(said.code == code);
    CHECK(said.out.empty());
    CHECK(!said.err.empty());
    return said.err;
}

nlohmann::json Shop::json(const std::string& line) {
    auto words = words_of(line);
    words.insert(words.begin(), "--json");
    const auto document = nlohmann::json::parse(done(words));
    CHECK(document.at("version") == 1);
    return document;
}

nlohmann::json Shop::list(const std::string& line, const std::string& key) {
    return json(line).at(key);
}

void Shop::import(const std::string& command, const std::string& text) {
    auto words = words_of(command);
    words.emplace_back("-");
    done(words, text);
}

void Shop::design(const std::string& text) {
    const fs::path file = folder_ / ("design-" + std::to_string(++designs_) + ".toml");
    std::ofstream(file) << text;
    done({"design", "bring", file.string()});
}

std::int64_t Shop::entry() {
    return json("log --last 1").at("entries").at(0).at("entry");
}

void Shop::sound() {
    const Said said = run("check");
    INFO(said.err);
    REQUIRE(said.code == 0);
    REQUIRE(json("value").at("difference") == "0.00");
}

void stock_up(Shop& shop) {
    shop.import("supplier import",
                "code,name,lead_days\nPELL,Pellwether Papermakers,9\nHOB,Hob and Thimble,4\n");
    shop.import("material import",
                "code,name,form,supplier,width,height,length,bulk_unit,pack,pack_price,keep_from\n"
                "MOSS,Moss paper,sheet,PELL,300mm,200mm,,,10,8.00,50mm x 50mm\n"
                "RIB,Green ribbon,length,HOB,,,2m,,1,3.00,20cm\n"
                "ENV,Brown envelope,count,PELL,,,,,50,5.00,\n"
                "GLUE,Paste glue,bulk,HOB,,,,ml,100 ml,4.00,\n");
    shop.import("receive --from", "date,material,units,cost\n"
                                  "2027-01-12,MOSS,10,8.00\n"
                                  "2027-01-12,ENV,50,5.00\n"
                                  "2027-01-20,RIB,3,9.00\n"
                                  "2027-01-20,GLUE,100 ml,4.00\n"
                                  "2027-02-16,ENV,50,6.00\n");
    shop.design("[design]\n"
                "code = \"leaflet\"\n"
                "name = \"Leaflet\"\n"
                "[materials]\n"
                "paper = \"MOSS\"\n"
                "ribbon = \"RIB\"\n"
                "envelope = \"ENV\"\n"
                "glue = \"GLUE\"\n"
                "[[part]]\n"
                "name = \"cover\"\n"
                "material = \"paper\"\n"
                "width = \"150 mm\"\n"
                "height = \"100 mm\"\n"
                "[[part]]\n"
                "name = \"tie\"\n"
                "material = \"ribbon\"\n"
                "length = \"400 mm\"\n"
                "[[part]]\n"
                "name = \"envelopes\"\n"
                "material = \"envelope\"\n"
                "number = \"3\"\n"
                "[[part]]\n"
                "name = \"glue\"\n"
                "material = \"glue\"\n"
                "amount = \"2 ml\"\n");
}

} // namespace barrow::test
