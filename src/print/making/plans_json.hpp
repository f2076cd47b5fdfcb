#pragma once

#include "print/json/values.hpp"
#include "print/making/layout.hpp"

namespace barrow::print {

/// "plans" of a layout: each with its stock, copies, pieces, cuts and offcuts.
Json plans_json(const layout::Job& job, const layout::Outcome& outcome,
                const LayoutNumbers& numbers);

const char* status_name(layout::Status status);

} // namespace barrow::print
