#pragma once

#include "store/ledger/ledger.hpp"
#include "workshop/shared/context.hpp"

#include <cstdint>

namespace barrow::workshop {

/// A posting that was taken back.
struct Reversed {
    std::int64_t posting = 0; ///< of the reversal
    store::Posting original;
    std::int64_t movements = 0;
};

/// Takes a posting back: everything it moved is moved back, in a new posting that points at it. A
/// reversal can itself be reversed. Throws base::Error: Kind::bad_input when there is no such
/// posting; Kind::refused when it was reversed already, or when something since depends on it
/// (naming what: the offcut used, the journal sold, and the postings that did so).
Reversed reverse(Context& context, std::int64_t posting);

} // namespace barrow::workshop
