#include "page/server/guard.hpp"
#include "page/server/listener.hpp"

#include "base/error.hpp"

#include <catch2/catch.hpp>

#include <atomic>
#include <chrono>
#include <thread>

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

using namespace barrow::page;
using Catch::Contains;

namespace {

/// A connection that sends bytes as they are.
class Wire {
public:
    explicit Wire(int port) : socket_(socket(AF_INET, SOCK_STREAM, 0)) {
        sockaddr_in address{};
        address.sin_family = AF_INET;
        address.sin_port = htons(static_cast<std::uint16_t>(port));
        address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        const timeval patience{30, 0};
        setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
        connected_ =
            connect(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
    }
    ~Wire() { close(socket_); }
    Wire(const Wire&) = delete;
    Wire& operator=(const Wire&) = delete;

    bool connected() const { return connected_; }
    void send(const std::string& text) const {
        (void)::send(socket_, text.data(), text.size(), MSG_NOSIGNAL);
    }
    /// Everything until the other side closes.
    std::string rest() const {
        std::string all;
        char bytes[4096];
        ssize_t got = 0;
        while ((got = recv(socket_, bytes, sizeof bytes, 0)) > 0)
            all.append(bytes, static_cast<std::size_t>(got));
        return all;
    }

private:
    int socket_;
    bool connected_ = false;
};

std::string said(int port, const std::string& text) {
    const Wire wire(port);
    wire.send(text);
    return wire.rest();
}

std::string get(int port, const std::string& path) {
    return said(port, "GET " + path + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port)
                          + "\r\nConnection: close\r\n\r\n");
}

} // namespace

TEST_CASE("requests arrive as they were sent", "[page][listener]") {
    Listener listener(0);
    listener.answer_with([](const Request& request) {
        Response response;
        response.body = request.method + "|" + request.path + "|" + request.query.get("a") + "|"
                        + request.header("x-word") + "|" + request.body;
        return response;
    });
    const int port = listener.port();
    const std::string answer =
        said(port, "POST /a%20b?a=1+2 HTTP/1.1\r\nHost: x\r\nX-Word: yes\r\nContent-Length: "
                   "5\r\nConnection: close\r\n\r\nhello");
    CHECK_THAT(answer, Contains("HTTP/1.1 200"));
    CHECK_THAT(answer, Contains("POST|/a b|1 2|yes|hello"));
    CHECK_THAT(answer, Contains("Content-Security-Policy: default-src 'none'"));
    CHECK_THAT(get(port, "/x"), Contains("GET|/x"));
    const std::string head = said(port, "HEAD /x HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n");
    CHECK_THAT(head, Contains("200"));
    CHECK(head.find("HEAD|") == std::string::npos);
}

TEST_CASE("it listens on the loopback address alone, and a port is taken once",
          "[page][listener]") {
    const Listener listener(0);
    try {
        const Listener second(listener.port());
        FAIL("the port was taken twice");
    } catch (const barrow::base::Error& error) {
        CHECK(error.kind() == barrow::base::Kind::machine);
        CHECK_THAT(std::string(error.what()), Contains("--port"));
    }
}

TEST_CASE("a request that is too large, broken or doubtful is refused", "[page][listener]") {
    Listener listener(0);
    std::atomic<int> answered{0};
    listener.answer_with([&](const Request& request) {
        ++answered;
        Response response;
        response.body = "host=" + request.header("host") + ";";
        return response;
    });
    const int port = listener.port();
    const std::string big(2 << 20, 'x');
    CHECK_THAT(said(port, "POST / HTTP/1.1\r\nHost: x\r\nConnection: close\r\nContent-Length: "
                              + std::to_string(big.size()) + "\r\n\r\n" + big),
               Contains("413"));
    CHECK(answered == 0);
    const std::string headers =
        said(port, "GET / HTTP/1.1\r\nHost: x\r\nX-A: " + std::string(200'000, 'a') + "\r\n\r\n");
    CHECK(headers.find("HTTP/1.1 200") == std::string::npos);
    CHECK(said(port, "GARBAGE\r\n\r\n").find("HTTP/1.1 200") == std::string::npos);
    CHECK(said(port, std::string("GET /\0 HTTP/1.1\r\n\r\n", 20)).find(" 200 ")
          == std::string::npos);
    CHECK(answered == 0);
    // Two hosts: neither counts, so the guard refuses both.
    CHECK_THAT(said(port, "GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\nConnection: close\r\n\r\n"),
               !Contains("host=a") && !Contains("host=b"));
    // A body that is declared in two ways may be read in two ways.
    const std::string smuggled =
        said(port, "POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 4\r\nTransfer-Encoding: "
                   "chunked\r\nConnection: close\r\n\r\n0\r\n\r\nGET /b HTTP/1.1\r\n\r\n");
    CHECK(smuggled.find("HTTP/1.1 200", smuggled.find("HTTP/1.1 200") + 1) == std::string::npos);
}

TEST_CASE("slow and idle connections do not keep others waiting", "[page][listener]") {
    Listener listener(0);
    listener.answer_with([](const Request& request) {
        if (request.path == "/slow") std::this_thread::sleep_for(std::chrono::milliseconds(500));
        Response response;
        response.body = "done " + request.path;
        return response;
    });
    const int port = listener.port();
    std::vector<std::unique_ptr<Wire>> idle; // half a request each, as in a slow attack
    for (int i = 0; i < 150; ++i) {
        idle.push_back(std::make_unique<Wire>(port));
        idle.back()->send("GET / HTTP/1.1\r\nHost:");
    }
    std::thread slow([&] { get(port, "/slow"); });
    CHECK_THAT(get(port, "/quick"), Contains("done /quick"));
    slow.join();
    // More than there is room for: those beyond are closed, and there is room again afterwards.
    for (int i = 0; i < 100; ++i) idle.push_back(std::make_unique<Wire>(port));
    idle.clear();
    bool again = false;
    for (int tries = 0; tries < 100 && !again; ++tries) {
        again = get(port, "/after").find("done /after") != std::string::npos;
        if (!again) std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    CHECK(again);
}

TEST_CASE("what goes wrong inside is said, and the next request is answered", "[page][listener]") {
    Listener listener(0);
    listener.answer_with([](const Request& request) -> Response {
        if (request.path == "/bad") throw std::runtime_error("no <luck>");
        return {};
    });
    const std::string bad = get(listener.port(), "/bad");
    CHECK_THAT(bad, Contains("HTTP/1.1 500"));
    CHECK_THAT(bad, Contains("no &lt;luck&gt;"));
    CHECK_THAT(get(listener.port(), "/"), Contains("HTTP/1.1 200"));
}
