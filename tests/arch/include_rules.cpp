#include "arch/include_rules.hpp"

#include <algorithm>
#include <cctype>
#include <optional>

namespace barrow::test {
namespace {

bool begins_with(std::string_view text, std::string_view start) {
    return text.substr(0, start.size()) == start;
}

bool ends_with(std::string_view text, std::string_view end) {
    return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

std::string_view folder_of(std::string_view path) {
    return path.substr(0, path.find('/'));
}

struct Include {
    std::string name;
    bool quoted = false;
    int line = 0;
};

std::vector<std::string_view> lines_of(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        lines.push_back(text.substr(0, end));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return lines;
}

/// `#include "a"`, `# include <a>`, blanks anywhere.
std::optional<Include> read_include(std::string_view line, int number) {
    const auto skip = [&] {
        while (!line.empty() && std::isspace(static_cast<unsigned char>(line.front())) != 0)
            line.remove_prefix(1);
    };
    skip();
    if (line.empty() || line.front() != '#') return std::nullopt;
    line.remove_prefix(1);
    skip();
    if (!begins_with(line, "include")) return std::nullopt;
    line.remove_prefix(7);
    skip();
    if (line.empty()) return Include{"", true, number};
    const bool quoted = line.front() == '"';
    const std::size_t end = line.find(quoted ? '"' : '>', 1);
    return Include{std::string(line.substr(1, end == std::string_view::npos ? end : end - 1)),
                   quoted, number};
}

/// Headers of the C++ standard library have no slash and no ending.
bool is_standard(std::string_view name) {
    return name.find('/') == std::string_view::npos && name.find('.') == std::string_view::npos;
}

bool library_allowed(std::string_view path, std::string_view name) {
    for (const LibraryRule& rule : library_rules()) {
        if (!begins_with(name, rule.prefix)) continue;
        return std::any_of(rule.places.begin(), rule.places.end(), [&](std::string_view place) {
            if (place == "everywhere") return true;
            const std::size_t blank = place.find(' ');
            const std::string folder = std::string(place.substr(0, blank)) + "/";
            if (!begins_with(path, folder)) return false;
            return blank == std::string_view::npos || ends_with(path, place.substr(blank + 1));
        });
    }
    return is_standard(name);
}

/// "stock" of "workshop/stock/shelf.hpp"; empty for a file on the layer's own floor.
std::string_view room_of(std::string_view path) {
    path.remove_prefix(std::min(path.find('/'), path.size() - 1) + 1);
    const auto end = path.find('/');
    return end == std::string_view::npos ? std::string_view{} : path.substr(0, end);
}

bool room_allowed(std::string_view path, std::string_view name) {
    const std::string_view from = room_of(path);
    const std::string_view to = room_of(name);
    bool layer_has_rooms = false;
    for (const RoomRule& rule : room_rules()) {
        if (rule.layer != folder_of(path)) continue;
        layer_has_rooms = true;
        if (rule.room != from) continue;
        return from == to
               || std::find(rule.may_include.begin(), rule.may_include.end(), to)
                      != rule.may_include.end();
    }
    return !layer_has_rooms && from == to;
}

bool header_allowed(std::string_view path, std::string_view name) {
    // main.cpp only wires: it sees the program and nothing below it.
    if (path == "cli/main.cpp") return name == "cli/run.hpp";
    const std::string_view folder = folder_of(path);
    if (folder_of(name) == folder) return room_allowed(path, name);
    for (const FolderRule& rule : folder_rules()) {
        if (rule.folder != folder) continue;
        return std::any_of(rule.may_include.begin(), rule.may_include.end(),
                           [&](std::string_view allowed) {
                               return allowed == name || allowed == folder_of(name);
                           });
    }
    return false;
}

bool is_word(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
}

} // namespace

const std::vector<FolderRule>& folder_rules() {
    // Of the engine and of the designs, others see the doors and not the rooms behind them.
    static const std::vector<FolderRule> rules = {
        {"base", {}},
        {"layout", {"base"}},
        {"design", {"base"}},
        {"costing",
         {"base", "layout/job.hpp", "layout/plan.hpp", "layout/solve.hpp", "layout/checker.hpp",
          "layout/joint/joint.hpp", "design/recipe/design.hpp", "design/work/slot_choice.hpp",
          "design/work/work_out.hpp"}},
        {"supply", {"base"}},
        {"store", {"base"}},
        {"workshop",
         {"base", "layout/job.hpp", "layout/solve.hpp", "design/recipe/design.hpp",
          "design/file/design_file.hpp", "design/recipe/facts.hpp", "design/ready/ready.hpp",
          "design/work/slot_choice.hpp", "design/work/work_out.hpp", "costing", "supply", "store"}},
        {"reading", {"base", "layout/job.hpp", "workshop"}},
        {"print",
         {"base", "layout/job.hpp", "layout/plan.hpp", "layout/solve.hpp",
          "design/recipe/warning.hpp", "workshop"}},
        {"page",
         {"base", "design/ready/ready.hpp", "design/work/work_out.hpp", "store/file/database.hpp",
          "store/ledger/transaction.hpp", "store/stock/catalogue.hpp", "workshop", "print"}},
        {"cli",
         {"base", "layout/job.hpp", "layout/plan.hpp", "layout/solve.hpp", "layout/checker.hpp",
          "store/file/database.hpp", "store/ledger/transaction.hpp", "workshop", "reading", "print",
          "page/serve/open.hpp"}},
    };
    return rules;
}

const std::vector<RoomRule>& room_rules() {
    static const std::vector<RoomRule> rules = {
        {"layout", "", {}}, // the doors: job, plan, options, solve, checker
        {"layout", "effort", {""}},
        {"layout", "model", {""}},
        {"layout", "tree", {"", "model"}},
        {"layout", "bound", {"", "model"}},
        {"layout", "table", {"", "effort", "model", "tree"}},
        {"layout", "sets", {"", "effort", "tree", "bound"}},
        {"layout", "lp", {""}},
        {"layout", "fill", {"", "effort", "model", "tree", "bound", "table", "sets", "lp"}},
        {"layout", "columns", {"", "effort", "model", "tree", "table", "sets", "lp", "fill"}},
        {"layout", "corner", {"", "effort", "tree", "table", "sets", "lp", "columns"}},
        {"layout", "lengths", {"", "effort", "model", "tree"}},
        {"layout", "sheets", {"", "effort", "tree", "bound"}},
        {"layout", "rounding", {"", "effort", "tree", "lp", "columns", "lengths", "sheets"}},
        {"layout", "joint", {"", "model", "table", "lp"}},
        {"layout", "finish", {"", "effort", "tree"}},
        {"layout",
         "solve",
         {"", "effort", "model", "tree", "bound", "table", "sets", "lp", "fill", "columns",
          "corner", "lengths", "sheets", "rounding", "finish"}},
        {"layout", "check", {""}},
        {"design", "formula", {}},
        {"design", "recipe", {"formula"}},
        {"design", "binding", {"formula", "recipe"}},
        {"design", "cover", {}},
        {"design", "file", {"formula", "recipe", "binding", "cover"}},
        {"design", "work", {"formula", "recipe", "binding", "cover"}},
        {"design", "ready", {"recipe", "file", "work"}},
        {"costing", "shelf", {}},
        {"costing", "bill", {"shelf"}},
        {"costing", "cutting", {"shelf", "bill"}},
        {"costing", "arrange", {"shelf", "bill", "cutting"}},
        {"costing", "price", {"shelf", "bill", "cutting", "arrange"}},
        {"store", "file", {}},
        {"store", "ledger", {"file"}},
        {"store", "stock", {"file", "ledger"}},
        {"store", "making", {"file", "ledger", "stock"}},
        {"store", "selling", {"file", "ledger", "stock", "making"}},
        {"store", "buying", {"file", "ledger", "stock"}},
        {"store", "books", {"file", "ledger", "stock"}},
        {"store", "checks", {"file", "ledger"}},
        {"workshop", "shared", {}},
        {"workshop", "stock", {"shared"}},
        {"workshop", "making", {"shared", "stock"}},
        {"workshop", "selling", {"shared", "stock", "making"}},
        {"workshop", "buying", {"shared", "stock", "making"}},
        {"workshop", "books", {"shared", "stock", "making", "selling", "buying"}},
        {"print", "text", {}},
        {"print", "json", {}},
        {"print", "csv", {}},
        {"print", "blocks", {}},
        {"print", "write", {"text", "csv", "blocks"}},
        {"print", "stock", {"text", "json", "csv", "blocks", "write"}},
        {"print", "making", {"text", "json", "csv", "blocks", "write", "stock"}},
        {"print", "selling", {"text", "json", "csv", "blocks", "write", "stock", "making"}},
        {"print", "buying", {"text", "json", "csv", "blocks", "write", "stock", "making"}},
        {"print",
         "books",
         {"text", "json", "csv", "blocks", "write", "stock", "making", "selling"}},
        {"page", "server", {}},
        {"page", "assets", {"server"}},
        {"page", "frame", {"server"}},
        {"page", "today", {"server", "frame"}},
        {"page", "stock", {"server", "frame"}},
        {"page", "making", {"server", "frame"}},
        {"page", "selling", {"server", "frame"}},
        {"page", "buying", {"server", "frame", "making"}},
        {"page", "books", {"server", "frame"}},
        {"page",
         "serve",
         {"server", "frame", "assets", "today", "stock", "making", "selling", "buying", "books"}},
    };
    return rules;
}

const std::vector<LibraryRule>& library_rules() {
    static const std::vector<LibraryRule> rules = {
        {"fmt/", {"everywhere"}},
        {"SQLiteCpp/", {"store"}},
        {"sqlite3.h", {"store"}},
        {"fcntl.h", {"store .cpp"}}, // files put on the disk, locked, and named when they are whole
        {"sys/file.h", {"store .cpp"}},
        {"sys/stat.h", {"store .cpp"}},
        {"unistd.h", {"store .cpp", "page/server listener.cpp"}},
        {"sys/mman.h", {"layout/table large_pages.hpp"}}, // advice on memory, nothing else
        {"CLI/", {"cli parser.cpp"}},
        {"microhttpd.h", {"page/server listener.cpp"}},
        {"arpa/", {"page/server listener.cpp"}},
        {"netinet/", {"page/server listener.cpp"}},
        {"sys/socket.h", {"page/server listener.cpp"}},
        {"sys/random.h", {"page/server secret.cpp"}},
        {"spawn.h", {"cli open_command.cpp"}},
        {"nlohmann/", {"print/json", "reading .cpp"}},
        {"csv.h", {"reading .cpp"}},
        {"toml++/", {"design"}},
        {"Clp", {"layout .cpp"}},
        {"Cbc", {"layout .cpp"}},
        {"Coin", {"layout .cpp"}},
        {"coin/", {"layout .cpp"}},
    };
    return rules;
}

const std::vector<NameRule>& name_rules() {
    static const std::vector<NameRule> rules = {
        {"cli", "store", {"Database", "Mode"}},
        {"cli", "supply", {}},
        {"reading", "store", {}},
        {"reading", "costing", {}},
        {"reading", "supply", {}},
        {"reading", "design", {}},
        {"print",
         "store",
         {"Material",    "Supplier",        "Offcut",       "OffcutOnHand", "StoredDesign",
          "Journal",     "JournalOnHand",   "JournalPaper", "Batch",        "BatchRun",
          "BatchStatus", "FinishedRun",     "Fair",         "FairCost",     "FairJournal",
          "OrderStatus", "StocktakeStatus", "Posting",      "Movement",     "name_of"}},
    };
    return rules;
}

std::vector<std::string> include_faults(std::string_view path, std::string_view text) {
    std::vector<std::string> faults;
    int number = 0;
    for (const std::string_view line : lines_of(text)) {
        ++number;
        const auto include = read_include(line, number);
        if (!include) continue;
        const bool allowed = include->quoted ? header_allowed(path, include->name)
                                             : library_allowed(path, include->name);
        if (!allowed)
            faults.push_back("src/" + std::string(path) + ":" + std::to_string(number)
                             + ": may not include " + include->name);
    }
    return faults;
}

std::vector<std::string> name_faults(std::string_view path, std::string_view text) {
    std::vector<std::string> faults;
    int number = 0;
    for (const std::string_view line : lines_of(text)) {
        ++number;
        for (const NameRule& rule : name_rules()) {
            if (rule.folder != folder_of(path)) continue;
            const std::string start = std::string(rule.space) + "::";
            for (std::size_t at = line.find(start); at != std::string_view::npos;
                 at = line.find(start, at + 1)) {
                if (at > 0 && is_word(line[at - 1])) continue;
                std::string_view name = line.substr(at + start.size());
                const auto end = std::find_if_not(name.begin(), name.end(), is_word);
                name = name.substr(0, static_cast<std::size_t>(end - name.begin()));
                if (std::find(rule.may_name.begin(), rule.may_name.end(), name)
                    == rule.may_name.end())
                    faults.push_back("src/" + std::string(path) + ":" + std::to_string(number)
                                     + ": may not use " + start + std::string(name));
            }
        }
    }
    return faults;
}

} // namespace barrow::test
