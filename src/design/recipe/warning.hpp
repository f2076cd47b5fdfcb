#pragma once

#include <string>

namespace barrow::design {

/// How grave a warning is.
enum class Severity {
    mind,  ///< it can be made, though not as well
    stops, ///< it cannot be put together: make and batch plan refuse unless told to go on
};

/// What will not work at the bench as it stands.
struct Warning {
    std::string text;
    Severity severity = Severity::mind;
};

} // namespace barrow::design
