#include "book/shop.hpp"

#include "reading/csv_table.hpp"
#include "workshop/buying/delivery.hpp"
#include "workshop/stock/catalogue.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <random>
#include <sstream>

using barrow::test::Shop;
using barrow::test::stock_up;
using Catch::Matchers::Contains;

namespace {

/// Texts that break careless CSV: commas, quotes, formulas, apostrophes, signs of other scripts.
class Nasty {
public:
    explicit Nasty(std::uint64_t seed) : random_(seed) {}

    std::size_t below(std::size_t limit) { return random_() % limit; }
    bool chance(std::size_t in) { return below(in) == 0; }

    /// Not empty, without blanks at its ends, and not "-" alone (which means: empty it).
    std::string text() {
        static const std::vector<std::string> pieces = {
            ",", "\"", "'", "=",  "+", "-", "@",    ";",  "a",           "Z",   "9",    " ",   "é",
            "ß", "紙", "🌿", "\\", "#", "<", "\"\"", "''", "=SUM(A1:A9)", "1e5", "TRUE", "0x1", "%"};
        std::string text;
        for (std::size_t n = 1 + below(8); n > 0; --n) text += pieces[below(pieces.size())];
        while (!text.empty() && text.front() == ' ') text.erase(0, 1);
        while (!text.empty() && text.back() == ' ') text.pop_back();
        return text.empty() || text == "-" ? "plain" : text;
    }
    std::string maybe() { return chance(3) ? std::string() : text(); }
    std::string code(std::size_t number) {
        static const std::string first = "-_.AbZ09";
        return std::string(1, first[below(first.size())]) + "c" + std::to_string(number);
    }

private:
    std::mt19937_64 random_;
};

using Cells = std::map<std::string, std::string>;

/// CSV by the simplest rule there is: every cell in quotes.
std::string quoted_csv(const std::vector<std::string>& columns, const std::vector<Cells>& rows) {
    std::string text;
    for (const auto& column : columns) text += column + (column == columns.back() ? "\n" : ",");
    for (const Cells& row : rows) {
        for (const auto& column : columns) {
            const auto cell = row.find(column);
            text += '"';
            if (cell != row.end()) {
                // By hand one writes formulas as they are; an apostrophe before one means itself
                // only when it is doubled.
                const std::size_t sign = cell->second.find_first_not_of('\'');
                if (sign != std::string::npos && sign > 0
                    && std::string("=+-@").find(cell->second[sign]) != std::string::npos)
                    text += '\'';
                for (const char c : cell->second) text += c == '"' ? "\"\"" : std::string(1, c);
            }
            text += column == columns.back() ? "\"\n" : "\",";
        }
    }
    return text;
}

std::vector<Cells> nasty_suppliers(Nasty& nasty) {
    std::vector<Cells> rows;
    for (std::size_t i = 0; i < 5; ++i)
        rows.push_back({{"code", nasty.code(i)},
                        {"name", nasty.text()},
                        {"lead_days", std::to_string(nasty.below(40))},
                        {"note", nasty.maybe()}});
    return rows;
}

std::string length(Nasty& nasty) {
    static const std::vector<std::string> lengths = {"10mm", "304.8mm", "12in",     "6 1/2in",
                                                     "3cm",  "0.125in", "1 1/64in", "2ft"};
    return lengths[nasty.below(lengths.size())];
}

/// A material of any form with any of its fields.
Cells nasty_material(Nasty& nasty, std::size_t number, const std::vector<Cells>& suppliers) {
    static const std::vector<std::string> forms = {"sheet", "length", "wire", "count", "bulk"};
    const std::string form = forms[nasty.below(forms.size())];
    Cells row = {{"code", nasty.code(number)},  {"name", nasty.text()},  {"form", form},
                 {"collection", nasty.maybe()}, {"note", nasty.maybe()}, {"place", nasty.maybe()}};
    if (nasty.chance(2)) row["supplier"] = suppliers[nasty.below(suppliers.size())].at("code");
    if (nasty.chance(2)) row["pack_price"] = std::to_string(nasty.below(90)) + ".05";
    if (nasty.chance(2)) row["hazard"] = "blade, solvent";
    if (form == "bulk") {
        row["bulk_unit"] = nasty.chance(2) ? "ml" : "g";
        row["pack"] = row["bulk_unit"] == "ml" ? "0.25 l" : "12.345 g";
    } else {
        row["pack"] = std::to_string(1 + nasty.below(50));
        row["reorder_at"] = std::to_string(nasty.below(9));
    }
    if (form == "sheet") {
        row["width"] = "1m";
        row["height"] = "2ft";
        row["trim_bottom"] = nasty.chance(2) ? "1 1/64in" : "6mm";
        row["keep_from"] = length(nasty) + " x " + length(nasty);
        row["pattern"] = nasty.chance(2) ? "one-way" : "two-way";
        row["grain"] = nasty.chance(2) ? "width" : "height";
        if (nasty.chance(2)) row["kerf"] = "0.5mm";
    }
    if (form == "length") {
        row["length"] = "2 1/4 yd";
        row["keep_from"] = length(nasty);
    }
    if (form == "wire") {
        row["loops"] = "34";
        row["keep_from"] = "5";
    }
    return row;
}

Cells nasty_receipt(Nasty& nasty, const std::vector<Cells>& materials) {
    const Cells& material = materials[nasty.below(materials.size())];
    Cells row = {{"date", "2027-01-" + std::to_string(10 + nasty.below(19))},
                 {"material", material.at("code")},
                 {"cost", std::to_string(nasty.below(50)) + ".0" + std::to_string(nasty.below(9))},
                 {"note", nasty.maybe()},
                 {"delivery", std::to_string(nasty.below(3))}};
    const bool bulk = material.at("form") == "bulk";
    row["units"] = bulk ? "33.3" : std::to_string(1 + nasty.below(30));
    if (nasty.chance(3)) row["freight"] = "1.01";
    if (material.at("form") == "sheet" && nasty.chance(2)) row["width"] = length(nasty);
    if (material.at("form") == "wire" && nasty.chance(2)) row["loops"] = "17";
    return row;
}

const std::vector<std::string> tables = {"suppliers", "materials", "receipts"};

std::map<std::string, std::string> exported(Shop& shop) {
    std::map<std::string, std::string> texts;
    for (const std::string& table : tables) texts[table] = shop.done("export " + table);
    return texts;
}

void bring_in(Shop& shop, const std::map<std::string, std::string>& texts) {
    shop.import("supplier import", texts.at("suppliers"));
    shop.import("material import", texts.at("materials"));
    shop.import("receive --from", texts.at("receipts"));
}

std::string read(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

} // namespace

TEST_CASE("what is exported, imported into a fresh shop and exported again is the same bytes",
          "[exports]") {
    const std::string unit = GENERATE("mm", "in", "cm");
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        INFO("seed " << seed << ", unit " << unit);
        Nasty nasty(seed);
        const auto suppliers = nasty_suppliers(nasty);
        std::vector<Cells> materials;
        for (std::size_t i = 0; i < 8; ++i)
            materials.push_back(nasty_material(nasty, i, suppliers));
        std::vector<Cells> receipts;
        for (int i = 0; i < 12; ++i) receipts.push_back(nasty_receipt(nasty, materials));

        Shop shop({"--unit", unit});
        shop.import("supplier import", quoted_csv(barrow::workshop::supplier_fields(), suppliers));
        shop.import("material import", quoted_csv(barrow::workshop::material_fields(), materials));
        shop.import("receive --from", quoted_csv(barrow::workshop::receipt_fields(), receipts));
        const auto first = exported(shop);

        // The texts came through as they were written.
        for (const auto& supplier : shop.list("supplier list", "suppliers"))
            for (const Cells& row : suppliers)
                if (row.at("code") == supplier.at("code")) {
                    CHECK(row.at("name") == supplier.at("name"));
                    CHECK(row.at("note") == supplier.at("note"));
                }
        Shop fresh({"--unit", unit});
        bring_in(fresh, first);
        CHECK(exported(fresh) == first);
        CHECK(fresh.json("stock") == shop.json("stock"));
        fresh.sound();
    }
}

