#pragma once

#include "page/server/http.hpp"

#include <functional>
#include <memory>

namespace barrow::page {

/// Gives the answer to a request; called from several threads at once.
using Answer = std::function<Response(const Request&)>;

/// An HTTP server on the loopback address while it lives. Each connection has a thread of its own,
/// at most 200 at once; one that says nothing for 20 seconds is closed; headers may have 64 KiB, a
/// body most_body bytes (guard.hpp). What `answer` throws becomes a page that says so.
class Listener {
public:
    /// Takes the port; 0 takes any that is free. Throws base::Error (Kind::machine) when it is
    /// taken.
    explicit Listener(int port);
    ~Listener();
    Listener(const Listener&) = delete;
    Listener& operator=(const Listener&) = delete;

    int port() const;
    void answer_with(Answer answer);

private:
    struct Server;
    std::unique_ptr<Server> server_;
};

} // namespace barrow::page
