#pragma once

#include "costing/shelf/lots.hpp"
#include "store/ledger/ledger.hpp"

#include <cstdint>
#include <map>
#include <set>
#include <vector>

namespace barrow::workshop {

/// Under the moving average things leave the oldest lot and their cost all lots, so that a lot may
/// be used up and still have value. That is right as long as all lots are one pool; what follows
/// settles it where they are not. Value that goes from shelf to shelf stays that of the lot it was
/// paid for, so that the cost of each lot remains all accounted for: a shelf may then hold value of
/// several lots, and gives from each in proportion.

/// What a lot's shelf gives, by the lots it holds value of: the quantity is its own, the value
/// shared in proportion to what it holds of each.
std::vector<costing::LotTake> parts_of(store::Database& database, const costing::LotTake& take);

/// For an entry that leaves the moving average: what is on the shelves goes on at what it cost on
/// average. Of every material each lot gets its part of the value by quantity; those that hold more
/// give it to those that hold less. Where nothing of a material is left, its value is written off.
void level_all(store::Database& database, store::MovementWriter& writer);

/// For an entry that takes back what left the shelves under the moving average, once another order
/// holds: what came back of each material, by lot, costs the same for each unit of it, its average
/// then. Otherwise lots would hold things at prices that nobody paid, since under the average the
/// quantity came from some lots and the value from all.
void level_returned(store::Database& database, store::MovementWriter& writer,
                    const std::map<std::int64_t, costing::LotTake>& came_back);

/// For an entry that may have emptied lots otherwise than by using them (a return, a reversal):
/// value left where no quantity is goes to the material's other lots by quantity (not under the
/// moving average, where it waits for the next use); where nothing of the material is left, it is
/// written off. Gives what was.
base::Money level_emptied(store::Database& database, store::MovementWriter& writer,
                          const std::set<std::int64_t>& materials, bool moving_average);

} // namespace barrow::workshop
