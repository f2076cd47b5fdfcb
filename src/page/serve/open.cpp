#include "page/serve/open.hpp"

#include "page/server/guard.hpp"
#include "page/server/listener.hpp"

#include <fmt/format.h>

#include <atomic>
#include <chrono>
#include <csignal>

namespace barrow::page {
namespace {

/// Signals that end the program wait while this lives, for this thread and those it starts, so that
/// `wait` alone takes them.
class EndSignals {
public:
    EndSignals() {
        sigemptyset(&set_);
        sigaddset(&set_, SIGINT);
        sigaddset(&set_, SIGTERM);
        pthread_sigmask(SIG_BLOCK, &set_, &before_);
    }
    ~EndSignals() { pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
    EndSignals(const EndSignals&) = delete;
    EndSignals& operator=(const EndSignals&) = delete;

    /// Whether one came within the minute.
    bool wait_a_minute() const {
        const timespec minute{60, 0};
        return sigtimedwait(&set_, nullptr, &minute) >= 0;
    }

private:
    sigset_t set_{};
    sigset_t before_{};
};

} // namespace

void open(World world, const Opening& opening) {
    const EndSignals signals;
    std::signal(SIGPIPE, SIG_IGN); // a browser that goes away is no failure of ours
    Page page(std::move(world));
    std::atomic<int> idle{0};
    Listener listener(opening.port);
    const Guard guard(listener.port());
    listener.answer_with([&](const Request& request) {
        if (auto stopped = guard.stops(request)) return *stopped;
        idle = 0;
        return page.answer(request);
    });
    opening.opened(fmt::format("http://127.0.0.1:{}{}", listener.port(), guard.entrance()));
    while (!signals.wait_a_minute() && ++idle < opening.idle_minutes) {
    }
    listener.answer_with({});
}

} // namespace barrow::page
