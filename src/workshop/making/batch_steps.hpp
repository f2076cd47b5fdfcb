#pragma once

#include "workshop/making/batch.hpp"

namespace barrow::workshop {

/// Refuses journals that cannot be put together, unless that was asked for: then gives the context
/// with the reasons added to its note. Throws base::Error (Kind::refused).
Context with_reasons(const Context& context, const Costing& costing, bool anyway);

/// The steps of a batch inside a transaction and under a posting that exists already; the
/// use cases above put a transaction, a posting and an event around them.

/// Keeps the plan of a costing as a new batch. Throws base::Error (Kind::refused) for shortages.
store::Batch keep_plan(Context& context, const Costing& costing,
                       const std::vector<WantedRun>& wanted);

/// Carries a kept plan out, as far as the report does not say otherwise.
Cut carry_out(Context& context, std::int64_t posting, const store::Batch& batch,
              const CutReport& report);

/// Books the journals of a batch that was carried out.
Finished complete(Context& context, std::int64_t posting, const store::Batch& batch,
                  const std::vector<FinishedCount>& counts);

/// Throws base::Error (Kind::refused) unless the batch stands at `wanted`.
void require_status(const store::Batch& batch, store::BatchStatus wanted, const std::string& verb);

} // namespace barrow::workshop
