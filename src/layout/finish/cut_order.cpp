#include "layout/finish/cut_order.hpp"

#include <map>

namespace barrow::layout {
namespace {

Measure low(const Rectangle& r, Along axis) {
    return axis == Along::x ? r.x : r.y;
}
Measure size(const Rectangle& r, Along axis) {
    return axis == Along::x ? r.width : r.height;
}

/// A divided part ready to be cut, and how many of its children are already cut off.
struct Ready {
    const Part* part = nullptr;
    std::size_t done = 0;

    Measure stop() const { return size(part->parts[done].place, part->axis); }
    Measure length() const { return size(part->place, other(part->axis)); }
};

class Bench {
public:
    explicit Bench(const Job& job) : job_(job) {}

    std::vector<Cut> run(const Part& sheet) {
        lay_ready(sheet);
        while (!ready_.empty()) make(choose());
        return std::move(cuts_);
    }

private:
    void lay_ready(const Part& part) {
        if (part.parts.empty()) return;
        ready_.push_back({&part, 0});
        ++wanted_[ready_.back().stop()];
    }

    bool before(const Ready& a, const Ready& b) const {
        const bool a_set = a.stop() == stop_;
        const bool b_set = b.stop() == stop_;
        if (a_set != b_set) return a_set;
        if (a.length() != b.length()) return a.length() > b.length();
        const auto a_shared = wanted_.at(a.stop());
        const auto b_shared = wanted_.at(b.stop());
        if (a_shared != b_shared) return a_shared > b_shared;
        return false; // the one that was ready first
    }

    std::size_t choose() const {
        std::size_t best = 0;
        for (std::size_t i = 1; i < ready_.size(); ++i)
            if (before(ready_[i], ready_[best])) best = i;
        return best;
    }

    void make(std::size_t index) {
        const Part& part = *ready_[index].part;
        const std::size_t number = ready_[index].done;
        stop_ = ready_[index].stop();
        const Part& cut_off = part.parts[number];
        const Along cross = other(part.axis);
        Cut cut;
        cut.axis = part.axis == Along::x ? Cut::Axis::x : Cut::Axis::y;
        cut.at = low(cut_off.place, part.axis) + stop_;
        cut.from = low(part.place, cross);
        cut.to = cut.from + size(part.place, cross);
        cut.stop = stop_;
        cut.beyond_trimmer = job_.trimmer && cut.to - cut.from > *job_.trimmer;
        cuts_.push_back(cut);
        --wanted_[stop_];
        if (number + 2 == part.parts.size()) {
            ready_.erase(ready_.begin() + static_cast<std::ptrdiff_t>(index));
            lay_ready(cut_off);
            lay_ready(part.parts[number + 1]);
        } else {
            ++ready_[index].done;
            ++wanted_[ready_[index].stop()];
            lay_ready(cut_off);
        }
    }

    const Job& job_;
    Measure stop_ = -1;
    std::vector<Ready> ready_;
    std::map<Measure, std::int64_t> wanted_; ///< ready cuts by measure
    std::vector<Cut> cuts_;
};

} // namespace

std::vector<Cut> cuts_in_order(const Job& job, const Part& sheet) {
    return Bench(job).run(sheet);
}

std::int64_t stop_settings(const std::vector<Cut>& cuts) {
    std::int64_t settings = 0;
    Measure stop = -1;
    for (const Cut& cut : cuts) {
        if (cut.stop != stop) ++settings;
        stop = cut.stop;
    }
    return settings;
}

} // namespace barrow::layout
