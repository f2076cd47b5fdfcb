#include "base/error.hpp"
#include "costing/price/estimate.hpp"

#include "costing/stock.hpp"
#include "support_csv.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

using namespace barrow::costing;
using namespace barrow::test;
using barrow::base::Error;
using barrow::base::Rational;
using barrow::base::read_money;
using barrow::design::Take;
namespace design = barrow::design;

namespace {

const barrow::base::Currency dollars{"USD", 2};

/// A shelf of every form and a design over it, of random sizes and numbers.
struct RandomJob {
    std::vector<ShelfMaterial> shelf;
    std::vector<Run> runs;
};

class JobMaker {
public:
    explicit JobMaker(std::uint64_t seed) : random_(seed) {}

    RandomJob make() {
        RandomJob job;
        job.shelf = {paper("A"),
                     paper("B"),
                     rolls("RIB", Length::mm(5000), lots(4)),
                     strips("WIRE", 23, lots(9)),
                     counted("BEAD", lots(60)),
                     poured("GLUE", lots(90'000))};
        for (ShelfMaterial& material : job.shelf)
            if (below(3) > 0) material.unit_price = Rational::of(below(500), 1 + below(12));
        for (std::int64_t r = 0; r <= below(2); ++r) job.runs.push_back(run());
        return job;
    }

private:
    std::int64_t below(std::uint64_t limit) { return static_cast<std::int64_t>(random_() % limit); }

    std::vector<Bought> lots(std::uint64_t most) {
        std::vector<Bought> bought;
        for (std::int64_t i = 0; i < below(4); ++i)
            bought.push_back({1 + below(most), below(4) == 0 ? 0 : below(2000)});
        return bought;
    }

    ShelfMaterial paper(const std::string& code) {
        ShelfMaterial made = sheets(code, Length::mm(300 + below(20)), Length::mm(300), lots(8));
        made.turn = static_cast<design::Turn>(below(3));
        made.least_useful = {Length::mm(60).units(), Length::mm(100).units()};
        if (below(2) == 0) made.kerf = Length::mm(1);
        for (std::int64_t i = 0; i < below(5); ++i)
            made.offcuts.push_back(
                {i + 1,
                 "X",
                 {Length::mm(60 + below(200)).units(), Length::mm(100 + below(200)).units()},
                 pence(below(60)),
                 below(400),
                 1});
        return made;
    }

    Run run() {
        std::vector<design::WorkedPart> parts;
        for (std::int64_t i = 0; i <= below(4); ++i)
            parts.push_back(piece("piece " + std::to_string(i), below(2) == 0 ? "A" : "B",
                                  Length::mm(20 + below(270)), Length::mm(20 + below(270)),
                                  1 + below(3)));
        auto tie = part("tie", "RIB", Take::length);
        tie.length = Length::mm(100 + below(900));
        auto wire = part("wire", "WIRE", Take::loops);
        wire.loops = 3 + below(18);
        auto glue = part("glue", "GLUE", Take::spread);
        glue.amount = Rational::of(1 + below(9000), 1000);
        parts.insert(parts.end(),
                     {tie, wire, glue, part("beads", "BEAD", Take::count, below(5) + 1)});
        return run_of(parts, 1 + below(7));
    }

    std::mt19937_64 random_;
};

} // namespace

TEST_CASE("the published job cost sheet comes out at 931", "[estimate]") {
    // OpenStax, Principles of Accounting Vol. 2, ch. 4.2-4.5: materials 700; labour 15 + 15 + 2 x
    // 18 = 66, here as four hours at 16.50; overheads 2.50 for each labour dollar = 165.
    std::vector<ShelfMaterial> shelf;
    std::vector<design::WorkedPart> parts;
    for (const auto& row : rows_of("costing/job_cost_openstax.csv")) {
        const std::int64_t quantity = std::stoll(row[1]);
        const Money unit = read_money(row[2], dollars, "");
        shelf.push_back(counted(row[0], {{quantity * 2, unit.minor() * quantity * 2}}));
        parts.push_back(part(row[0], row[0], Take::count, quantity));
    }
    Run job = run_of(parts, 1);
    job.design.minutes_per_journal = Rational(4 * 60);
    const Rates rates{pence(1650), Rational::of(250, 100), Rates::Base::labour};
    const Estimate estimate = barrow::costing::estimate({job}, shelf, rates, quick());
    const auto rows = rows_of("costing/job_cost_openstax.csv");
    for (std::size_t i = 0; i < rows.size(); ++i)
        CHECK(to_text(estimate.lines[i].cost, dollars) == rows[i][3]);
    const RunTotals& totals = estimate.runs.at(0);
    CHECK(to_text(totals.materials, dollars) == "700.00");
    CHECK(to_text(totals.labour, dollars) == "66.00");
    CHECK(to_text(totals.overheads, dollars) == "165.00");
    CHECK(to_text(totals.total, dollars) == "931.00");
    CHECK(totals.unit_cost == totals.total);
    CHECK(estimate.shortages.empty());
}

TEST_CASE("overheads may be a share of labour alone or of materials too", "[estimate]") {
    Run run = run_of({part("beads", "BEAD", Take::count, 10)}, 4);
    run.design.minutes_per_journal = Rational(10);
    run.design.minutes_per_batch = Rational(20);
    const std::vector<ShelfMaterial> shelf = {counted("BEAD", {{40, 400}})};
    Rates rates{pence(1200), Rational::of(15, 100), Rates::Base::labour};
    // By hand: 4 x 10 + 20 = 60 minutes at 12.00; 15 % of 12.00 is 1.80, of 16.00 it is 2.40.
    const auto totals = [&] {
        return barrow::costing::estimate({run}, shelf, rates, quick()).runs[0];
    };
    CHECK(totals().minutes == Rational(60));
    CHECK(totals().labour == pence(1200));
    CHECK(totals().overheads == pence(180));
    rates.overheads_on = Rates::Base::materials_and_labour;
    CHECK(totals().overheads == pence(240));
    CHECK(totals().total == pence(1840));
    CHECK(totals().unit_cost == pence(460));
}

TEST_CASE("the lines of random jobs add up to what sheets, offcuts and lots give", "[estimate]") {
    int with_offcuts = 0;
    int with_shortages = 0;
    for (std::uint64_t seed = 1; seed <= 120; ++seed) {
        const RandomJob job = JobMaker(seed).make();
        const Estimate estimate = estimated(job.runs, job.shelf);
        CAPTURE(seed);
        REQUIRE(sum_of_lines(estimate) == taken_in_all(estimate));
        Money of_runs;
        for (const RunTotals& totals : estimate.runs) of_runs += totals.materials;
        REQUIRE(of_runs == taken_in_all(estimate));
        for (const Line& line : estimate.lines) {
            REQUIRE(line.cost == line.cost_new + line.cost_offcuts);
            REQUIRE(line.cost.minor() >= 0);
            if (!line.cost_offcuts.is_zero()) ++with_offcuts;
        }
        REQUIRE(std::is_sorted(estimate.lines.begin(), estimate.lines.end(),
                               [](const Line& a, const Line& b) { return a.origin < b.origin; }));
        if (!estimate.shortages.empty()) ++with_shortages;
    }
    CHECK(with_offcuts > 10);
    CHECK(with_shortages > 10);
}

TEST_CASE("an estimate only reads the shelf", "[estimate]") {
    const RandomJob job = JobMaker(3).make();
    std::vector<std::int64_t> before;
    for (const ShelfMaterial& material : job.shelf)
        for (const ShelfLot& lot : material.lots)
            before.push_back(lot.quantity + lot.value.minor());
    estimated(job.runs, job.shelf);
    std::vector<std::int64_t> after;
    for (const ShelfMaterial& material : job.shelf)
        for (const ShelfLot& lot : material.lots) after.push_back(lot.quantity + lot.value.minor());
    CHECK(before == after);
}

TEST_CASE("the offcuts of one batch make the next one cheaper, at their fair value", "[estimate]") {
    // By hand: covers of 300 x 200 from sheets of 300 x 300 for 0.90. Each leaves 300 x 100, a
    // third of the sheet: 0.30 to the box, 0.60 to the cover. Bands of 300 x 50 then take two of
    // each remnant: four bands cost 0.60 from two remnants, and 0.90 from a fresh sheet without.
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {{10, 900}});
    paper.turn = design::Turn::none;
    paper.least_useful = {Length::mm(60).units(), Length::mm(100).units()};
    const Estimate first =
        estimated({run_of({piece("cover", "P", Length::mm(300), Length::mm(200))}, 2)}, {paper});
    CHECK(sum_of_lines(first) == pence(120));
    const std::vector<Run> bands = {
        run_of({piece("band", "P", Length::mm(300), Length::mm(50), 2)}, 2)};
    // Four bands of a fresh sheet leave 300 x 100, worth 0.30: the bands cost 0.60.
    const Estimate without = estimated(bands, {paper});
    CHECK(sum_of_lines(without) == pence(60));
    ShelfMaterial after = paper;
    after.lots[0].quantity -= 2 * static_cast<std::int64_t>(paper.fresh.measure());
    after.lots[0].value = pence(720);
    std::int64_t id = 0;
    for (const SheetUse& sheet : first.cuts[0].sheets)
        for (const Kept& kept : sheet.kept)
            after.offcuts.push_back(
                {++id, "X", {kept.place.width, kept.place.height}, pence(20), 0, sheet.source.id});
    // With the remnants at 0.20 (a shop that lets them carry less), the bands cost 0.40.
    REQUIRE(after.offcuts.size() == 2);
    const Estimate second = estimated(bands, {after});
    CHECK(sum_of_lines(second) == pence(40));
    CHECK(second.lines[0].cost_offcuts == pence(40));
    CHECK(second.lines[0].cost_new.is_zero());
    CHECK(second.cuts[0].takes.empty());
}

TEST_CASE("what is short is named, counted and priced at what it costs to buy", "[estimate]") {
    ShelfMaterial beads = counted("BEAD", {{6, 60}});
    beads.unit_price = Rational::of(720, 40); // a pack of forty for 7.20
    const ShelfMaterial glue = poured("GLUE", {{1000, 100}});
    auto spread = part("glue", "GLUE", Take::spread);
    spread.amount = Rational::of(6, 10);
    const Estimate estimate =
        estimated({run_of({part("beads", "BEAD", Take::count, 4), spread}, 3)}, {beads, glue});
    REQUIRE(estimate.shortages.size() == 2);
    CHECK(estimate.shortages[0].material == "BEAD");
    CHECK(estimate.shortages[0].units == 6);
    CHECK(estimate.shortages[0].cost == pence(108));
    CHECK(estimate.lines[0].cost == pence(60 + 108));
    CHECK(estimate.shortages[1].units == 800); // thousandths: 1.8 ml wanted, 1 ml there
    CHECK_FALSE(estimate.shortages[1].cost.has_value());
    CHECK(estimate.lines[1].cost == pence(100));
}

TEST_CASE("runs that share a material share its sheets", "[estimate]") {
    // Apart, each run would start a sheet of its own; together one sheet holds both.
    ShelfMaterial paper = sheets("P", Length::mm(300), Length::mm(300), {{5, 500}});
    const Run half = run_of({piece("half", "P", Length::mm(300), Length::mm(150))}, 1);
    const Estimate estimate = estimated({half, half}, {paper});
    CHECK(estimate.cuts[0].sheets.size() == 1);
    CHECK(estimate.runs[0].materials == pence(50));
    CHECK(estimate.runs[1].materials == pence(50));
}

TEST_CASE("a run of no journals is refused", "[estimate]") {
    CHECK_THROWS_AS(estimated({run_of({part("b", "BEAD", Take::count)}, 0)}, {counted("BEAD", {})}),
                    Error);
}
