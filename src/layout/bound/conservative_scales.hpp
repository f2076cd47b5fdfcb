#pragma once

#include "layout/model/instance.hpp"

#include <vector>

namespace barrow::layout {

/// A side of a sheet measured anew: lengths that fit beside each other in the side still do. So the
/// areas of pieces, each side measured so, can be added up against the sheet's (dual feasible
/// functions: Fekete & Schepers, Math. Methods of Oper. Res. 60 (2004) 311-329; `by_steps` is
/// Carlier, Clautiaux & Moukrim, Computers & OR 34 (2007) 2223-2250, their first).
struct Scale {
    enum class Kind {
        plain,   ///< as it is
        parts,   ///< in whole (k + 1)-ths, of which a side has k: what is not a multiple falls
        ends,    ///< below k: nothing; more than all but k: the whole side; else as it is
        by_steps ///< in whole steps of k, a length over half by what it leaves
    };
    Kind kind = Kind::plain;
    std::int64_t k = 0; ///< parts: at least 1; ends and by_steps: 1 to half the side
    Length side = 0;

    std::int64_t of(Length length) const;
    std::int64_t whole() const; ///< what the side itself measures
};

/// Where there is one kind of sheet: the cost of as many as the pieces need by the best pair of
/// scales tried, never above the least cost; 0 with several kinds. Exact. Adds the steps it took
/// (see Meter).
Cost scaled_area_bound(const Instance& instance, std::int64_t& steps);

} // namespace barrow::layout
