#include "cli/commands.hpp"

#include "base/error.hpp"

#include <array>
#include <sstream>
#include <utility>

namespace barrow::cli {
namespace {

struct Example {
    const char* command;
    const char* line; ///< without "barrow"
};

// In the demo shop (demo-data), as far as they need a shop. tests/cli runs each of them.
constexpr std::array examples = {
    Example{"open", "open --no-browser"},
    Example{"cost", "cost quayside --make 12"},
    Example{"plan", "plan quayside --make 4 --svg drawings"},
    Example{"make", "make quayside --make 4 --note \"for the spring fair\""},
    Example{"batch list", "batch list"},
    Example{"batch show", "batch show 1"},
    Example{"batch plan", "batch plan quayside --make 4"},
    Example{"batch cut", "batch cut 3 --spoiled SM-TIDE=1"},
    Example{"batch finish", "batch finish 4 --made 2 --seconds 1 --minutes \"3 h 40 min\""},
    Example{"batch abandon", "batch abandon 3 --note \"the paper is damp\""},
    Example{"reorder", "reorder quayside=20 pebble=24 --by 2027-05-01"},
    Example{"order list", "order list --all"},
    Example{"order show", "order show 1"},
    Example{"order place", "order place PELL SM-REED=2packs ENV-KRAFT=1pack --price SM-REED=5.20"},
    Example{"order end", "order end 1 --note \"sold out\""},
    Example{"buy", "buy \"Linen thread\" --code THREAD --reel 50m --paid 3.20"},
    Example{"receive", "receive SM-TIDE --packs 2 --price 5.40 --freight 3.90"},
    Example{"stock", "stock"},
    Example{"value", "value"},
    Example{"lots", "lots SM-TIDE"},
    Example{"return", "return 6 --units 3 --note \"a wrong print\""},
    Example{"write-off", "write-off SM-TIDE --units 1 --note \"coffee on it\""},
    Example{"offcut list", "offcut list"},
    Example{"offcut fits", "offcut fits"},
    Example{"offcut yields", "offcut yields VB-X --at-most 4"},
    Example{"offcut change", "offcut change VB-X --place \"blue box\""},
    Example{"offcut split", "offcut split VB-X --into 60mmx60mm"},
    Example{"offcut found", "offcut found SM-TIDE 120mmx80mm --place \"blue box\""},
    Example{"stocktake start", "stocktake start"},
    Example{"stocktake enter", "stocktake enter SM-TIDE 9"},
    Example{"stocktake show", "stocktake show"},
    Example{"stocktake post", "stocktake post --note \"two sheets were lost\""},
    Example{"stocktake drop", "stocktake drop"},
    Example{"journal list", "journal list"},
    Example{"journal change", "journal change 1-01 --place window --price 42.00"},
    Example{"journal sell", "journal sell 1-01 --price 40.50"},
    Example{"journal give", "journal give 1-02 --note \"to Ada\""},
    Example{"journal damage", "journal damage 1-03 --note \"rain\""},
    Example{"journal apart", "journal apart 1-04 --get ENV-KRAFT=10"},
    Example{"fair list", "fair list"},
    Example{"fair show", "fair show 1"},
    Example{"fair new", "fair new \"Summer market\" --on 2027-06-12 --fee 22.00"},
    Example{"fair take", "fair take 1 quayside=2 1-04"},
    Example{"fair sell", "fair sell 1 1-01 1-02 --price 40.50"},
    Example{"fair pay", "fair pay 1 bus 5.20"},
    Example{"history material", "history material SM-TIDE"},
    Example{"history lot", "history lot 6"},
    Example{"history offcut", "history offcut VB-X"},
    Example{"history batch", "history batch 1"},
    Example{"history journal", "history journal 1-01"},
    Example{"report stock", "report stock --on 2027-02-28"},
    Example{"report usage", "report usage --from 2027-01-01 --to 2027-03-31"},
    Example{"report slow", "report slow --days 90"},
    Example{"report offcuts", "report offcuts --csv"},
    Example{"report year", "report year --from 2026-04-06 --to 2027-04-05"},
    Example{"export suppliers", "export suppliers suppliers-now.csv"},
    Example{"export materials", "export materials materials-now.csv"},
    Example{"export receipts", "export receipts receipts-now.csv"},
    Example{"export offcuts", "export offcuts offcuts-now.csv"},
    Example{"export journals", "export journals journals-now.csv"},
    Example{"export stock", "export stock stock-now.csv"},
    Example{"export log", "export log log-now.csv"},
    Example{"design list", "design list"},
    Example{"design bring", "design bring designs/quayside.toml"},
    Example{"design show", "design show quayside --set envelopes=12"},
    Example{"design check", "design check designs/quayside.toml --svg cover.svg"},
    Example{"design new", "design new wire --code harbour --name \"Harbour journal\""},
    Example{"calculate cover", "calculate cover envelope_wide=11cm clear=15mm"},
    Example{"calculate thickness", "calculate thickness envelopes=12 tags=8"},
    Example{"calculate wire", "calculate wire edge=16.5cm thickness=10mm"},
    Example{"calculate ribbon", "calculate ribbon height=18cm pages=6"},
    Example{"calculate sewn", "calculate sewn height=18cm sections=5"},
    Example{"calculate rings", "calculate rings edge=21cm thickness=12mm"},
    Example{"calculate paper", "calculate paper \"grammage=240 g/m2\""},
    Example{"calculate pounds", "calculate pounds pounds=80"},
    Example{"calculate envelope", "calculate envelope wide=9cm long=16.5cm"},
    Example{"material list", "material list"},
    Example{"material import", "material import materials.csv"},
    Example{"material add",
            "material add TAG-KRAFT --name \"Kraft tag\" --form count --supplier PELL"},
    Example{"material change", "material change SM-TIDE --place \"top drawer\""},
    Example{"supplier list", "supplier list"},
    Example{"supplier import", "supplier import suppliers.csv"},
    Example{"supplier add", "supplier add FERN --name \"Fern and Daughter\" --lead-days 7"},
    Example{"supplier change", "supplier change PELL --lead-days 11"},
    Example{"log", "log --last 5"},
    Example{"reverse", "reverse 9 --note \"entered twice\""},
    Example{"init", "init --currency GBP --hourly-rate 12.50 --margin 45% --price-step 0.50"},
    Example{"settings", "settings margin 45%"},
    Example{"check", "check"},
    Example{"backup", "backup shop-copy.db"},
    Example{"restore", "restore shop-copy.db"},
    Example{"layout", "layout job.json --svg drawings"},
};

Command* at(Command& program, const std::string& path) {
    Command* here = &program;
    std::istringstream words(path);
    for (std::string word; words >> word;) {
        Command* next = nullptr;
        for (Command& below : here->commands)
            if (below.name == word) next = &below;
        if (next == nullptr) throw base::broken("there is an example for no command: " + path);
        here = next;
    }
    return here;
}

} // namespace

void add_examples(Command& program) {
    for (const Example& example : examples)
        at(program, example.command)->example(std::string("barrow ") + example.line);
}

} // namespace barrow::cli
