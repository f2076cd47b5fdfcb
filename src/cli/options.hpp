#pragma once

#include "layout/job.hpp"
#include "workshop/cost.hpp"
#include "workshop/fields.hpp"

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace barrow::cli {

/// An option for every field of a row ("--pack-price" for pack_price), gathered into a Row for
/// the use case that reads it.
class RowOptions {
public:
    /// Adds the options to a command; `help` has a sentence for each field that has one.
    RowOptions(CLI::App& command, const std::vector<std::string>& fields,
               const std::map<std::string, std::string>& help);

    workshop::Row row() const;

private:
    std::shared_ptr<std::map<std::string, std::string>> values_; ///< lives as long as the parser
};

/// Options of every command that works a design out: which, how many, what is changed.
struct RunOptions {
    std::string design;
    std::int64_t make = 1;
    std::vector<std::string> set;
    std::vector<std::string> use;
    std::vector<std::string> lots;
    std::string effort = "normal";

    void add_to(CLI::App& command, bool make_required);
    workshop::WantedRun run() const;
    workshop::HowToCost how() const;
};

/// "name=value" taken apart. Throws base::Error (Kind::usage) when there is no "=".
std::map<std::string, std::string> read_changes(const std::vector<std::string>& given,
                                                const std::string& option);

/// A command without options of its own, and what is to be done when it was given.
void on_command(CLI::App& app, const char* name, const char* about, std::function<void()> chosen);

layout::Effort read_effort(const std::string& text);

} // namespace barrow::cli
