#pragma once

#include "cli/command.hpp"
#include "cli/shell.hpp"
#include "layout/job.hpp"
#include "workshop/making/cost.hpp"
#include "workshop/shared/fields.hpp"

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace barrow::cli {

/// An option for every field of a row ("--pack-price" for pack_price), gathered into a Row for
/// the use case that reads it.
class RowOptions {
public:
    /// Adds the options to a command; `help` has a sentence for each field that has one.
    RowOptions(Command& command, const std::vector<std::string>& fields,
               const std::map<std::string, std::string>& help);

    workshop::Row row() const;

private:
    std::shared_ptr<std::map<std::string, std::string>> values_; ///< where the options write
};

/// Options of every command that works a design out: which, how many, what is changed.
struct RunOptions {
    std::string design;
    std::int64_t make = 1;
    std::vector<std::string> set;
    std::vector<std::string> use;
    std::vector<std::string> lots;
    std::string effort = "normal";
    bool fillers_from_box = false;
    bool anyway = false;

    void add_to(Command& command, bool make_required);
    workshop::WantedRun run() const;
    workshop::HowToCost how() const;
};

/// Says so where the file a design was brought in from lies here and was edited since.
void say_if_edited(const Shell& shell, const workshop::Costing& costing);

/// "CODE=TEXT" in two. Throws base::Error (Kind::usage) unless something stands before and after
/// the "="; `option` is where the words were given (may be empty), `hint` what to write.
std::pair<std::string, std::string> halves(const std::string& text, const std::string& option,
                                           const std::string& hint);

/// "quayside=20": a design and a number of journals, 1 to 10,000; without "=" it is one. Throws
/// base::Error (Kind::usage).
std::pair<std::string, std::int64_t> read_numbered(const std::string& text,
                                                   const std::string& hint);

/// Pairs of "name=value". Throws base::Error (Kind::usage) for what is none, or given twice.
std::map<std::string, std::string> read_changes(const std::vector<std::string>& given,
                                                const std::string& option);

/// --dry-run, for every command that writes into the shop.
Option* add_dry_run(Command& command, Shell& shell);

/// --note, for every command that makes an entry in the book.
Option* add_note(Command& command, Shell& shell,
                 const char* about = "A note to keep with the entry");

/// --date, for commands that may be booked later than they happened.
Option* add_date(Command& command, std::string& date, const char* about);

/// A command without options of its own, and what is to be done when it was given.
void on_command(Command& app, const char* name, const char* about, std::function<void()> chosen);

/// A time in minutes: "220", "3 h 40 min", "3h 40m", "1.5 h". Throws base::Error (Kind::usage).
base::Rational read_minutes(const std::string& text, const std::string& option);

layout::Effort read_effort(const std::string& text);

} // namespace barrow::cli
