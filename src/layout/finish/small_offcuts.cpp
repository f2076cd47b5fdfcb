#include "layout/finish/small_offcuts.hpp"

#include "base/wide.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace barrow::layout {
namespace {

/// Aims in their order, less is better in each: misfit, cost, area, age, place in the list.
struct Price {
    std::array<base::Wide, 5> aims{};

    bool operator<(const Price& other) const { return aims < other.aims; }
    Price& operator+=(const Price& other) {
        for (std::size_t i = 0; i < aims.size(); ++i) aims[i] += other.aims[i];
        return *this;
    }
    Price& operator-=(const Price& other) {
        for (std::size_t i = 0; i < aims.size(); ++i) aims[i] -= other.aims[i];
        return *this;
    }
};

constexpr Price endless{{INT64_MAX / 4, 0, 0, 0, 0}};
constexpr std::int64_t eldest = 1'000'000'000'000; // sums of ages stay within 64 bits
constexpr std::int64_t most_copies = 1000;         // of a pattern that is reassigned
constexpr double most_steps = 5e7;                 // for the assignment of one group

/// Assigns a column to each row at the least sum; needs at least as many columns as rows. Rows are
/// added one by one, each along the cheapest path of changes to earlier choices.
class Assignment {
public:
    Assignment(std::size_t rows, std::size_t columns)
        : columns_(columns), prices_(rows * columns), row_rent_(rows + 1),
          column_rent_(columns + 1), row_of_(columns + 1, 0) {}

    Price& at(std::size_t row, std::size_t column) { return prices_[row * columns_ + column]; }

    /// The column of each row.
    std::vector<std::size_t> run() {
        const std::size_t rows = row_rent_.size() - 1;
        for (std::size_t row = 1; row <= rows; ++row) bring_in(row);
        std::vector<std::size_t> answer(rows, 0);
        for (std::size_t column = 1; column <= columns_; ++column)
            if (row_of_[column] > 0) answer[row_of_[column] - 1] = column - 1;
        return answer;
    }

private:
    /// Rows and columns count from 1; column 0 belongs to the row not assigned yet.
    void bring_in(std::size_t row) {
        std::vector<Price> least(columns_ + 1, endless);
        std::vector<std::size_t> way(columns_ + 1, 0);
        std::vector<bool> done(columns_ + 1, false);
        row_of_[0] = row;
        std::size_t here = 0;
        do {
            done[here] = true;
            here = step(here, least, way, done);
        } while (row_of_[here] != 0);
        for (; here != 0; here = way[here]) row_of_[here] = row_of_[way[here]];
    }

    /// Expands a reached column, updates the prices, and returns the next column to reach.
    std::size_t step(std::size_t here, std::vector<Price>& least, std::vector<std::size_t>& way,
                     const std::vector<bool>& done) {
        const std::size_t row = row_of_[here];
        std::size_t next = 0;
        Price delta = endless;
        for (std::size_t column = 1; column <= columns_; ++column) {
            if (done[column]) continue;
            Price price = at(row - 1, column - 1);
            price -= row_rent_[row];
            price -= column_rent_[column];
            if (price < least[column]) {
                least[column] = price;
                way[column] = here;
            }
            if (least[column] < delta) {
                delta = least[column];
                next = column;
            }
        }
        for (std::size_t column = 0; column <= columns_; ++column) {
            if (done[column]) {
                row_rent_[row_of_[column]] += delta;
                column_rent_[column] -= delta;
            } else {
                least[column] -= delta;
            }
        }
        return next;
    }

    std::size_t columns_;
    std::vector<Price> prices_;
    std::vector<Price> row_rent_;
    std::vector<Price> column_rent_;
    std::vector<std::size_t> row_of_; ///< of each column, 0: none
};

class Exchange {
public:
    Exchange(const Instance& instance, std::vector<Pattern>& patterns, Ties ties, Meter& meter)
        : instance_(instance), patterns_(patterns), ties_(ties), meter_(meter) {
        for (const Sheet& sheet : instance.sheets) free_.push_back(sheet.offcut ? sheet.copies : 0);
        std::vector<Pattern> apart;
        for (Pattern& pattern : patterns) {
            if (!instance.sheets[pattern.sheet].offcut || pattern.copies > most_copies) {
                free_[pattern.sheet] -= instance.sheets[pattern.sheet].offcut ? pattern.copies : 0;
                apart.push_back(std::move(pattern));
                continue;
            }
            free_[pattern.sheet] -= pattern.copies;
            for (std::int64_t n = 0; n < pattern.copies; ++n) {
                rows_.push_back(apart.size());
                apart.push_back({pattern.sheet, 1, pattern.block});
            }
        }
        patterns = std::move(apart);
    }

    Cost run() {
        if (rows_.empty()) return 0;
        const auto wanted = static_cast<std::int64_t>(rows_.size());
        std::int64_t columns = 0;
        for (std::size_t s = 0; s < free_.size(); ++s)
            if (instance_.sheets[s].offcut) columns += std::min(instance_.sheets[s].copies, wanted);
        const auto group = static_cast<std::size_t>(
            std::max(1.0, std::sqrt(most_steps / static_cast<double>(columns))));
        Cost saved = 0;
        for (std::size_t from = 0; from < rows_.size(); from += group)
            saved += deal(from, std::min(rows_.size(), from + group));
        return saved;
    }

private:
    Price price(const Block& block, std::size_t index) const {
        const Sheet& sheet = instance_.sheets[index];
        const bool fits = block.width <= sheet.width && block.height <= sheet.height;
        const std::size_t place = ties_ == Ties::as_listed ? sheet.sources.front().index : index;
        return {{fits ? 0 : 1, sheet.cost, sheet.true_area, -std::clamp(sheet.age, -eldest, eldest),
                 static_cast<std::int64_t>(place)}};
    }

    Cost deal(std::size_t from, std::size_t to) {
        Cost saved = 0;
        for (std::size_t row = from; row < to; ++row) {
            const std::size_t sheet = patterns_[rows_[row]].sheet;
            ++free_[sheet];
            saved += instance_.sheets[sheet].cost;
        }
        std::vector<std::size_t> offered;
        for (std::size_t s = 0; s < free_.size(); ++s)
            offered.insert(offered.end(), std::min(static_cast<std::size_t>(free_[s]), to - from),
                           s);
        const auto rows = static_cast<std::int64_t>(to - from);
        meter_.spend(4 * rows * rows * static_cast<std::int64_t>(offered.size()));
        Assignment assignment(to - from, offered.size());
        for (std::size_t row = from; row < to; ++row)
            for (std::size_t column = 0; column < offered.size(); ++column)
                assignment.at(row - from, column) =
                    price(patterns_[rows_[row]].block, offered[column]);
        const std::vector<std::size_t> dealt = assignment.run();
        for (std::size_t row = from; row < to; ++row) {
            const std::size_t sheet = offered[dealt[row - from]];
            patterns_[rows_[row]].sheet = sheet;
            --free_[sheet];
            saved -= instance_.sheets[sheet].cost;
        }
        return saved;
    }

    const Instance& instance_;
    std::vector<Pattern>& patterns_;
    Ties ties_;
    Meter& meter_;
    std::vector<std::size_t> rows_;  ///< patterns on offcuts
    std::vector<std::int64_t> free_; ///< copies of each offcut not used
};

} // namespace

Cost prefer_small_offcuts(const Instance& instance, std::vector<Pattern>& patterns, Ties ties,
                          Meter& meter) {
    return Exchange(instance, patterns, ties, meter).run();
}

} // namespace barrow::layout
