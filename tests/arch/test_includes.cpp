#include "arch/include_rules.hpp"
#include "arch/source_files.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <map>
#include <set>
#include <sstream>

using namespace barrow::test;

namespace {

std::string source_text(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    REQUIRE(file);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// The tables of a page: rows "| `workshop/stock/` | what it is | shared |" by their first cell,
/// with the names in the last one.
std::map<std::string, std::set<std::string>> arrows_of_page(const std::string& page) {
    std::map<std::string, std::set<std::string>> arrows;
    std::istringstream lines(page);
    for (std::string line; std::getline(lines, line);) {
        if (line.rfind("| `", 0) != 0) continue;
        const std::string name = line.substr(3, line.find('`', 3) - 3);
        if (name.empty() || name.back() != '/' || name == "schema/") continue;
        const auto end = line.rfind(" |");
        const auto start = line.rfind("| ", end - 1) + 2;
        std::set<std::string>& names = arrows[name];
        std::string cell = line.substr(start, end - start);
        if (cell == "nothing of ours" || cell == "no other room") continue;
        cell += ", ";
        for (std::size_t at = 0; at < cell.size();) {
            const auto comma = cell.find(", ", at);
            names.insert(cell.substr(at, comma - at));
            at = comma + 2;
        }
    }
    return arrows;
}

/// Every header a file includes, by itself or through headers of ours.
std::set<std::string> headers_reached(const std::string& path,
                                      const std::map<std::string, std::string>& texts) {
    std::set<std::string> reached;
    std::vector<std::string> open = {path};
    while (!open.empty()) {
        const auto found = texts.find(open.back());
        open.pop_back();
        if (found == texts.end()) continue; // from outside
        std::istringstream lines(found->second);
        for (std::string line; std::getline(lines, line);) {
            if (line.rfind("#include ", 0) != 0) continue;
            const std::string header = line.substr(10, line.find_first_of("\">", 10) - 10);
            if (reached.insert(header).second) open.push_back(header);
        }
    }
    return reached;
}

} // namespace

TEST_CASE("every include of src points along an arrow of the table", "[arch]") {
    const auto files = source_files("src");
    REQUIRE(files.size() > 100); // the folder was really found
    for (const SourceFile& file : files)
        for (const std::string& fault : include_faults(file.path, file.text)) FAIL_CHECK(fault);
    SUCCEED();
}

TEST_CASE("no file outside the store sees SQLite, through whatever headers", "[arch]") {
    std::map<std::string, std::string> texts; // of every file of src, by its name in #include lines
    for (const SourceFile& file : source_files("src")) texts[file.path] = file.text;
    REQUIRE(headers_reached("store/file/database.cpp", texts).count("SQLiteCpp/SQLiteCpp.h") == 1);
    for (const auto& [path, text] : texts) {
        if (path.rfind("store/", 0) == 0) continue;
        for (const std::string& header : headers_reached(path, texts))
            if (header.rfind("SQLiteCpp/", 0) == 0 || header == "sqlite3.h")
                FAIL_CHECK(path << " sees " << header);
    }
}

TEST_CASE("faces use of the layers below only what they are meant to", "[arch]") {
    for (const SourceFile& file : source_files("src"))
        for (const std::string& fault : name_faults(file.path, file.text)) FAIL_CHECK(fault);
    SUCCEED();
}

TEST_CASE("every room of a layer stands in its table, and the table has no circle", "[arch]") {
    std::map<std::string, std::set<std::string>> rooms; // by layer; "" is the layer's own floor
    for (const SourceFile& file : source_files("src")) {
        const auto layer = file.path.find('/');
        const auto room = file.path.find('/', layer + 1);
        rooms[file.path.substr(0, layer)].insert(
            room == std::string::npos ? "" : file.path.substr(layer + 1, room - layer - 1));
    }
    for (const auto& [layer, found] : rooms) {
        INFO(layer);
        std::set<std::string> known;
        for (const RoomRule& rule : room_rules()) {
            if (rule.layer != layer) continue;
            // Each room may include only rooms that stand before it, so no circle can close.
            for (const std::string_view allowed : rule.may_include) {
                INFO(rule.room << " -> " << allowed);
                CHECK(known.count(std::string(allowed)) == 1);
            }
            known.insert(std::string(rule.room));
        }
        if (known.empty()) known = {""}; // a layer without a table has no rooms
        CHECK(found == known);
    }
}

TEST_CASE("DEVELOPERS.md shows the tables that are tested", "[arch]") {
    const std::map<std::string, std::set<std::string>> page =
        arrows_of_page(source_text(std::string(BARROW_SOURCE_DIR) + "/DEVELOPERS.md"));
    std::map<std::string, std::set<std::string>> tested;
    for (const FolderRule& rule : folder_rules()) {
        auto& names = tested[std::string(rule.folder) + "/"];
        for (const std::string_view name : rule.may_include)
            names.insert(std::string(name.substr(0, name.find('/'))));
    }
    for (const RoomRule& rule : room_rules()) { // headers on a layer's own floor are no room
        if (rule.room.empty()) continue;
        auto& names = tested[std::string(rule.layer) + "/" + std::string(rule.room) + "/"];
        for (const std::string_view name : rule.may_include)
            if (!name.empty()) names.insert(std::string(name));
    }
    CHECK(page == tested);
}

TEST_CASE("an include between two rooms the wrong way would be caught", "[arch]") {
    const std::vector<std::pair<std::string, std::string>> wrong = {
        {"layout/tree/block.cpp", "layout/solve/search.hpp"},
        {"layout/lp/linear_program.cpp", "layout/columns/pattern_lp.hpp"},
        {"design/formula/parse.cpp", "design/work/work_out.hpp"},
        {"costing/shelf/lots.cpp", "costing/bill/bill.hpp"},
        {"store/ledger/ledger.cpp", "store/making/batches.hpp"},
        {"store/stock/lots.cpp", "store/checks/checks.hpp"},
        {"workshop/stock/receive.cpp", "workshop/buying/orders.hpp"},
        {"workshop/shared/settings.cpp", "workshop/stock/shelf.hpp"},
        {"print/blocks/blocks.cpp", "print/write/html.hpp"},
        {"print/stock/stock_text.cpp", "print/selling/fairs.hpp"},
        {"workshop/elsewhere/new.cpp", "workshop/shared/settings.hpp"},
    };
    for (const auto& [path, name] : wrong) {
        INFO(path << " with " << name);
        CHECK(include_faults(path, "#include \"" + name + "\"\n").size() == 1);
    }
    CHECK(include_faults("workshop/making/batch.cpp", "#include \"workshop/stock/shelf.hpp\"\n")
              .empty());
}

TEST_CASE("every folder of src stands in the table", "[arch]") {
    std::set<std::string> folders;
    for (const SourceFile& file : source_files("src"))
        folders.insert(file.path.substr(0, file.path.find('/')));
    std::set<std::string> rules;
    for (const FolderRule& rule : folder_rules()) rules.insert(std::string(rule.folder));
    CHECK(folders == rules);
}

TEST_CASE("the table has no way round in a circle", "[arch]") {
    // Each folder may only include folders that stand before it, so no circle can close.
    std::set<std::string> before;
    for (const FolderRule& rule : folder_rules()) {
        for (const std::string_view allowed : rule.may_include) {
            INFO(rule.folder << " -> " << allowed);
            CHECK(before.count(std::string(allowed.substr(0, allowed.find('/')))) == 1);
        }
        before.insert(std::string(rule.folder));
    }
}

TEST_CASE("libraries are linked along the arrows of the table too", "[arch]") {
    for (const FolderRule& rule : folder_rules()) {
        const std::string folder(rule.folder);
        std::ifstream file(std::string(BARROW_SOURCE_DIR) + "/src/" + folder + "/CMakeLists.txt");
        REQUIRE(file);
        std::set<std::string> allowed;
        for (const std::string_view name : rule.may_include)
            allowed.insert(std::string(name.substr(0, name.find('/'))));
        bool uses = false;
        for (std::string line; std::getline(file, line);) {
            std::istringstream words(line);
            for (std::string word; words >> word;) {
                const bool closed = word.back() == ')';
                if (closed) word.pop_back();
                if (word == "USES") {
                    uses = true;
                } else if (word == "WITH" || word == "PRIVATELY" || word == "SOURCES") {
                    uses = false;
                } else if (uses) {
                    INFO(folder << " links " << word);
                    CHECK(allowed.count(word) == 1);
                }
                uses = uses && !closed;
            }
        }
    }
}

TEST_CASE("a wrong include would be caught, with its line", "[arch]") {
    CHECK(include_faults("costing/bill/bill.cpp",
                         "#include \"costing/bill/bill.hpp\"\n\n#include <map>\n")
              .empty());
    CHECK(
        include_faults("costing/bill/bill.cpp", "#include \"base/money.hpp\"\n\n"
                                                "  #  include \"store/lots.hpp\"\n")
        == std::vector<std::string>{"src/costing/bill/bill.cpp:3: may not include store/lots.hpp"});
    const std::vector<std::pair<std::string, std::string>> wrong = {
        {"base/money.cpp", "\"layout/job.hpp\""},
        {"layout/solve.cpp", "\"costing/bill.hpp\""},
        {"layout/solve.cpp", "\"design/design.hpp\""},
        {"design/names.cpp", "\"layout/job.hpp\""},
        {"costing/shelf/lots.hpp", "\"layout/table/raster.hpp\""}, // a room behind the door
        {"costing/shelf/lots.hpp", "\"workshop/bench.hpp\""},
        {"supply/reorder.cpp", "\"costing/bill.hpp\""},
        {"store/ledger/ledger.cpp", "\"costing/lots.hpp\""},
        {"workshop/make.cpp", "\"print/table.hpp\""},
        {"reading/rows.cpp", "\"store/lots.hpp\""},
        {"print/text/table.cpp", "\"store/database.hpp\""},
        {"print/text/table.cpp", "\"cli/shell.hpp\""},
        {"cli/run.cpp", "\"store/ledger.hpp\""},
        {"cli/main.cpp", "\"workshop/bench.hpp\""},
        {"workshop/make.cpp", "<SQLiteCpp/Statement.h>"},
        {"cli/shell.cpp", "<sqlite3.h>"},
        {"cli/options.hpp", "<CLI/CLI.hpp>"}, // slow to compile: in one file alone
        {"cli/selling_commands.cpp", "<CLI/CLI.hpp>"},
        {"workshop/make.cpp", "<CLI/CLI.hpp>"},
        {"reading/json_tree.hpp", "<nlohmann/json.hpp>"},
        {"print/text/words.cpp", "<nlohmann/json.hpp>"},
        {"costing/bill/bill.cpp", "<toml++/toml.h>"},
        {"costing/bill/bill.cpp", "<ClpSimplex.hpp>"},
        {"base/text.cpp", "<unistd.h>"},
        {"base/text.cpp", "<boost/format.hpp>"}, // a library nobody has agreed to
        {"elsewhere/text.cpp", "\"base/text.hpp\""},
    };
    for (const auto& [path, name] : wrong) {
        INFO(path << " with " << name);
        CHECK(include_faults(path, "#include " + name + "\n").size() == 1);
    }
}

TEST_CASE("a face that reaches past its door would be caught", "[arch]") {
    CHECK(name_faults("cli/run.cpp", "store::Database database = shell.open();\n").empty());
    CHECK(name_faults("cli/run.cpp", "my_store::find();\n").empty());
    CHECK(name_faults("cli/run.cpp", "\n  barrow::store::find_material(database, code);\n")
          == std::vector<std::string>{"src/cli/run.cpp:2: may not use store::find_material"});
    CHECK(name_faults("print/text/words.cpp", "store::add_lot(database, lot);\n").size() == 1);
}
