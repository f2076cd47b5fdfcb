#pragma once

#include "layout/model/instance.hpp"

#include <vector>

namespace barrow::layout {

/// A way to measure lengths such that lengths which fit beside each other in a side still do. With
/// every side measured so, the areas of the pieces on a sheet still add up to no more than the
/// sheet's (dual feasible functions: Fekete & Schepers, Math. Methods of Oper. Res. 60 (2004)
/// 311-329; `by_steps` is Carlier, Clautiaux & Moukrim, Computers & OR 34 (2007) 2223-2250, their
/// first).
struct Scale {
    enum class Kind {
        plain,   ///< as it is
        parts,   ///< whole (k + 1)-ths of the side, which counts k; rounded down unless a multiple
        ends,    ///< below k: 0; above side - k: the whole side; else unchanged
        by_steps ///< whole steps of k; a length over half counts the side less the steps of what it
                 ///< leaves
    };
    Kind kind = Kind::plain;
    std::int64_t k = 0; ///< parts: at least 1; ends and by_steps: 1 to half the side
    Length side = 0;

    std::int64_t of(Length length) const;
    std::int64_t whole() const; ///< the measure of the whole side
};

/// A lower bound for one kind of sheet: the cost of the number of sheets needed by the best pair of
/// scales tried; 0 with several kinds. Exact. Adds the steps it took (see Meter).
Cost scaled_area_bound(const Instance& instance, std::int64_t& steps);

} // namespace barrow::layout
