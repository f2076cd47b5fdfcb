#include "page/server/guard.hpp"

#include <catch2/catch.hpp>

using namespace barrow::page;

namespace {

constexpr const char* form_type = "application/x-www-form-urlencoded";

/// A request of a browser that was let in.
Request known(const Guard& guard, const std::string& method = "GET",
              const std::string& path = "/") {
    Request enter;
    enter.path = guard.entrance();
    enter.headers = {{"host", "127.0.0.1:8091"}};
    const auto in = guard.stops(enter);
    REQUIRE(in);
    REQUIRE(in->status == 303);
    const std::string cookie = in->headers.at("Set-Cookie");
    Request request;
    request.method = method;
    request.path = path;
    request.headers = {{"host", "127.0.0.1:8091"}, {"cookie", cookie.substr(0, cookie.find(';'))}};
    if (method == "POST") {
        request.headers["origin"] = "http://127.0.0.1:8091";
        request.headers["content-type"] = form_type;
    }
    return request;
}

int refused(const Guard& guard, const Request& request) {
    const auto stopped = guard.stops(request);
    return stopped ? stopped->status : 0;
}

} // namespace

TEST_CASE("the first address lets a browser in, and its cookie is for this place alone",
          "[page][guard]") {
    const Guard guard(8091);
    Request enter;
    enter.path = guard.entrance();
    enter.headers = {{"host", "localhost:8091"}};
    const auto in = guard.stops(enter);
    REQUIRE(in);
    CHECK(in->headers.at("Location") == "/");
    const std::string cookie = in->headers.at("Set-Cookie");
    CHECK(cookie.find("HttpOnly") != std::string::npos);
    CHECK(cookie.find("SameSite=Strict") != std::string::npos);
    CHECK(cookie.find("Domain") == std::string::npos);
    // The secret of the address is not that of the cookie.
    CHECK(cookie.find(guard.entrance().substr(guard.entrance().rfind('/') + 1))
          == std::string::npos);
    CHECK_FALSE(guard.stops(known(guard)));
    CHECK_FALSE(guard.stops(known(guard, "POST", "/stock/new")));
}

TEST_CASE("nobody else is let in", "[page][guard]") {
    const Guard guard(8091);
    Request request = known(guard);
    SECTION("without the cookie") {
        request.headers.erase("cookie");
        CHECK(refused(guard, request) == 403);
    }
    SECTION("with the cookie of another start") {
        const Guard other(8091);
        CHECK(refused(other, request) == 403);
    }
    SECTION("with a cookie that only begins so") {
        request.headers["cookie"] += "0";
        CHECK(refused(guard, request) == 403);
    }
    SECTION("with a wrong secret in the address") {
        request.headers.erase("cookie");
        request.path = guard.entrance() + "0";
        CHECK(refused(guard, request) == 403);
    }
    SECTION("under another name for this machine (DNS rebinding)") {
        for (const char* host : {"shop.example:8091", "127.0.0.1:80", "127.0.0.1", "", "[::1]:8091",
                                 "127.0.0.1:8091.shop.example", "localhost:8091@x"}) {
            request.headers["host"] = host;
            CHECK(refused(guard, request) == 421);
        }
    }
    SECTION("by another method") {
        for (const char* method : {"PUT", "DELETE", "OPTIONS", "TRACE", "CONNECT", "get"}) {
            request.method = method;
            CHECK(refused(guard, request) == 405);
        }
    }
}

TEST_CASE("a form counts only from a page of ours", "[page][guard]") {
    const Guard guard(8091);
    Request request = known(guard, "POST", "/stock/new");
    SECTION("not from another site, port, scheme or from nowhere") {
        for (const char* origin :
             {"http://shop.example", "http://127.0.0.1:8092", "https://127.0.0.1:8091", "null",
              "http://127.0.0.1:8091.shop.example", "http://localhost:8091"}) {
            request.headers["origin"] = origin;
            CHECK(refused(guard, request) == 403);
        }
    }
    SECTION("without Origin only when the browser says that it is the same site") {
        request.headers.erase("origin");
        CHECK(refused(guard, request) == 403);
        request.headers["sec-fetch-site"] = "cross-site";
        CHECK(refused(guard, request) == 403);
        request.headers["sec-fetch-site"] = "same-origin";
        CHECK(refused(guard, request) == 0);
    }
    SECTION("not in another form") {
        for (const char* type : {"text/plain", "application/json", "multipart/form-data", ""}) {
            request.headers["content-type"] = type;
            CHECK(refused(guard, request) == 415);
        }
        request.headers["content-type"] = std::string(form_type) + "; charset=UTF-8";
        CHECK(refused(guard, request) == 0);
    }
    SECTION("not with bytes that are no text") {
        request.body = "name=%FF%FE";
        CHECK(refused(guard, request) == 400);
        request.body = "%C3=1";
        CHECK(refused(guard, request) == 400);
    }
    SECTION("the address that lets in takes no form") {
        request.path = guard.entrance();
        request.headers.erase("cookie");
        CHECK(refused(guard, request) == 403);
    }
}

TEST_CASE("every answer says what the browser may do with it", "[page][guard]") {
    Response response;
    put_headers(response);
    const std::string policy = response.headers.at("Content-Security-Policy");
    CHECK(policy.find("default-src 'none'") != std::string::npos);
    CHECK(policy.find("unsafe") == std::string::npos);
    CHECK(policy.find("frame-ancestors 'none'") != std::string::npos);
    CHECK(response.headers.at("X-Content-Type-Options") == "nosniff");
    CHECK(response.headers.at("Cache-Control") == "no-store");
}

TEST_CASE("words of a refusal are escaped", "[page][guard]") {
    const Response page = plain_page(400, "<b>", "a & <script>");
    CHECK(page.body.find("<script>") == std::string::npos);
    CHECK(page.body.find("&lt;b&gt;") != std::string::npos);
}
