#include "design/design_file.hpp"

#include "base/text.hpp"
#include "design/toml_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

bool is_name(std::string_view text) {
    if (text.empty() || text.size() > 40 || text[0] < 'a' || text[0] > 'z') return false;
    return std::all_of(text.begin(), text.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
    });
}

bool is_code(std::string_view text) {
    if (text.empty() || text.size() > 40) return false;
    return std::all_of(text.begin(), text.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9')
            || c == '-' || c == '_';
    });
}

class DesignReader {
public:
    DesignReader(const toml::table& root, std::string file) : root_(root) {
        complaints_.file = std::move(file);
        design_.file = complaints_.file;
    }

    Design read() {
        TomlTable top(root_, "", complaints_);
        read_head(top);
        read_parameters(top);
        read_definitions(top);
        read_cover(top);
        read_slots(top);
        read_parts(top);
        read_operations(top);
        top.finish();
        complaints_.throw_if_any();
        return std::move(design_);
    }

private:
    void read_head(TomlTable& top) {
        const toml::table* table = top.table("design");
        if (table == nullptr) {
            complaints_.add(top.place(), "the table [design] is missing",
                            "begin with [design], code = \"...\" and name = \"...\"");
            return;
        }
        TomlTable head(*table, "[design]", complaints_);
        design_.code = head.text("code", true);
        design_.name = head.text("name", true);
        design_.about = head.text("about");
        if (!design_.code.empty() && !is_code(design_.code))
            complaints_.add(head.place("code"), fmt::format("\"{}\" cannot be a code", design_.code),
                            "use letters, digits, - and _, at most 40");
        head.finish();
    }

    bool check_name(const std::string& name, const Place& place) {
        if (!is_name(name)) {
            complaints_.add(place, fmt::format("\"{}\" cannot be a name in formulas", name),
                            "begin with a small letter; then small letters, digits and _");
            return false;
        }
        if (std::find(names_.begin(), names_.end(), name) != names_.end()) {
            complaints_.add(place, fmt::format("the name \"{}\" is given twice", name));
            return false;
        }
        names_.push_back(name);
        return true;
    }

    std::optional<Quantity> constant(const Formula& formula) {
        if (formula.empty()) return std::nullopt;
        const Lookup no_names = [&](std::string_view name, std::size_t offset) -> Quantity {
            throw base::bad_input(formula.place().at(offset),
                                  fmt::format("\"{}\" cannot be used in a parameter", name),
                                  "parameters are plain values; use [let] for formulas over them");
        };
        try {
            return evaluate(formula, no_names);
        } catch (const base::Error& error) {
            for (const auto& problem : error.problems()) complaints_.problems.push_back(problem);
            return std::nullopt;
        }
    }

    void read_parameters(TomlTable& top) {
        const toml::table* table = top.table("parameters");
        if (table == nullptr) return;
        for (const std::string& name : keys_in_file_order(*table)) {
            const toml::node& node = *table->get(name);
            TomlTable all(*table, "[parameters]", complaints_);
            Parameter parameter;
            parameter.name = name;
            parameter.place = all.place(name);
            if (!check_name(name, parameter.place)) continue;
            if (const auto* details = node.as_table()) {
                read_parameter(*details, parameter);
            } else if (const auto value = constant(all.formula_of(node, parameter.place.field))) {
                parameter.usual = *value;
            }
            design_.parameters.push_back(std::move(parameter));
        }
    }

    void read_parameter(const toml::table& table, Parameter& parameter) {
        TomlTable details(table, parameter.place.field, complaints_);
        if (const auto usual = constant(details.formula("usual", true))) parameter.usual = *usual;
        parameter.about = details.text("about");
        parameter.least = constant(details.formula("least"));
        parameter.most = constant(details.formula("most"));
        parameter.whole = details.flag("whole");
        for (const auto& limit : {parameter.least, parameter.most})
            if (limit && limit->dimension != parameter.usual.dimension)
                complaints_.add(parameter.place,
                                fmt::format("the usual value is {}, but a limit is {}",
                                            describe(parameter.usual.dimension),
                                            describe(limit->dimension)));
        details.finish();
    }

    void read_definitions(TomlTable& top) {
        const toml::table* table = top.table("let");
        if (table == nullptr) return;
        TomlTable all(*table, "[let]", complaints_);
        for (const std::string& name : keys_in_file_order(*table)) {
            if (!check_name(name, all.place(name))) continue;
            design_.definitions.push_back({name, all.formula(name, true)});
        }
    }

