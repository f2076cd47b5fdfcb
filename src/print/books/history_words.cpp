#include "print/books/history_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace barrow::print {
namespace {

using workshop::History;
using workshop::HistoryLine;
using workshop::Subject;

std::string received(const HistoryLine& line, const History&) {
    if (line.posting.kind == "stocktake") return "more of it found at a count";
    return line.from.empty() ? "received" : "received from " + line.from;
}

std::string used(const HistoryLine& line, const History& history) {
    const bool from_box = line.from_kind == "offcut" && history.of != Subject::offcut;
    if (history.of == Subject::batch)
        return from_box ? "taken from " + line.from : std::string("taken from the shelf");
    if (from_box) return fmt::format("taken from {} for {}", line.from, line.to);
    return "taken for " + line.to;
}

std::string kept(const HistoryLine& line, const History& history) {
    if (history.of == Subject::offcut) return "kept from " + line.from;
    if (history.of == Subject::batch) return "kept as " + line.to;
    return fmt::format("kept as {} from {}", line.to, line.from);
}

std::string put_back(const HistoryLine& line, const History& history) {
    if (history.of == Subject::batch) return "put back on the shelf";
    return "put back from " + line.from;
}

std::string finished(const HistoryLine& line, const History& history) {
    if (history.of == Subject::journal) return "finished";
    if (history.of == Subject::batch) return "went into its journals";
    return "went into the journals of " + line.from;
}

std::string written_off(const HistoryLine& line, const History& history) {
    if (line.posting.kind == "damage") return "damaged, written off";
    if (line.posting.kind == "take apart") return "taken apart: the rest of it written off";
    if (line.posting.kind == "split") return "lost in the cutting";
    if (line.from_kind == "batch")
        return history.of == Subject::batch ? "given up, written off"
                                            : "written off with " + line.from;
    if (line.from_kind == "offcut" && history.of != Subject::offcut)
        return line.from + " written off";
    return "written off";
}

std::string corrected(const HistoryLine& line, const History& history) {
    const bool box = history.of != Subject::offcut;
    if (line.to_kind == "written_off")
        return line.from_kind == "offcut" && box ? line.from + " missing at a count"
                                                 : std::string("missing at a count");
    return line.to_kind == "offcut" && box ? line.to + " there after all at a count"
                                           : std::string("there after all at a count");
}

std::string returned(const HistoryLine& line, const History&) {
    return line.to.empty() ? std::string("sent back") : "sent back to " + line.to;
}

std::string sold(const HistoryLine& line, const History& history) {
    if (!line.price) return "sold";
    return "sold for " + base::to_text(*line.price, history.settings.currency);
}

std::string split(const HistoryLine& line, const History& history) {
    if (history.of != Subject::offcut) return fmt::format("{} cut into {}", line.from, line.to);
    return line.change < 0 ? "cut into " + line.to : "cut from " + line.from;
}

std::string found(const HistoryLine& line, const History& history) {
    return history.of == Subject::offcut ? "found again" : "found again: " + line.to;
}

std::string given(const HistoryLine&, const History&) {
    return "given away";
}

std::string apart(const HistoryLine&, const History&) {
    return "taken apart: what is used again";
}

std::string came_back(const HistoryLine& line, const History& history) {
    const std::string where = "came back out of " + line.from;
    return line.to_kind == "offcut" && history.of != Subject::offcut ? line.to + " " + where
                                                                     : where;
}

std::string levelled(const HistoryLine& line, const History& history) {
    const std::string why = "cost order changed: cost ";
    if (history.of != Subject::lot || line.change == 0) return why + "evened out between lots";
    return line.change > 0 ? why + "taken over from " + line.from : why + "passed on to " + line.to;
}

std::string planned(const HistoryLine&, const History&) {
    return "planned, stock reserved";
}

struct Words {
    std::string_view kind;
    std::string (*tell)(const HistoryLine&, const History&);
};

constexpr std::array<Words, 16> words = {{{"receive", received},
                                          {"use", used},
                                          {"keep", kept},
                                          {"put_back", put_back},
                                          {"finish", finished},
                                          {"write_off", written_off},
                                          {"correct", corrected},
                                          {"return", returned},
                                          {"sell", sold},
                                          {"split", split},
                                          {"find", found},
                                          {"give", given},
                                          {"apart", apart},
                                          {"take_in", came_back},
                                          {"level", levelled},
                                          {"planned", planned}}};

} // namespace

std::string history_words(const HistoryLine& line, const History& history) {
    if (line.kind == "reverse" && line.posting.reverses)
        return fmt::format("entry {} taken back", *line.posting.reverses);
    for (const Words& own : words)
        if (own.kind == line.kind) return own.tell(line, history);
    // A kind of movement that needs no words of its own is told by its name.
    std::string name = line.kind;
    std::replace(name.begin(), name.end(), '_', ' ');
    return name;
}

} // namespace barrow::print
