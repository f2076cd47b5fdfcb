#pragma once

#include "costing/shelf/lots.hpp"
#include "store/ledger/ledger.hpp"

#include <cstdint>
#include <map>
#include <vector>

namespace barrow::workshop {

/// The movements of one batch while it is being posted: what goes in from lots and offcuts, what
/// comes out as offcuts. Keeps what the batch holds of each lot, so that value that leaves it as
/// an offcut is taken from the lots that brought it: from the offcut's own lot as far as that
/// holds it, the rest from the other lots of the same material in proportion (which only shops
/// need that keep or once kept the moving average).
class WorkAccount {
public:
    WorkAccount(store::Database& database, store::MovementWriter& writer, std::int64_t batch);

    /// From a lot's shelf into the batch.
    void take_lot(std::int64_t material, const costing::LotTake& take);

    /// From an offcut into the batch: `quantity` of it and `value`; all that is left when
    /// `quantity` is all it has.
    void take_offcut(std::int64_t material, std::int64_t offcut, std::int64_t lot,
                     std::int64_t quantity, base::Money value);

    /// From the batch into an offcut.
    void keep(std::int64_t material, std::int64_t offcut, std::int64_t lot, std::int64_t quantity,
              base::Money value);

    /// From the batch into what finished journals are made of: all it holds. Gives its value.
    base::Money finish();

private:
    struct Part {
        std::int64_t lot = 0;
        std::int64_t quantity = 0;
        base::Money value;
    };

    /// Divides `value` among lots that hold it: `first` gives what it can, the others the rest.
    static std::vector<Part> divide(const std::map<std::int64_t, base::Money>& held,
                                    std::int64_t first, std::int64_t quantity, base::Money value);

    store::Database& database_;
    store::MovementWriter& writer_;
    std::int64_t batch_;
    std::map<std::int64_t, std::map<std::int64_t, base::Money>> held_; ///< material, lot, value
};

} // namespace barrow::workshop