    void read_cover(TomlTable& top) {
        const toml::table* table = top.table("cover");
        if (table == nullptr) return;
        TomlTable cover(*table, "[cover]", complaints_);
        CoverSpec spec;
        spec.height = cover.formula("height", true);
        const toml::array* panels = cover.array("panels");
        if (panels == nullptr || panels->empty())
            complaints_.add(cover.place(), "the cover has no panels",
                            "list them from left to right: panels = [ { name = \"front\", width = "
                            "\"...\" }, ... ]");
        else
            for (const toml::node& node : *panels) read_panel(cover, node, spec);
        cover.finish();
        design_.cover = std::move(spec);
    }

    void read_panel(const TomlTable& cover, const toml::node& node, CoverSpec& spec) {
        const auto* table = node.as_table();
        if (table == nullptr) {
            complaints_.add(cover.place_of(node, "[cover] panels"),
                            "a panel is { name = \"...\", width = \"...\" }");
            return;
        }
        TomlTable fields(*table, "[cover] panel", complaints_);
        Panel panel{fields.text("name", true), fields.formula("width", true)};
        const bool taken = panel.name == "length" || panel.name == "height"
            || std::any_of(spec.panels.begin(), spec.panels.end(),
                           [&](const Panel& other) { return other.name == panel.name; });
        if (!is_name(panel.name) || taken)
            complaints_.add(fields.place("name"),
                            fmt::format("\"{}\" cannot be the name of a panel", panel.name),
                            "each panel has its own name of small letters, digits and _, "
                            "other than length and height");
        fields.finish();
        spec.panels.push_back(std::move(panel));
    }

    void read_slots(TomlTable& top) {
        const toml::table* table = top.table("materials");
        if (table == nullptr) {
            complaints_.add(top.place(), "the table [materials] is missing",
                            "name what the design uses: outside = \"FERN-12\"");
            return;
        }
        for (const std::string& name : keys_in_file_order(*table)) {
            TomlTable all(*table, "[materials]", complaints_);
            Slot slot;
            slot.name = name;
            slot.place = all.place(name);
            if (!is_name(name))
                complaints_.add(slot.place, fmt::format("\"{}\" cannot name a material", name),
                                "use small letters, digits and _");
            if (const auto* details = table->get(name)->as_table()) {
                TomlTable fields(*details, slot.place.field, complaints_);
                slot.code = fields.text("code", true);
                slot.about = fields.text("about");
                fields.finish();
            } else {
                slot.code = all.text(name, true);
            }
            design_.slots.push_back(std::move(slot));
        }
    }

    void read_parts(TomlTable& top) {
        const toml::array* list = top.array("part");
        if (list == nullptr || list->empty()) {
            complaints_.add(top.place(), "the design has no [[part]]");
            return;
        }
        for (const toml::node& node : *list) {
            const auto* table = node.as_table();
            if (table == nullptr) {
                complaints_.add(top.place("part"), "a part is written as [[part]]");
                continue;
            }
            read_part(*table);
        }
    }

    void read_part(const toml::table& table) {
        const auto name = table["name"].value<std::string>();
        TomlTable fields(table, fmt::format("part \"{}\"", name.value_or("?")), complaints_);
        PartSpec part;
        part.place = fields.place();
        part.name = fields.text("name", true);
        part.slot = fields.text("material", true);
        part.about = fields.text("about");
        part.number = fields.formula("number");
        part.width = fields.formula("width");
        part.height = fields.formula("height");
        part.length = fields.formula("length");
        part.loops = fields.formula("loops");
        part.amount = fields.formula("amount");
        part.overlap = fields.formula("overlap");
        part.from = fields.formula("from");
        read_turn(fields, part);
        read_join(fields, part);
        settle_take(fields, part);
        check_slot(fields, part);
        for (const PartSpec& other : design_.parts)
            if (other.name == part.name && !part.name.empty())
                complaints_.add(fields.place("name"),
                                fmt::format("two parts are named \"{}\"", part.name));
        fields.finish();
        design_.parts.push_back(std::move(part));
    }

    void read_turn(TomlTable& fields, PartSpec& part) {
        const std::string turn = fields.text("turn");
        if (turn == "none") {
            part.turn = Turn::none;
        } else if (turn == "half") {
            part.turn = Turn::half;
        } else if (turn == "quarter") {
            part.turn = Turn::quarter;
        } else if (!turn.empty()) {
            complaints_.add(fields.place("turn"), fmt::format("there is no turn \"{}\"", turn),
                            "write none, half or quarter, or leave it out to follow the pattern");
        }
        const std::string grain = fields.text("grain");
        if (grain == "width") {
            part.grain = Grain::width;
        } else if (grain == "height") {
            part.grain = Grain::height;
        } else if (!grain.empty()) {
            complaints_.add(fields.place("grain"), fmt::format("there is no grain \"{}\"", grain),
                            "write width or height: the side the grain runs along");
        }
    }

