#include "cli/topics.hpp"

#include <algorithm>

namespace barrow::cli {
namespace {

constexpr const char* cost_order =
    R"page(Cost order: what a thing costs when you use it

You bought the same paper twice, at two prices. When you cut a sheet, which price
counts? The shop's cost order decides:

  first-in-first-out   the oldest sheets go first, at what they cost
  moving-average       sheets go from the oldest lot, at the average of what is left
  pick-the-lot         you name the lot (--lot FERN-12=17); else the oldest

A lot is what came in one receipt. Freight and tax are part of its cost.

Set it with:    barrow settings cost-order moving-average
See the lots:   barrow lots SM-TIDE

A new cost order holds from then on. What was used before keeps its cost. When you
leave the moving average, what is on the shelf keeps its average cost.
)page";

constexpr const char* offcut_value = R"page(Offcut value: what a remnant is worth

A sheet's cost is shared by area. An offcut large enough to keep takes its share
into the box. The pieces you cut bear the rest, which includes the waste.

A sheet of 300 x 200 mm cost 0.80. You cut 150 x 200 mm of pieces, and keep a
remnant of 100 x 200 mm. The remnant takes a third, 0.27. The pieces bear 0.53.

A journal made later from that offcut costs what the offcut is worth. So offcuts
make journals cheaper, but never free.

The smallest remnant worth keeping:   barrow material change SM-TIDE --keep-from "80mm x 150mm"
Offcuts that carry less than a share: barrow settings offcut-share 50%
What is in the box, and its worth:    barrow offcut list
)page";

constexpr const char* margin =
    R"page(Margin and markup: profit as a share of the price, or of the cost

  margin = profit / price        markup = profit / cost

A journal costs 20.00 and sells for 30.00. The profit is 10.00: a margin of 33.3 %,
and a markup of 50 %. They are easily confused, so the program shows both.

You set the margin you want:    barrow settings margin 45%
The price is the cost divided by (1 - margin), rounded up to your price step:
                                barrow settings price-step 0.50

The cost of a journal is its materials, your time at your hourly rate, and the
overheads, a percentage added to both.
)page";

constexpr const char* joins = R"page(Joins: one panel made of two pieces

A cover may be longer than any sheet you have. Then it is made of two pieces, and one
reaches under the other. The design says where the join may be, and how far it reaches:

  join = "folds"        at a fold, where it shows least
  join = "anywhere"     anywhere; least_piece says how narrow a piece may be
  join = "none"         nowhere
  overlap = "8 mm"      how far one piece reaches under the next
  no_join_on = "front"  panels on which no join may show

The program joins a panel only if no sheet or offcut holds it in one piece, or if
joining is cheaper. The cut plan names the two pieces: "outside paper (1 of 2)".

See what a design allows:   barrow design show quayside
See how it is cut:          barrow plan quayside --make 4
)page";

constexpr const char* units = R"page(Units: how lengths and amounts are written

Lengths, with their unit:
  16.5cm   165 mm   3m   6 1/2in   6.5"   5ft 6in   2 1/4 yd

Sizes of two sides:         120mmx80mm   "8in x 8in"
Glue and ink:               250 ml   40g
Money:                      12.40, in the currency of the shop
Shares:                     45%

Put quotes around anything with a space or a " in it.

Lengths are kept exactly: 0.01 mm and 1/64 in are both whole. They are shown in the
unit of the shop:           barrow settings unit in
In --json documents, lengths are numbers in mm and money is text ("12.40").
)page";

constexpr const char* dates = R"page(Dates: which day an entry has

A day is written 2027-05-01: year, month, day.

An entry has today's date. If something happened earlier, give the day:
  barrow receive SM-TIDE --packs 2 --price 5.40 --date 2027-03-01
  barrow journal sell 1-01 --price 40.50 --date 2027-03-01
What is sold with `barrow fair sell` is booked on the day of the fair.

What came earlier is used first, even if you entered it late.

To try things out, set BARROW_TODAY=2027-03-06 in the environment: every command
then takes that day for today, and a command that writes says so.
)page";

} // namespace

const std::vector<Topic>& topics() {
    static const std::vector<Topic> all = {
        {"cost-order", "What a thing costs when you use it", cost_order},
        {"offcut-value", "What a remnant is worth", offcut_value},
        {"margin-and-markup", "Profit as a share of the price, or of the cost", margin},
        {"joins", "One panel made of two pieces", joins},
        {"units", "How lengths and amounts are written", units},
        {"dates", "Which day an entry has", dates}};
    return all;
}

const Topic* find_topic(const std::string& name) {
    std::string wanted = name;
    std::replace(wanted.begin(), wanted.end(), ' ', '-');
    const Topic* found = nullptr;
    for (const Topic& topic : topics()) {
        if (topic.name == wanted) return &topic;
        if (wanted.empty() || topic.name.rfind(wanted, 0) != 0) continue;
        if (found != nullptr) return nullptr;
        found = &topic;
    }
    return found;
}

} // namespace barrow::cli
