#pragma once

#include "base/date.hpp"
#include "page/server/http.hpp"

#include <filesystem>
#include <functional>
#include <map>
#include <mutex>
#include <string>

namespace barrow::page {

/// What the page needs of the world, passed in.
struct World {
    std::filesystem::path shop;
    std::function<base::Date()> today;
    std::function<std::string()> now_utc; ///< "2027-03-14T09:30:00Z"
};

/// Every page of the workshop. Answers may be asked for from several threads; each opens the shop
/// for itself.
class Page {
public:
    explicit Page(World world) : world_(std::move(world)) {}

    /// The answer to a request that the guard let in.
    Response answer(const Request& request);

private:
    Response in_the_shop(const Request& request);
    Response begin_shop(const Request& request);
    void remember(const std::string& key, const std::string& said);
    std::string recall(const std::string& key);

    World world_;
    std::mutex lock_;
    std::map<std::string, std::string> said_; ///< by the key of the form that did it
    std::string last_keys_[8];
    std::size_t next_key_ = 0;
};

} // namespace barrow::page
