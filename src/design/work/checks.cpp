#include "design/work/desk.hpp"

namespace barrow::design {

void work_checks(Desk& desk) {
    for (const CheckSpec& check : desk.design.checks)
        desk.attempt(check.place, [&] {
            const auto well = desk.if_known([&] { return desk.names.holds(check.holds); });
            if (well && !*well)
                desk.warn(desk.names.filled_in(check.say, check.place.at(), "what is not known"),
                          check.severity);
        });
}

} // namespace barrow::design
