#pragma once

#include <functional>

namespace barrow::test {

/// What goes wrong at one chosen operation of this process on a file: a write, a change of length,
/// a sync, a removal, a new name, a new file. SQLite's operations and the store's own are counted
/// alike, since the test program stands between them and the C library.
enum class Fault {
    none,    ///< operations are only counted
    fail,    ///< the operation is not done and says so (input/output error)
    fail_on, ///< as is every later one
    shorten, ///< a write puts down half and says the disk is full; others fail
    die,     ///< the process is killed before the operation
    die_mid, ///< a write puts down half, then the process is killed
};

/// Counts from 1 while it lives, and lets the fault happen at operation `at`.
class InjectedFaults {
public:
    InjectedFaults(Fault fault, long at);
    ~InjectedFaults();
    InjectedFaults(const InjectedFaults&) = delete;
    InjectedFaults& operator=(const InjectedFaults&) = delete;

    /// Operations so far.
    static long count();
};

/// Runs `action` in a child process. The signal that killed it, or 0 when it came to its end.
int in_child(const std::function<void()>& action);

} // namespace barrow::test