TEST_CASE("exports have exactly the columns of the imports", "[exports]") {
    Shop shop;
    stock_up(shop);
    const auto columns = [&](const std::string& table, const std::vector<std::string>& known) {
        return barrow::reading::read_csv(shop.done("export " + table), table, known).columns;
    };
    using namespace barrow::workshop;
    CHECK(columns("suppliers", supplier_fields()) == supplier_fields());
    // Exports write every length with its unit and need no column that names one.
    const auto without_unit = [](std::vector<std::string> fields) {
        std::erase(fields, "unit");
        return fields;
    };
    CHECK(columns("materials", material_fields()) == without_unit(material_fields()));
    CHECK(columns("receipts", receipt_fields()) == without_unit(receipt_fields()));
}

TEST_CASE("no cell of any export begins as a formula", "[exports]") {
    Shop shop;
    shop.import("supplier import", "code,name,note\n-P,=1+1,@home\n");
    shop.import("material import",
                "code,name,form,supplier,note,place\n.T,+tag,count,-P,\"=HYPERLINK(\"\"x\"\")\","
                "'-drawer\n");
    shop.done("receive .T --units 3 --cost 1 --note +three");
    shop.done({"settings", "maker", "=Wren"});
    shop.done({"write-off", ".T", "--units", "1", "--note", "@wet, torn"});
    for (const std::string table :
         {"suppliers", "materials", "receipts", "offcuts", "journals", "stock", "log"}) {
        const std::string text = shop.done("export " + table);
        INFO(text);
        // Looked at as a spreadsheet would: at the first sign of every cell.
        bool quoted = false;
        bool first = true;
        for (std::size_t i = 0; i < text.size(); ++i) {
            const char c = text[i];
            if (first && c != '"') CHECK(std::string("=+-@\t\r").find(c) == std::string::npos);
            first = first && c == '"' && !quoted;
            if (c == '"') quoted = !quoted;
            if (!quoted && (c == ',' || c == '\n')) first = true;
        }
    }
    const auto log = shop.json("export log").at("rows");
    CHECK(log.back().at("note") == "@wet, torn"); // as JSON it is what it is
    CHECK_THAT(shop.done("export log"), Contains("\"'@wet, torn\""));
    CHECK_THAT(shop.done("export suppliers"), Contains("'-P,'=1+1,0,'@home"));
}

