#pragma once

#include "page/frame/form.hpp"
#include "page/frame/frame.hpp"
#include "page/server/http.hpp"
#include "workshop/shared/context.hpp"
#include "workshop/shared/settings.hpp"

#include <functional>
#include <string>
#include <vector>

namespace barrow::page {

/// One request to the open shop, and what its page is made of.
struct Visit {
    const Request& request;
    store::Database& database;
    workshop::Context context;
    workshop::Settings settings;
    std::vector<std::string> parts; ///< of the path, where the place has a *
    Values fields;                  ///< of the form that was sent
    std::string done;               ///< what the request before this one did, to be said on top
    std::vector<base::Problem> problems; ///< why the form was not taken

    base::Date today() const { return context.today; }
    /// The first part of the path that the place left open.
    const std::string& code() const { return parts.front(); }
};

/// Makes the answer to a visit.
using Handler = Response (*)(Visit&);

/// What a form did: the sentence to say, and the page to say it on.
struct Done {
    std::string said;
    std::string path;
};

/// A page at an address, and the form that is sent there. A * stands for one part of the path.
struct Place {
    const char* path;
    Handler page;                  ///< for GET; null where only a form is sent
    Done (*act)(Visit&) = nullptr; ///< for POST: one use case, one transaction
    Handler again = nullptr;       ///< the page that holds the form, when it is not taken
};

/// The form as HTML; with what was typed and why it was not taken, when that was just so.
std::string show(const Visit& visit, Form form);

/// A page of this visit.
Response answer(const Visit& visit, Room room, const std::string& title, std::string body);

/// "4 sheets": the number with the word in the number it needs.
std::string counted(std::int64_t number, const std::string& one, const std::string& many);

} // namespace barrow::page
