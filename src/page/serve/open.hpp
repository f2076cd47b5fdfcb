#pragma once

#include "page/serve/page.hpp"

#include <functional>
#include <string>

namespace barrow::page {

/// How the page is opened.
struct Opening {
    int port = 0;                                   ///< 0: any that is free
    std::function<void(const std::string&)> opened; ///< called with the address once it answers
    int idle_minutes = 8 * 60;                      ///< unused for so long, it ends
};

/// Serves the shop's pages on the loopback address until SIGINT or SIGTERM comes, or until they
/// were not used for long. Throws base::Error (Kind::machine) when the port is taken.
void open(World world, const Opening& opening);

} // namespace barrow::page
