#include "page/server/listener.hpp"

#include "base/error.hpp"
#include "page/server/guard.hpp"

#include <fmt/format.h>
#include <microhttpd.h>

#include <algorithm>
#include <atomic>
#include <cctype>
#include <cerrno>
#include <cstring>
#include <mutex>

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

namespace barrow::page {
namespace {

constexpr unsigned most_connections = 200;
constexpr unsigned patience_seconds = 20;
constexpr std::size_t most_headers = 64 * 1024;

/// A request while it arrives.
struct Arriving {
    Request request;
    bool too_large = false;
};

MHD_Result keep_header(void* into, MHD_ValueKind, const char* name, const char* value) {
    std::string key = name;
    std::transform(key.begin(), key.end(), key.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    auto& headers = static_cast<Request*>(into)->headers;
    // Two of a kind that decide who may enter would let one speak for the other.
    const bool fresh = headers.emplace(key, value == nullptr ? "" : value).second;
    if (!fresh && (key == "host" || key == "origin" || key == "cookie")) headers[key] = "";
    return MHD_YES;
}

MHD_Result keep_value(void* into, MHD_ValueKind, const char* name, const char* value) {
    static_cast<Values*>(into)->add(name, value == nullptr ? "" : value);
    return MHD_YES;
}

MHD_Result send(MHD_Connection* connection, Response response, bool body) {
    put_headers(response);
    MHD_Response* made = MHD_create_response_from_buffer(response.body.size(), response.body.data(),
                                                         MHD_RESPMEM_MUST_COPY);
    if (made == nullptr) return MHD_NO;
    MHD_add_response_header(made, "Content-Type", response.type.c_str());
    for (const auto& [name, value] : response.headers)
        MHD_add_response_header(made, name.c_str(), value.c_str());
    (void)body; // the library leaves the body out for HEAD
    const MHD_Result sent =
        MHD_queue_response(connection, static_cast<unsigned>(response.status), made);
    MHD_destroy_response(made);
    return sent;
}

int take_port(int port) {
    const int listening = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    if (listening < 0)
        throw base::Error(base::Kind::machine,
                          fmt::format("no connection can be opened: {}", std::strerror(errno)));
    const int yes = 1;
    setsockopt(listening, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    if (bind(listening, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0
        || listen(listening, 64) != 0) {
        const std::string why = std::strerror(errno);
        close(listening);
        throw base::Error(base::Kind::machine, fmt::format("port {} cannot be used: {}", port, why),
                          "name another with --port, or leave it out and a free one is taken");
    }
    return listening;
}

} // namespace

struct Listener::Server {
    MHD_Daemon* daemon = nullptr;
    int port = 0;
    std::mutex lock;
    Answer answer;

    Response answered(const Request& request) {
        Answer now;
        {
            const std::lock_guard<std::mutex> guard(lock);
            now = answer;
        }
        if (!now) return plain_page(503, "Not ready", "The shop is being opened. Try again.");
        try {
            return now(request);
        } catch (const std::exception& error) {
            return plain_page(500, "That went wrong", error.what());
        }
    }

    static MHD_Result arrives(void* self, MHD_Connection* connection, const char* path,
                              const char* method, const char*, const char* data, std::size_t* size,
                              void** kept) {
        auto* server = static_cast<Server*>(self);
        auto* arriving = static_cast<Arriving*>(*kept);
        if (arriving == nullptr) {
            arriving = new Arriving; // NOLINT(cppcoreguidelines-owning-memory): see is_done
            *kept = arriving;
            arriving->request.method = method;
            arriving->request.path = path;
            MHD_get_connection_values(connection, MHD_HEADER_KIND, keep_header, &arriving->request);
            MHD_get_connection_values(connection, MHD_GET_ARGUMENT_KIND, keep_value,
                                      &arriving->request.query);
            return MHD_YES;
        }
        if (*size > 0) {
            if (arriving->request.body.size() + *size > most_body) {
                arriving->too_large = true;
                arriving->request.body.clear();
            } else if (!arriving->too_large) {
                arriving->request.body.append(data, *size);
            }
            *size = 0;
            return MHD_YES;
        }
        if (arriving->too_large)
            return send(
                connection,
                plain_page(413, "Too much", "A form may hold one megabyte. Nothing was written."),
                true);
        return send(connection, server->answered(arriving->request),
                    arriving->request.method != "HEAD");
    }

    static void is_done(void*, MHD_Connection*, void** kept, MHD_RequestTerminationCode) {
        delete static_cast<Arriving*>(*kept); // NOLINT(cppcoreguidelines-owning-memory)
        *kept = nullptr;
    }
};

Listener::Listener(int port) : server_(std::make_unique<Server>()) {
    const int listening = take_port(port);
    sockaddr_in address{};
    socklen_t length = sizeof address;
    getsockname(listening, reinterpret_cast<sockaddr*>(&address), &length);
    server_->port = ntohs(address.sin_port);
    server_->daemon = MHD_start_daemon(
        MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_THREAD_PER_CONNECTION | MHD_USE_POLL, 0, nullptr,
        nullptr, &Server::arrives, server_.get(), MHD_OPTION_LISTEN_SOCKET, listening,
        MHD_OPTION_CONNECTION_LIMIT, most_connections, MHD_OPTION_CONNECTION_TIMEOUT,
        patience_seconds, MHD_OPTION_CONNECTION_MEMORY_LIMIT, most_headers,
        MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_NOTIFY_COMPLETED, &Server::is_done, nullptr,
        MHD_OPTION_END);
    if (server_->daemon == nullptr) {
        close(listening);
        throw base::Error(base::Kind::machine, "the page cannot be served: no threads are left");
    }
}

Listener::~Listener() {
    if (server_->daemon != nullptr) MHD_stop_daemon(server_->daemon);
}

int Listener::port() const {
    return server_->port;
}

void Listener::answer_with(Answer answer) {
    const std::lock_guard<std::mutex> guard(server_->lock);
    server_->answer = std::move(answer);
}

} // namespace barrow::page
