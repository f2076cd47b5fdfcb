#include "page/visitor.hpp"

#include <catch2/catch.hpp>

#include <regex>

namespace barrow::test {
namespace {

std::string unescaped(std::string text) {
    const std::pair<const char*, const char*> signs[] = {{"&lt;", "<"},    {"&gt;", ">"},
                                                         {"&quot;", "\""}, {"&#39;", "'"},
                                                         {"&apos;", "'"},  {"&amp;", "&"}};
    for (const auto& [from, to] : signs)
        for (std::size_t at = text.find(from); at != std::string::npos;
             at = text.find(from, at + 1))
            text.replace(at, std::string(from).size(), to);
    return text;
}

std::string attribute(const std::string& tag, const std::string& name) {
    const std::size_t at = tag.find(" " + name + "=\"");
    if (at == std::string::npos) return {};
    const std::size_t begin = at + name.size() + 3;
    return unescaped(tag.substr(begin, tag.find('"', begin) - begin));
}

/// The fields of a form with their values, as a browser would send them.
Visitor::Fields fields_of(const std::string& form) {
    Visitor::Fields fields;
    for (std::size_t at = form.find("<input"); at != std::string::npos;
         at = form.find("<input", at + 1)) {
        const std::string tag = form.substr(at, form.find('>', at) - at);
        if (attribute(tag, "type") == "checkbox" && tag.find(" checked") == std::string::npos)
            continue;
        fields[attribute(tag, "name")] = attribute(tag, "value");
    }
    for (std::size_t at = form.find("<select"); at != std::string::npos;
         at = form.find("<select", at + 1)) {
        const std::string all = form.substr(at, form.find("</select>", at) - at);
        std::size_t option = all.find(" selected");
        option = option == std::string::npos ? all.find("<option") : all.rfind("<option", option);
        fields[attribute(all, "name")] = attribute(all.substr(option), "value");
    }
    for (std::size_t at = form.find("<textarea"); at != std::string::npos;
         at = form.find("<textarea", at + 1)) {
        const std::size_t text = form.find('>', at) + 2; // a line break follows the tag
        fields[attribute(form.substr(at), "name")] =
            unescaped(form.substr(text, form.find("</textarea>", at) - text));
    }
    return fields;
}

} // namespace

Visitor::Visitor(Shop& shop)
    : page_({shop.path(), [&shop] { return base::read_date(shop.today, "today"); },
             [&shop] { return shop.today + "T09:30:00Z"; }}) {}

Visitor::Visitor(const std::filesystem::path& path, std::string today)
    : page_({path, [today] { return base::read_date(today, "today"); },
             [today] { return today + "T09:30:00Z"; }}) {}

page::Response Visitor::gets(const std::string& address) {
    page::Request request;
    const std::size_t mark = address.find('?');
    request.path = page::decoded(address.substr(0, mark), false);
    if (mark != std::string::npos) request.query = page::read_form(address.substr(mark + 1));
    return page_.answer(request);
}

std::string Visitor::reads(const std::string& address) {
    const page::Response response = gets(address);
    INFO(address);
    INFO(response.body);
    REQUIRE(response.status == 200);
    return response.body;
}

page::Response Visitor::posts(const std::string& action, const Fields& fields) {
    page::Request request;
    request.method = "POST";
    request.path = page::decoded(action, false);
    page::Values values;
    for (const auto& [name, value] : fields) values.add(name, value);
    request.body = page::write_form(values);
    return page_.answer(request);
}

page::Response Visitor::sends(const std::string& address, const std::string& action,
                              const Fields& typed) {
    const std::string page = gets(address).body;
    const std::size_t at = page.find("<form action=\"" + action + "\"");
    INFO(address << " has no form " << action);
    INFO(page);
    REQUIRE(at != std::string::npos);
    Fields fields = fields_of(page.substr(at, page.find("</form>", at) - at));
    for (const auto& [name, value] : typed) fields[name] = value;
    return posts(action, fields);
}

std::string Visitor::done(const std::string& address, const std::string& action,
                          const Fields& typed) {
    const page::Response response = sends(address, action, typed);
    INFO(response.body);
    REQUIRE(response.status == 303);
    return reads(response.headers.at("Location"));
}

} // namespace barrow::test
