#include "print/making/cost.hpp"

#include "print/making/cautions.hpp"
#include "print/making/cut_steps.hpp"
#include "print/making/papers.hpp"
#include "print/making/plan_drawing.hpp"
#include "print/making/warnings.hpp"
#include "print/text/words.hpp"
#include "print/write/terminal.hpp"
#include "workshop/shared/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace barrow::print {

using base::Form;
using costing::CutPlan;
using costing::CutWant;
using costing::SheetUse;
using costing::Source;

namespace {

class BenchSheet {
public:
    BenchSheet(const workshop::Costing& costing, const CutPlan& plan)
        : costing_(costing), plan_(plan), material_(*plan.material), unit_(costing.settings.unit) {}

    void add_to(Blocks& blocks) const {
        blocks.add(Heading{fmt::format("{}  {}{}", material_.code, material_.name,
                                       plan_.from_box ? ": fillers from the offcut box" : "")});
        const auto& plans = plan_.outcome.plans;
        for (std::size_t first = 0, end = 0; first < plans.size(); first = end) {
            while (end < plans.size() && alike(plans[first], plans[end])) ++end;
            add_like_plans(blocks, first, end);
        }
    }

private:
    std::string source_text(const SheetUse& sheet) const {
        const std::string word = workshop::unit_word(material_.form, false);
        switch (sheet.source.kind) {
        case Source::Kind::lot: return "new " + word;
        case Source::Kind::to_buy: return word + " still to be bought";
        case Source::Kind::offcut: break;
        }
        for (const costing::ShelfOffcut& offcut : material_.offcuts)
            if (offcut.id == sheet.source.id) return "offcut " + offcut.code;
        return "offcut";
    }

    /// Sheets of one size that are cut in one way, whatever box or pile they come from.
    bool alike(const layout::Plan& a, const layout::Plan& b) const {
        const layout::Stock& one = plan_.job.stock[a.stock];
        const layout::Stock& other = plan_.job.stock[b.stock];
        const auto same_cuts = [](const layout::Cut& x, const layout::Cut& y) {
            return x.axis == y.axis && x.at == y.at && x.from == y.from && x.to == y.to;
        };
        const auto same_pieces = [](const layout::Placed& x, const layout::Placed& y) {
            return x.piece == y.piece && x.place == y.place;
        };
        return one.width == other.width && one.height == other.height
               && one.margin.bottom == other.margin.bottom && one.margin.left == other.margin.left
               && std::equal(a.cuts.begin(), a.cuts.end(), b.cuts.begin(), b.cuts.end(), same_cuts)
               && std::equal(a.pieces.begin(), a.pieces.end(), b.pieces.begin(), b.pieces.end(),
                             same_pieces)
               && a.offcuts == b.offcuts;
    }

    /// "2 x new sheet, offcut K7M-4": what these plans are cut from.
    std::string sources(std::size_t first, std::size_t end) const {
        std::map<std::string, int> counted;
        std::vector<std::string> order;
        for (const SheetUse& sheet : plan_.sheets) {
            if (sheet.plan < first || sheet.plan >= end) continue;
            const std::string name = source_text(sheet);
            if (counted[name]++ == 0) order.push_back(name);
        }
        std::string text;
        for (const std::string& name : order) {
            text += text.empty() ? "" : ", ";
            text += counted[name] > 1 ? fmt::format("{} x {}", counted[name], name) : name;
        }
        return text;
    }

    std::string part_name(const CutWant& want) const {
        std::string name = costing::part_name(costing_.runs[want.origin.run], want.origin.part);
        if (costing_.runs.size() > 1) name += " of " + costing_.runs[want.origin.run].design.code;
        if (want.joined_from > 1)
            name += fmt::format(" ({} of {})", want.joint + 1, want.joined_from);
        return name;
    }

