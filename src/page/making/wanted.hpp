#pragma once

#include "page/server/http.hpp"
#include "workshop/making/cost.hpp"

#include <vector>

namespace barrow::page {

/// Parameters and materials changed, from fields named "set.envelopes" and "use.outside".
design::Changes changes_in(const Values& values);

/// The run of one design that the desk's fields ask for. Throws base::Error (Kind::bad_input) for a
/// number of journals that is none.
std::vector<workshop::WantedRun> run_in(const Values& values, const std::string& design);

/// Runs of several designs, from fields named "make.quayside"; empty and zero ones left out. Throws
/// base::Error (Kind::bad_input).
std::vector<workshop::WantedRun> runs_in(const Values& values);

} // namespace barrow::page
