#include "layout/lengths/completion.hpp"

#include "layout/lengths/bars.hpp"
#include "layout/model/bundles.hpp"

#include <algorithm>
#include <numeric>

namespace barrow::layout {
namespace {

constexpr std::size_t most_bits = std::size_t{1} << 25; // for the sums of all kinds
// Found by trial on published instances.
constexpr std::int64_t few_pieces = 22; // tried exhaustively at the end
constexpr std::int64_t most_nodes = 100;
constexpr std::int32_t passed_over = 200; // per mille
constexpr std::size_t most_listed = 60;

/// bits |= bits moved up by `by`.
void add_moved(std::vector<std::uint64_t>& bits, std::size_t by) {
    const std::size_t words = by / 64;
    const std::size_t rest = by % 64;
    for (std::size_t i = bits.size(); i-- > words;) {
        std::uint64_t moved = bits[i - words] << rest;
        if (rest > 0 && i > words) moved |= bits[i - words - 1] >> (64 - rest);
        bits[i] |= moved;
    }
}

} // namespace

Completion::Completion(const Instance& instance, Meter& meter)
    : instance_(instance), meter_(meter), length_(instance.sheets.front().width),
      kinds_(longest_first(instance)), words_(static_cast<std::size_t>(length_) / 64 + 1) {
    for (const std::size_t kind : kinds_) sizes_.push_back(instance.items[kind].width);
}

std::size_t Completion::longest() const {
    std::size_t kind = 0;
    while (kind < left_.size() && left_[kind] == 0) ++kind;
    return kind;
}

std::int64_t Completion::pieces_left() const {
    return std::accumulate(left_.begin(), left_.end(), std::int64_t{0});
}

void Completion::take(const Counts& content, std::int64_t sign) {
    for (std::size_t kind = 0; kind < content.size(); ++kind) {
        left_[kind] -= sign * content[kind];
        spare_ += sign * content[kind] * sizes_[kind];
    }
    spare_ -= sign * length_;
}

void Completion::find_sums(std::size_t from) {
    sums_.resize(kinds_.size() + 1);
    sums_.back().assign(words_, 0);
    sums_.back().front() = 1;
    std::int64_t moves = 0;
    for (std::size_t kind = kinds_.size(); kind-- > from;) {
        sums_[kind] = sums_[kind + 1];
        const std::int64_t most = std::min<std::int64_t>(left_[kind], length_ / sizes_[kind]);
        each_bundle(most, [&](std::int64_t copies) {
            add_moved(sums_[kind], static_cast<std::size_t>(copies * sizes_[kind]));
            ++moves;
        });
        ++moves;
    }
    meter_.spend(moves * (static_cast<std::int64_t>(words_) + 10));
}

/// Whether this kind and shorter ones can add up to a length between least and most.
bool Completion::within(std::size_t kind, Length least, Length most) const {
    const auto low = static_cast<std::size_t>(std::max(least, 0));
    const auto high = static_cast<std::size_t>(most);
    const std::vector<std::uint64_t>& bits = sums_[kind];
    for (std::size_t word = low / 64; word <= high / 64; ++word) {
        std::uint64_t found = bits[word];
        if (word == low / 64) found &= ~std::uint64_t{0} << (low % 64);
        if (word == high / 64) found &= ~std::uint64_t{0} >> (63 - high % 64);
        if (found != 0) return true;
    }
    return false;
}

/// Lists contents of this kind and shorter ones, long pieces first.
void Completion::list(std::size_t kind, Length least, Length most, std::size_t wanted) {
    meter_.spend(10);
    if (kind == kinds_.size()) {
        listed_.push_back(content_);
        return;
    }
    std::int64_t count = std::min<std::int64_t>(left_[kind] - content_[kind], most / sizes_[kind]);
    if (count > 0 && skipping_ > 0 && random_.chance(skipping_)) count = random_.below(count + 1);
    const std::int64_t begun = content_[kind];
    const std::int64_t first = count;
    const std::int64_t ways = std::min<std::int64_t>(left_[kind] - begun, most / sizes_[kind]) + 1;
    for (std::int64_t way = 0; way < ways && listed_.size() < wanted; ++way) {
        // First the drawn count and those below it, then those above.
        const std::int64_t now = way <= first ? first - way : way;
        const auto used = static_cast<Length>(now * sizes_[kind]);
        if (!within(kind + 1, least - used, most - used)) continue;
        content_[kind] = begun + now;
        list(kind + 1, least - used, most - used, wanted);
    }
    content_[kind] = begun;
}

/// Tries all ways to fill the remaining bars, until the nodes are spent.
bool Completion::try_all(std::int64_t bars) {
    const std::size_t first = longest();
    if (first == kinds_.size()) return true;
    if (bars == 0 || spare_ < 0 || --nodes_ < 0) return false;
    find_sums(first);
    content_.assign(kinds_.size(), 0);
    content_[first] = 1;
    listed_.clear();
    const Length room = length_ - sizes_[first];
    const auto bare = static_cast<Length>(std::min<std::int64_t>(spare_, room));
    if (within(first, room - bare, room)) list(first, room - bare, room, most_listed);
    const std::vector<Counts> contents = std::move(listed_);
    listed_.clear();
    for (const Counts& content : contents) {
        take(content, 1);
        bars_.push_back(content);
        if (try_all(bars - 1)) return true;
        bars_.pop_back();
        take(content, -1);
        if (nodes_ < 0 || meter_.steps() >= end_) return false;
    }
    return false;
}

/// Fills one bar, wasting no more than its share of the spare length if possible.
bool Completion::choose(std::int64_t bars) {
    const std::size_t first = longest();
    if (first == kinds_.size()) return true;
    if (bars == 0 || spare_ < 0) return false;
    find_sums(first);
    content_.assign(kinds_.size(), 0);
    content_[first] = 1;
    listed_.clear();
    const Length room = length_ - sizes_[first];
    for (std::int64_t bare = spare_ / bars;; bare = std::min(2 * bare + 1, spare_)) {
        const auto least = static_cast<Length>(std::max<std::int64_t>(0, room - bare));
        if (within(first, least, room)) list(first, least, room, 1);
        if (!listed_.empty()) break;
        if (bare == spare_) return false;
    }
    take(listed_.front(), 1);
    bars_.push_back(listed_.front());
    return true;
}

bool Completion::fill_from(std::int64_t bars) {
    skipping_ = passed_over;
    while (pieces_left() > few_pieces) {
        if (meter_.steps() >= end_ || !choose(bars)) return false;
        --bars;
    }
    skipping_ = 0;
    nodes_ = most_nodes;
    return try_all(bars);
}

Solution Completion::solution() const {
    std::vector<BarContent> contents;
    for (const Counts& bar : bars_) {
        contents.emplace_back();
        for (std::size_t kind = 0; kind < bar.size(); ++kind)
            if (bar[kind] > 0) contents.back().emplace_back(kinds_[kind], bar[kind]);
    }
    return answer_of_bars(instance_, contents);
}

/// False when it is impossible.
bool Completion::start(std::int64_t bars) {
    if (words_ * 64 * (kinds_.size() + 1) > most_bits) return false;
    left_.clear();
    spare_ = bars * length_;
    for (std::size_t kind = 0; kind < kinds_.size(); ++kind) {
        left_.push_back(instance_.items[kinds_[kind]].demand);
        spare_ -= left_.back() * sizes_[kind];
    }
    bars_.clear();
    return spare_ >= 0;
}

std::optional<Solution> Completion::run(std::int64_t bars, std::int64_t steps) {
    if (bars > instance_.sheets.front().copies) return {};
    end_ = meter_.steps() + steps;
    while (!meter_.over() && meter_.steps() < end_) {
        if (!start(bars)) return {};
        if (fill_from(bars)) return solution();
    }
    return {};
}

} // namespace barrow::layout
