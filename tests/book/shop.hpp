#pragma once

#include "store/file/database.hpp"
#include "store/scratch_folder.hpp"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace barrow::test {

/// A shop in a folder of its own, kept by way of the command line, with a clock that is set by
/// hand. The folder goes when the shop does.
class Shop {
public:
    /// Runs `barrow init` with these options; without any: pounds, no wage, kept by Wren Aldous.
    explicit Shop(const std::vector<std::string>& options = {});

    std::string today = "2027-03-06";

    struct Said {
        int code = 0;
        std::string out;
        std::string err;
    };

    /// Runs a command given as words; whatever comes of it.
    Said run(const std::vector<std::string>& words, const std::string& input = {});
    /// The same for words without blanks in them, as one text.
    Said run(const std::string& line) { return run(words_of(line)); }

    /// A command that must succeed; gives what it printed.
    std::string done(const std::vector<std::string>& words, const std::string& input = {});
    std::string done(const std::string& line) { return done(words_of(line)); }
    /// A command that must be refused with that exit code; gives what it said about it.
    std::string refused(int code, const std::vector<std::string>& words);
    std::string refused(int code, const std::string& line) { return refused(code, words_of(line)); }
    /// The document of a command that reads.
    nlohmann::json json(const std::string& line);
    /// One list of that document, by value: fit for a loop over it.
    nlohmann::json list(const std::string& line, const std::string& key);

    /// Brings in CSV text or a design.
    void import(const std::string& command, const std::string& text);
    void design(const std::string& text);

    /// Number of the latest entry in the book.
    std::int64_t entry();

    /// Requires that `check` finds nothing and that every penny is accounted for.
    void sound();

    std::filesystem::path path() const { return folder_ / "shop.db"; }
    std::filesystem::path folder() const { return folder_.path(); }
    store::Database open() const { return store::Database::open(path()); }

    static std::vector<std::string> words_of(const std::string& line);

private:
    ScratchFolder folder_;
    int designs_ = 0;
};

/// A small shop of invented things: paper MOSS (sheets of 300 x 200 mm), ribbon RIB, envelopes
/// ENV, glue GLUE; a design "leaflet" of one 150 x 100 mm piece, 400 mm of ribbon, three envelopes
/// and 2 ml of glue; everything received, nothing made yet.
void stock_up(Shop& shop);

} // namespace barrow::test