    /// Plans `first` to before `end`, which are alike.
    void add_like_plans(Blocks& blocks, std::size_t first, std::size_t end) const {
        const layout::Plan& plan = plan_.outcome.plans[first];
        const layout::Stock& stock = plan_.job.stock[plan.stock];
        std::int64_t copies = 0;
        for (std::size_t p = first; p < end; ++p) copies += plan_.outcome.plans[p].copies;
        const std::string name =
            end - first > 1 ? letter(first) + " to " + letter(end - 1) : letter(first);
        blocks.add(Text{fmt::format("{}: {}, {}{}", name, sources(first, end),
                                    size_text(material_.form, {stock.width, stock.height}, unit_),
                                    copies > 1 ? fmt::format("; cut {} alike", copies) : ""),
                        3},
                   2);
        blocks.under(cut_steps(material_.form, plan, stock, unit_), 4);
        blocks.under(Text{"gives " + gives(plan), 6}, 4);
        if (!plan.offcuts.empty())
            blocks.under(Text{"keep  " + kept_sizes(material_.form, plan, unit_), 6}, 4);
        blocks.under(drawn(plan, name, blocks.list.size()));
    }

    /// `number` is another for each drawing of the answer.
    Drawing drawn(const layout::Plan& plan, const std::string& name, std::size_t number) const {
        DrawingWords words;
        words.title = fmt::format("{} {}: {}", material_.code, material_.name, name);
        for (const CutWant& want : plan_.wants) words.pieces.push_back(part_name(want));
        words.measure = drawn_measure(material_.form, unit_);
        words.id = fmt::format("-{}", number);
        return {drawing(plan_.job, plan, words)};
    }

    static std::string letter(std::size_t p) {
        std::string name(1, static_cast<char>('A' + p % 26));
        if (p >= 26) name += std::to_string(p / 26);
        return name;
    }

    std::string gives(const layout::Plan& plan) const {
        std::map<std::size_t, int> counts;
        for (const layout::Placed& placed : plan.pieces) ++counts[placed.piece];
        std::string text;
        for (const auto& [piece, count] : counts) {
            const CutWant& want = plan_.wants[piece];
            if (!text.empty()) text += "; ";
            text += fmt::format("{} {}", count, part_name(want));
            if (material_.form == Form::sheet)
                text += " " + size_text(Form::sheet, want.size, unit_);
        }
        return text;
    }

    const workshop::Costing& costing_;
    const CutPlan& plan_;
    const costing::ShelfMaterial& material_;
    base::Unit unit_;
};

std::string proof_text(const CutPlan& plan) {
    if (plan.from_box)
        return "The small and old offcuts go first; each gives fillers worth more than it costs.";
    if (plan.outcome.status == layout::Status::optimal)
        return "No plan with less stock exists; this is proven.";
    return "A plan with a little less stock may exist; none was found.";
}

} // namespace

Blocks bench_blocks(const workshop::Costing& costing) {
    Blocks blocks("Cut plan");
    for (std::size_t run = 0; run < costing.runs.size(); ++run) {
        const Table papers = papers_table(costing, run);
        if (papers.empty()) continue;
        blocks.add(Heading{"Papers of each journal: " + costing.runs[run].design.name});
        blocks.add(papers);
    }
    for (const CutPlan& plan : costing.estimate.cuts) {
        BenchSheet(costing, plan).add_to(blocks);
        blocks.under(Text{proof_text(plan)}, 2);
    }
    const bool nothing = blocks.list.empty();
    if (nothing) blocks.add(Text{"There is nothing to cut."});
    if (nothing) {
        for (const design::Warning& warning : costing.warnings) blocks.under(warning_text(warning));
        return blocks;
    }
    add_warnings(blocks, costing.warnings);
    add_how_to_read(blocks);
    blocks.add(cautions(costing.hazards));
    return blocks;
}

std::string bench_sheet(const workshop::Costing& costing) {
    return terminal(bench_blocks(costing));
}

} // namespace barrow::print