    void read_join(TomlTable& fields, PartSpec& part) {
        const std::string join = fields.text("join");
        part.join_at_folds = join == "folds";
        if (!join.empty() && join != "folds" && join != "none")
            complaints_.add(fields.place("join"), fmt::format("there is no join \"{}\"", join),
                            "write none or folds");
        if (part.join_at_folds && !design_.cover)
            complaints_.add(fields.place("join"), "is at the folds, but the design has no [cover]");
        if (part.join_at_folds && part.overlap.empty())
            complaints_.add(fields.place("join"), "needs an overlap beside it",
                            "for example overlap = \"8 mm\"");
        if (!part.join_at_folds && (!part.overlap.empty() || !part.from.empty()))
            complaints_.add(fields.place(), "overlap and from only go with join = \"folds\"");
    }

    /// Which of the five ways of using a material up this is, told by the keys given.
    void settle_take(const TomlTable& fields, PartSpec& part) {
        const bool piece = !part.width.empty() || !part.height.empty();
        const int ways = (piece ? 1 : 0) + (part.length.empty() ? 0 : 1)
            + (part.loops.empty() ? 0 : 1) + (part.amount.empty() ? 0 : 1);
        const std::string forms = "a part has width and height, or length, or loops, or amount, "
                                  "or only a number";
        if (ways > 1) complaints_.add(fields.place(), "it is not clear what the part is", forms);
        if (piece && !(fields.has("width") && fields.has("height")))
            complaints_.add(fields.place(), "a piece needs both width and height");
        if (ways == 0 && !fields.has("number"))
            complaints_.add(fields.place(), "it is not said how much of the material it takes", forms);
        if (piece) {
            part.take = Take::piece;
        } else if (!part.length.empty()) {
            part.take = Take::length;
        } else if (!part.loops.empty()) {
            part.take = Take::loops;
        } else if (!part.amount.empty()) {
            part.take = Take::spread;
        }
        if (part.take != Take::piece && (part.turn || part.grain || part.join_at_folds))
            complaints_.add(fields.place(), "turn, grain and join only go with width and height");
    }

    void check_slot(const TomlTable& fields, const PartSpec& part) {
        if (part.slot.empty()) return;
        std::vector<std::string> names;
        for (const Slot& slot : design_.slots) {
            if (slot.name == part.slot) return;
            names.push_back(slot.name);
        }
        std::string hint = base::did_you_mean(part.slot, names);
        if (hint.empty()) hint = fmt::format("[materials] names {}", fmt::join(names, ", "));
        complaints_.add(fields.place("material"),
                        fmt::format("\"{}\" is not named in [materials]", part.slot), hint);
    }

    void read_operations(TomlTable& top) {
        const toml::array* list = top.array("operation");
        if (list == nullptr) return;
        for (const toml::node& node : *list) {
            const auto* table = node.as_table();
            if (table == nullptr) {
                complaints_.add(top.place("operation"), "an operation is written as [[operation]]");
                continue;
            }
            const auto name = (*table)["name"].value<std::string>();
            TomlTable fields(*table, fmt::format("operation \"{}\"", name.value_or("?")), complaints_);
            Operation operation{fields.text("name", true), fields.formula("minutes", true), false};
            const std::string per = fields.text("per");
            operation.per_batch = per == "batch";
            if (!per.empty() && per != "batch" && per != "journal")
                complaints_.add(fields.place("per"), fmt::format("there is no per \"{}\"", per),
                                "write journal or batch");
            fields.finish();
            design_.operations.push_back(std::move(operation));
        }
    }

    const toml::table& root_;
    Complaints complaints_;
    Design design_;
    std::vector<std::string> names_;
};

} // namespace

Design read_design(std::string_view text, std::string_view file) {
    if (!base::is_utf8(text))
        throw base::bad_input(std::string(file), "is not UTF-8 text", "save it as UTF-8");
    try {
        const toml::table root = toml::parse(text, file);
        return DesignReader(root, std::string(file)).read();
    } catch (const toml::parse_error& error) {
        const auto& begin = error.source().begin;
        throw base::bad_input(fmt::format("{}:{}:{}", file, begin.line, begin.column),
                              std::string(error.description()), "the file is not TOML as it stands");
    }
}

} // namespace barrow::design
