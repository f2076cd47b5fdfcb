#include "page/server/guard.hpp"

#include "base/text.hpp"
#include "page/server/secret.hpp"
#include "print/text/markup.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barrow::page {
namespace {

constexpr std::string_view entrance_path = "/enter/";

bool all_utf8(const Values& values) {
    return std::all_of(values.list().begin(), values.list().end(), [](const auto& pair) {
        return base::is_utf8(pair.first) && base::is_utf8(pair.second);
    });
}

/// The value of one cookie in a Cookie header ("a=1; b=2").
std::string cookie_called(const std::string& header, const std::string& name) {
    std::size_t at = 0;
    while (at < header.size()) {
        const std::size_t end = std::min(header.find(';', at), header.size());
        const std::size_t begin = header.find_first_not_of(' ', at);
        if (begin < end && header.compare(begin, name.size(), name) == 0
            && begin + name.size() < end && header[begin + name.size()] == '=')
            return header.substr(begin + name.size() + 1, end - begin - name.size() - 1);
        at = end + 1;
    }
    return {};
}

} // namespace

Guard::Guard(int port)
    : hosts_{fmt::format("127.0.0.1:{}", port), fmt::format("localhost:{}", port)},
      cookie_name_(fmt::format("paperbarrow_{}", port)), secret_(new_secret()),
      cookie_(new_secret()) {}

std::string Guard::entrance() const {
    return std::string(entrance_path) + secret_;
}

bool Guard::is_our_host(const std::string& host) const {
    return hosts_.count(host) != 0;
}

bool Guard::comes_from_us(const Request& request) const {
    const std::string& origin = request.header("origin");
    constexpr std::string_view scheme = "http://";
    if (!origin.empty())
        return origin.compare(0, scheme.size(), scheme) == 0
               && origin.substr(scheme.size()) == request.header("host");
    // A browser that leaves Origin out says at least this much.
    return request.header("sec-fetch-site") == "same-origin";
}

bool Guard::is_known(const Request& request) const {
    return same_secret(cookie_called(request.header("cookie"), cookie_name_), cookie_);
}

std::optional<Response> Guard::stops(const Request& request) const {
    if (!is_our_host(request.header("host")))
        return plain_page(421, "Not this machine",
                          "This page answers only to its own address. Open the one that "
                          "'barrow open' printed.");
    const bool posts = request.method == "POST";
    if (!posts && request.method != "GET" && request.method != "HEAD")
        return plain_page(405, "Not understood", "Pages are read with GET and written with POST.");
    if (!base::is_utf8(request.path) || !all_utf8(request.query))
        return plain_page(400, "Not understood", "The address is not UTF-8 text.");
    if (!posts && request.path.compare(0, entrance_path.size(), entrance_path) == 0) {
        if (!same_secret(request.path.substr(entrance_path.size()), secret_))
            return plain_page(403, "An address of another day",
                              "Each start has an address of its own. Open the one that "
                              "'barrow open' printed last.");
        Response in = go_to("/");
        in.headers["Set-Cookie"] =
            fmt::format("{}={}; Path=/; HttpOnly; SameSite=Strict", cookie_name_, cookie_);
        return in;
    }
    if (!is_known(request))
        return plain_page(403, "Who is there?",
                          "This browser has not been let in yet. Open the address that "
                          "'barrow open' printed in the terminal.");
    if (!posts) return std::nullopt;
    if (!comes_from_us(request))
        return plain_page(403, "From another place",
                          "This form was not sent from a page of the shop. Nothing was written.");
    if (request.header("content-type").compare(0, 33, "application/x-www-form-urlencoded") != 0)
        return plain_page(415, "Not understood", "Only the forms of these pages are read.");
    if (!all_utf8(read_form(request.body)))
        return plain_page(400, "Not understood", "What was typed is not UTF-8 text.");
    return std::nullopt;
}

void put_headers(Response& response) {
    const auto put = [&](const char* name, const char* value) {
        response.headers.emplace(name, value);
    };
    put("Content-Security-Policy",
        "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; "
        "connect-src 'self'; manifest-src 'self'; form-action 'self'; frame-ancestors 'none'; "
        "base-uri 'none'");
    put("X-Content-Type-Options", "nosniff");
    put("Referrer-Policy", "same-origin");
    put("Cross-Origin-Opener-Policy", "same-origin");
    put("Cross-Origin-Resource-Policy", "same-origin");
    put("Cache-Control", "no-store");
}

Response plain_page(int status, const std::string& title, const std::string& text) {
    Response response;
    response.status = status;
    response.body = "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta "
                    "name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>"
                    + print::markup_text(title) + "</title></head><body><h1>"
                    + print::markup_text(title) + "</h1><p>" + print::markup_text(text)
                    + "</p></body></html>\n";
    return response;
}

} // namespace barrow::page
