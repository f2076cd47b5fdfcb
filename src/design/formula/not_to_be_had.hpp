#pragma once

#include "base/error.hpp"

#include <utility>
#include <vector>

namespace barrow::design {

/// Nothing is wrong with a formula, but the world does not have what it asks for: a fact of a
/// material that nobody has given yet, or a size larger than any that is made. Where a number is
/// only nice to know, the working out goes on without it and says so; where it is needed, this
/// ends it like any other error in the input.
class NotToBeHad : public base::Error {
public:
    explicit NotToBeHad(base::Problem problem)
        : base::Error(base::Kind::bad_input, std::vector<base::Problem>{std::move(problem)}) {}
};

} // namespace barrow::design
