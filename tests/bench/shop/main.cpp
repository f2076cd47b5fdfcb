// How long a maker waits for a costing: three designs, twelve journals each, from a shop of 500
// materials with their lots and offcuts. Prints seconds; the bar is 0.3 s for the three together.
//
//   bench_shop [materials]

#include "cli/run.hpp"

#include "store/scratch_folder.hpp"

#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <random>
#include <sstream>

namespace {

namespace fs = std::filesystem;

constexpr double bar_in_seconds = 0.3;

double processor_seconds() {
    timespec time{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_nsec) * 1e-9;
}

double clock_seconds() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

/// The program on a shop in a scratch folder, which goes when it does.
class Shop {
public:
    std::string run(const std::vector<std::string>& words, const std::string& input = {}) {
        std::ostringstream out;
        std::ostringstream err;
        std::istringstream in(input);
        barrow::cli::World world{
            out,
            err,
            in,
            {{"BARROW_SHOP", (folder_ / "shop.db").string()}, {"BARROW_TODAY", "2027-03-06"}},
            "2027-03-06T09:30:00Z"};
        if (barrow::cli::run(words, world) != 0) throw std::runtime_error(err.str());
        return out.str();
    }

private:
    barrow::test::ScratchFolder folder_;
};

const std::vector<std::string> designs = {"quayside", "fenlight", "pebble"};

/// Materials like those of the demo, each with two to four lots; invented, the same every time.
void fill(Shop& shop, int materials) {
    std::mt19937 random(500);
    std::ostringstream list;
    std::ostringstream receipts;
    list << "code,name,form,width,height,length,pack,pack_price,keep_from\n";
    receipts << "date,material,units,cost\n";
    for (int i = 0; i < materials; ++i) {
        const std::string code = fmt::format("FILL-{}", i);
        if (i % 4 < 2)
            list << code << ",Filling paper " << i << ",sheet,12in,12in,,6,5.40,8cm x 8cm\n";
        if (i % 4 == 2) list << code << ",Filling ribbon " << i << ",length,,,10m,1,3.20,25cm\n";
        if (i % 4 == 3) list << code << ",Filling button " << i << ",count,,,,50,6.00,\n";
        const unsigned lots = 2 + static_cast<unsigned>(random() % 3);
        for (unsigned lot = 0; lot < lots; ++lot)
            receipts << fmt::format("2027-{:02}-{:02},{},{},{}.{:02}\n", 1 + lot % 2,
                                    1 + random() % 28, code, 5 + random() % 40, 1 + random() % 9,
                                    random() % 100);
    }
    shop.run({"material", "import", "-"}, list.str());
    shop.run({"receive", "--from", "-"}, receipts.str());
}

/// Enough of everything the three designs take, and what a few batches leave in the box.
void stock_designs(Shop& shop) {
    const fs::path demo = fs::path(BARROW_SOURCE_DIR) / "demo-data";
    for (const char* what : {"supplier", "material"})
        shop.run({what, "import", (demo / (std::string(what) + "s.csv")).string()});
    for (int times = 0; times < 6; ++times)
        shop.run({"receive", "--from", (demo / "receipts.csv").string()});
    for (const std::string& design : designs)
        shop.run({"design", "bring", (demo / "designs" / (design + ".toml")).string()});
    for (const char* number : {"1", "2", "3"})
        for (const std::string& design : designs) shop.run({"make", design, "--make", number});
}

} // namespace

int main(int count, char** words) {
    const int materials = count > 1 ? std::atoi(words[1]) : 500;
    Shop shop;
    shop.run({"init", "--currency", "GBP", "--hourly-rate", "12.50", "--margin", "45%"});
    stock_designs(shop);
    fill(shop, materials - 16); // the demo has sixteen of its own
    double processor = 0;
    double waited = 0;
    fmt::print("{:<10} {:>10} {:>10}\n", "cost x 12", "processor", "waited");
    for (const std::string& design : designs) {
        const double began = processor_seconds();
        const double from = clock_seconds();
        shop.run({"cost", design, "--make", "12", "--json"});
        const double took = processor_seconds() - began;
        const double wait = clock_seconds() - from;
        fmt::print("{:<10} {:>8.3f} s {:>8.3f} s\n", design, took, wait);
        processor += took;
        waited += wait;
    }
    fmt::print("{:<10} {:>8.3f} s {:>8.3f} s   bar {} s: {}\n", "together", processor, waited,
               bar_in_seconds, processor < bar_in_seconds ? "kept" : "missed");
    return 0;
}
