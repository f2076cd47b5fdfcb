#pragma once

#include <array>
#include <ostream>

namespace model {

/// What the maker may do. Each kind is repeated below as often as it should come up.
enum class Do {
    wait,
    receive,
    make,
    plan,
    cut,
    finish,
    abandon,
    reverse,
    write_off,
    write_off_offcut,
    give_back,
    split,
    find,
    sell,
    give,
    damage,
    take_apart,
    decide_order,
    decide_share,
    count_start,
    count_enter,
    count_post,
    count_drop,
    order,
    order_comes,
    order_ends,
    fair,
    fair_take,
    fair_sell,
};

/// One thing the maker does: what, and four numbers from which its particulars follow (which lot of
/// those there are, how many, ...). Numbers instead of names, so that a history stays a history
/// when steps are left out of it: that is how a failure is made small.
struct Step {
    Do what = Do::wait;
    std::array<int, 4> numbers{};
};

inline const char* name_of(Do what) {
    switch (what) {
    case Do::wait: return "wait";
    case Do::receive: return "receive";
    case Do::make: return "make";
    case Do::plan: return "plan";
    case Do::cut: return "cut";
    case Do::finish: return "finish";
    case Do::abandon: return "abandon";
    case Do::reverse: return "reverse";
    case Do::write_off: return "write off";
    case Do::write_off_offcut: return "write off offcut";
    case Do::give_back: return "return to supplier";
    case Do::split: return "split";
    case Do::find: return "find";
    case Do::sell: return "sell";
    case Do::give: return "give away";
    case Do::damage: return "damage";
    case Do::take_apart: return "take apart";
    case Do::decide_order: return "decide cost order";
    case Do::decide_share: return "decide offcut share";
    case Do::count_start: return "stocktake start";
    case Do::count_enter: return "stocktake enter";
    case Do::count_post: return "stocktake post";
    case Do::count_drop: return "stocktake drop";
    case Do::order: return "order";
    case Do::order_comes: return "receive for an order";
    case Do::order_ends: return "end an order";
    case Do::fair: return "fair";
    case Do::fair_take: return "take to a fair";
    case Do::fair_sell: return "sell at a fair";
    }
    return "?";
}

inline std::ostream& operator<<(std::ostream& out, const Step& step) {
    out << name_of(step.what);
    for (const int number : step.numbers) out << ' ' << number;
    return out << '\n';
}

} // namespace model