TEST_CASE("what was taken back, or came at a count, is no receipt", "[exports]") {
    Shop shop;
    stock_up(shop);
    const auto before = shop.done("export receipts");
    shop.done("receive ENV --units 9 --cost 1");
    const auto entry = std::to_string(shop.entry());
    CHECK(shop.done("export receipts") != before);
    shop.done("reverse " + entry);
    CHECK(shop.done("export receipts") == before);
    shop.done("stocktake start");
    shop.done("stocktake enter ENV 140");
    shop.done("stocktake post");
    CHECK(shop.done("export receipts") == before);
    shop.sound();
}

TEST_CASE("stock, offcuts, journals and the log are exported as they stand", "[exports]") {
    Shop shop;
    stock_up(shop);
    shop.done("make leaflet --make 5");
    shop.done({"journal", "change", "1-05", "--place", "box, left", "--price", "12"});
    const auto rows = [&](const std::string& table) {
        return shop.json("export " + table).at("rows");
    };
    CHECK(rows("stock").size() == shop.json("stock").at("materials").size());
    CHECK(rows("offcuts").size() == shop.json("offcut list").at("offcuts").size());
    CHECK(rows("journals").size() == 5);
    CHECK(rows("journals").back().at("place") == "box, left");
    CHECK(rows("journals").back().at("price") == "12.00");
    const auto log = rows("log");
    CHECK(log.size() == static_cast<std::size_t>(shop.entry()));
    CHECK(log.front().at("entry") == "1");
    CHECK_THAT(shop.done("export journals"), Contains("\"box, left\""));
}

TEST_CASE("a file is written, and none is replaced unasked", "[exports]") {
    Shop shop;
    stock_up(shop);
    const auto file = shop.folder() / "materials.csv";
    const auto said = shop.run({"export", "materials", file.string()});
    CHECK(said.code == 0);
    CHECK(said.out.empty());
    CHECK_THAT(said.err, Contains("4 rows"));
    CHECK(read(file) == shop.done("export materials"));
    CHECK_THAT(shop.refused(1, {"export", "materials", file.string()}), Contains("exists"));
    shop.done({"export", "suppliers", file.string(), "--replace"});
    CHECK(read(file) == shop.done("export suppliers"));
    CHECK_THAT(shop.refused(2, {"--json", "export", "materials", file.string()}),
               Contains("--json"));
    CHECK_THAT(shop.refused(2, "export matrials"), Contains("materials"));
    const auto nowhere = shop.run({"export", "stock", "/proc/nothing/here.csv"});
    CHECK(nowhere.code == 5);
}
