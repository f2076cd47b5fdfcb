#pragma once

#include "book/shop.hpp"
#include "page/serve/page.hpp"

#include <map>
#include <string>

namespace barrow::test {

/// Someone who reads the pages of a shop and sends its forms, as a browser without script would.
class Visitor {
public:
    explicit Visitor(Shop& shop);
    /// The pages of a shop file that need not be there yet.
    Visitor(const std::filesystem::path& path, std::string today);

    /// A page; requires that it is one.
    std::string reads(const std::string& address);
    page::Response gets(const std::string& address);

    using Fields = std::map<std::string, std::string>;
    /// Sends the form with that action: its fields as they stand on the page at `address`, changed
    /// by `typed`. Requires that the form is there.
    page::Response sends(const std::string& address, const std::string& action,
                         const Fields& typed);
    /// The same; requires that it is taken, and gives the page that it led to.
    std::string done(const std::string& address, const std::string& action, const Fields& typed);

    /// Sends fields as they are.
    page::Response posts(const std::string& action, const Fields& fields);

private:
    page::Page page_;
};

} // namespace barrow::test
