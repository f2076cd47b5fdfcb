#pragma once

#include <string>

namespace barrow::test {

/// Requires that `text` is what golden/<name> holds. With BARROW_ACCEPT=1 in the environment the
/// file is written instead (and the test fails, so that nobody accepts by mistake).
void matches_golden(const std::string& name, const std::string& text);

} // namespace barrow::test
