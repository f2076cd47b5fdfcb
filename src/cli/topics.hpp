#pragma once

#include <string>
#include <vector>

namespace barrow::cli {

/// A page of `barrow help` about how the program counts.
struct Topic {
    std::string name; ///< "cost-order"
    std::string about;
    std::string text; ///< lines of at most 80 columns
};

const std::vector<Topic>& topics();

/// The topic with that name, or the only one whose name begins so; null when there is none.
/// "cost order" is the same as "cost-order".
const Topic* find_topic(const std::string& name);

} // namespace barrow::cli
