#pragma once

#include "store/file/database.hpp"

#include <sqlite3.h>

#include <functional>
#include <string>
#include <vector>

namespace barrow::test {

/// Sees every row that a connection inserts, changes or deletes, those written by the store's own
/// triggers included, by temporary triggers of its own on every table. The file is not changed.
class WriteWatch {
public:
    explicit WriteWatch(store::Database& database);
    ~WriteWatch();
    WriteWatch(const WriteWatch&) = delete;
    WriteWatch& operator=(const WriteWatch&) = delete;

    /// Forgets what was seen; from now on the n-th write (1, 2, 3, ...) is met with `action`, which
    /// gives true to let it pass and false to deny it. 0: none is.
    void meet(
        long nth, std::function<bool()> action = [] { return false; });

    /// "INSERT movement", "UPDATE balance", ... since `meet`, in order.
    const std::vector<std::string>& writes() const { return writes_; }

private:
    static void seen(sqlite3_context* context, int count, sqlite3_value** values);

    store::Database& database_;
    std::vector<std::string> triggers_;
    std::vector<std::string> writes_;
    long nth_ = 0;
    std::function<bool()> action_;
};

} // namespace barrow::test
