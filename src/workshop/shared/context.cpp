#include "workshop/shared/context.hpp"

#include "workshop/shared/settings.hpp"

namespace barrow::workshop {

std::int64_t post(Context& context, const std::string& kind, const base::Date& made_on,
                  std::optional<std::int64_t> reverses) {
    store::Posting posting;
    posting.kind = kind;
    posting.made_on = made_on;
    posting.recorded_at = context.recorded_at;
    posting.who = read_settings(context.database).maker;
    posting.note = context.note;
    posting.reverses = reverses;
    return store::add_posting(context.database, posting);
}

} // namespace barrow::workshop
