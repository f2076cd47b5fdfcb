#pragma once

#include "page/server/http.hpp"

#include <optional>
#include <set>
#include <string>

namespace barrow::page {

/// Lets in whoever opened the address that the program printed, and nobody else: no other site in
/// the same browser, no name that was made to point here (DNS rebinding), no other user of the
/// machine who does not know the address.
///
/// The first address holds a secret; opening it gives the browser a cookie with another one, which
/// scripts cannot read and other sites cannot send (HttpOnly, SameSite=Strict). Cookies of one
/// machine are shared by all its ports, so its name holds the port. Forms count only when the
/// browser says that they come from a page of ours (Origin; Fetch standard, section 3.2).
class Guard {
public:
    /// Listening on this port of the loopback address.
    explicit Guard(int port);

    /// Path of the first address, with the secret: "/enter/9f3c...".
    std::string entrance() const;

    /// What is answered in place of a page: a refusal, or the way in. Nothing when the request may
    /// be answered.
    std::optional<Response> stops(const Request& request) const;

    /// Whether the request brings the cookie.
    bool is_known(const Request& request) const;

private:
    bool is_our_host(const std::string& host) const;
    bool comes_from_us(const Request& request) const;

    std::set<std::string> hosts_; ///< "127.0.0.1:8091", "localhost:8091"
    std::string cookie_name_;
    std::string secret_;
    std::string cookie_;
};

/// Most bytes of a request's body.
inline constexpr std::size_t most_body = 1 << 20;

/// Puts the headers on a response that every one has: the browser may take styles, scripts and
/// pictures from us alone, may not guess types, keeps no copy, shows us in no frame of another
/// site.
void put_headers(Response& response);

/// A page without anything but words, for refusals.
Response plain_page(int status, const std::string& title, const std::string& text);

} // namespace barrow::page
