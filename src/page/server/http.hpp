#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace barrow::page {

/// Named values in the order they came: a query, or the fields of a form.
class Values {
public:
    void add(std::string name, std::string value);

    /// The first value of that name; empty when there is none.
    const std::string& get(std::string_view name) const;
    bool has(std::string_view name) const;
    /// Every value of that name, in order.
    std::vector<std::string> all(std::string_view name) const;
    /// Values whose name begins with `prefix`, by the rest of the name; empty values left out.
    std::map<std::string, std::string> under(std::string_view prefix) const;

    const std::vector<std::pair<std::string, std::string>>& list() const { return list_; }

private:
    std::vector<std::pair<std::string, std::string>> list_;
};

/// Text in the form of application/x-www-form-urlencoded ("a=1&b=two+words").
/// Source: WHATWG URL Standard, section 5. Whether the values are UTF-8 is for the guard to see.
Values read_form(std::string_view text);

/// The same the other way round.
std::string write_form(const Values& values);

/// One part of a path or of a form, percent-encoded: all but letters, digits and - . _ ~
std::string encoded(std::string_view text);

/// What "%41+" stands for; a plus is a blank only in forms.
std::string decoded(std::string_view text, bool plus_is_blank);

/// A request, header names in lower case.
struct Request {
    std::string method = "GET";
    std::string path = "/"; ///< decoded
    Values query;
    std::map<std::string, std::string> headers;
    std::string body;

    /// A header's value; empty when it was not sent.
    const std::string& header(const std::string& name) const;
};

struct Response {
    int status = 200;
    std::string type = "text/html; charset=utf-8";
    std::string body;
    std::map<std::string, std::string> headers; ///< besides those that every response has
};

/// Sends the browser on to another page of ours, with GET.
Response go_to(const std::string& path);

/// A file to keep, under that name.
Response download(const std::string& name, const std::string& type, std::string body);

} // namespace barrow::page
