#include "page/serve/page.hpp"

#include "base/error.hpp"
#include "page/assets/assets.hpp"
#include "page/books/books_pages.hpp"
#include "page/buying/buying_pages.hpp"
#include "page/frame/visit.hpp"
#include "page/making/bench_pages.hpp"
#include "page/making/desk_pages.hpp"
#include "page/selling/stall_pages.hpp"
#include "page/server/guard.hpp"
#include "page/stock/stock_pages.hpp"
#include "page/today/today_page.hpp"
#include "workshop/books/shop_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace barrow::page {
namespace {

std::vector<std::string> split_path(const std::string& path) {
    std::vector<std::string> parts;
    std::size_t at = 1;
    while (at <= path.size()) {
        const std::size_t end = std::min(path.find('/', at), path.size());
        parts.push_back(path.substr(at, end - at));
        at = end + 1;
    }
    return parts;
}

/// The parts that stand for the stars of a place; nothing when the path is not of that place.
std::optional<std::vector<std::string>> fits(const char* place,
                                             const std::vector<std::string>& path) {
    const std::vector<std::string> wanted = split_path(place);
    if (wanted.size() != path.size()) return std::nullopt;
    std::vector<std::string> open;
    for (std::size_t i = 0; i < path.size(); ++i) {
        if (wanted[i] == "*" && !path[i].empty())
            open.push_back(path[i]);
        else if (wanted[i] != path[i])
            return std::nullopt;
    }
    return open;
}

const std::vector<Place>& places() {
    static const std::vector<Place> all = [] {
        std::vector<Place> together;
        for (const auto& room : {today_places(), stock_places(), desk_places(), bench_places(),
                                 stall_places(), buying_places(), books_places()})
            together.insert(together.end(), room.begin(), room.end());
        return together;
    }();
    return all;
}

Response refusal(const base::Error& error) {
    int status = 500;
    if (error.kind() == base::Kind::refused) status = 409;
    if (error.kind() == base::Kind::bad_input || error.kind() == base::Kind::usage) status = 404;
    std::string body;
    for (const base::Problem& problem : error.problems())
        body += paragraph(problem.what + (problem.hint.empty() ? "" : " (" + problem.hint + ")"));
    Response response = page_of({Room::today, "That cannot be shown", "", body, false});
    response.status = status;
    return response;
}

Form first_questions() {
    Form form{"/begin", "Begin the shop"};
    form.about = "A few questions, and the book is open. Each answer can be changed later.";
    form.fields = {{"currency", "Currency", Field::As::text, "GBP", "Three letters: GBP, EUR, USD"},
                   {"maker", "Your name", Field::As::text, "", "Stands with what you book"},
                   {"hourly-rate", "An hour of your work", Field::As::text, "",
                    "What an hour should earn. Without it a price leaves your work out"},
                   {"overheads", "Overheads", Field::As::text, "15%",
                    "Tools, light, insurance: a share of materials and work"},
                   {"margin", "Margin", Field::As::text, "45%", "Share of the price that is yours"},
                   {"price-step", "Prices end at", Field::As::text, "0.50",
                    "0.50: prices are 12.00, 12.50, 13.00"}};
    form.fields[2].number = form.fields[3].number = form.fields[4].number = true;
    form.fields[5].number = true;
    return form;
}

} // namespace

Response Page::begin_shop(const Request& request) {
    Form form = first_questions();
    bool taken = true;
    if (request.method == "POST" && request.path == "/begin") {
        const Values typed = read_form(request.body);
        try {
            std::vector<std::pair<std::string, std::string>> settings;
            for (const Field& field : form.fields)
                if (!typed.get(field.name).empty())
                    settings.emplace_back(field.name, typed.get(field.name));
            workshop::init(world_.shop, settings, world_.today(), world_.now_utc());
            return go_to("/");
        } catch (const base::Error& error) {
            form.fill(typed);
            form.blame(error.problems());
            taken = false;
        }
    }
    return page_of({Room::today, "A new shop", "",
                    paragraph("There is no shop in " + world_.shop.string() + " yet.") + html(form),
                    !taken});
}

void Page::remember(const std::string& key, const std::string& said) {
    const std::lock_guard<std::mutex> guard(lock_);
    said_.erase(last_keys_[next_key_]);
    last_keys_[next_key_] = key;
    next_key_ = (next_key_ + 1) % std::size(last_keys_);
    said_[key] = said;
}

std::string Page::recall(const std::string& key) {
    const std::lock_guard<std::mutex> guard(lock_);
    const auto found = said_.find(key);
    return found == said_.end() ? std::string() : found->second;
}

Response Page::in_the_shop(const Request& request) {
    store::Database database = store::Database::open(world_.shop);
    const std::vector<std::string> path = split_path(request.path);
    const bool posts = request.method == "POST";
    for (const Place& place : places()) {
        if (posts ? place.act == nullptr : place.page == nullptr) continue;
        auto open = fits(place.path, path);
        if (!open) continue;
        Visit visit{request,
                    database,
                    {database, world_.today(), world_.now_utc()},
                    workshop::read_settings(database),
                    std::move(*open),
                    posts ? read_form(request.body) : Values{},
                    {},
                    {}};
        if (!posts) {
            visit.done = recall(request.query.get("done"));
            return place.page(visit);
        }
        const std::string key = visit.fields.get("key");
        visit.context.note = visit.fields.get("note");
        try {
            if (key.size() < 16 || key.size() > 64)
                throw base::refused("the form has no key", "load the page once more");
            const store::Once once(database, key);
            const Done done = place.act(visit);
            remember(key, done.said);
            return go_to(done.path + (done.path.find('?') == std::string::npos ? "?" : "&")
                         + "done=" + encoded(key));
        } catch (const base::Error& error) {
            if (store::was_written(database, key)) {
                visit.done = "This was booked already, and is not booked a second time.";
            } else {
                visit.problems = error.problems();
            }
            return place.again(visit);
        }
    }
    Response nothing =
        page_of({Room::today, "Nothing here", "", paragraph("There is no such page."), false});
    nothing.status = 404;
    return nothing;
}

Response Page::answer(const Request& request) {
    try {
        if (const auto asset = asset_at(request.path)) return *asset;
        std::error_code unreachable; // is said when the shop is opened
        if (std::filesystem::status(world_.shop, unreachable).type()
            == std::filesystem::file_type::not_found)
            return begin_shop(request);
        return in_the_shop(request);
    } catch (const base::Error& error) {
        return refusal(error);
    }
}

} // namespace barrow::page
