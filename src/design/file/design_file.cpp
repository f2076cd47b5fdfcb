#include "design/file/design_file.hpp"

#include "base/text.hpp"
#include "design/file/reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace barrow::design {
namespace {

/// Designs may build on one another this deep; a longer chain is a circle in disguise, or nobody's
/// idea of a recipe.
constexpr std::size_t deepest_chain = 20;

class FileReader {
public:
    FileReader(const DesignFinder& find, std::vector<std::string> chain)
        : find_(find), chain_(std::move(chain)) {}

    Design read(std::string_view text, std::string_view file) {
        complaints_.file = file;
        if (!base::is_utf8(text))
            throw base::bad_input(std::string(file), "is not UTF-8 text", "save it as UTF-8");
        try {
            const toml::table root = toml::parse(text, file);
            return read_root(root);
        } catch (const toml::parse_error& error) {
            const auto& begin = error.source().begin;
            throw base::bad_input(fmt::format("{}:{}:{}", file, begin.line, begin.column),
                                  std::string(error.description()),
                                  "the file is not TOML as it stands");
        }
    }

private:
    Design read_root(const toml::table& root) {
        TomlTable top(root, "", complaints_);
        Design design = read_head(top);
        design.file = complaints_.file;
        read_tables(top, design);
        if (design.slots.empty() && !top.has("materials"))
            complaints_.add(top.place(), "the table [materials] is missing",
                            "name what the design uses: outside = \"FERN-12\"");
        if (design.parts.empty() && !top.has("part") && !design.binding)
            complaints_.add(top.place(), "the design has no [[part]]");
        check_references(design, complaints_);
        read_variants(top, design);
        top.finish();
        complaints_.throw_if_any();
        return design;
    }

    /// [design], on top of what the design builds on.
    Design read_head(TomlTable& top) {
        const toml::table* table = top.table("design");
        if (table == nullptr) {
            complaints_.add(top.place(), "the table [design] is missing",
                            "begin with [design], code = \"...\" and name = \"...\"");
            return {};
        }
        TomlTable head(*table, "[design]", complaints_);
        const std::string code = head.text("code", true);
        if (!code.empty() && !is_code(code))
            complaints_.add(head.place("code"), fmt::format("\"{}\" cannot be a code", code),
                            "use letters, digits, - and _, at most 40");
        chain_.push_back(code);
        const std::string builds_on = head.text("builds_on");
        Design design = builds_on.empty() ? Design{} : read_base(head, builds_on);
        design.code = code;
        design.builds_on = builds_on;
        design.name = head.text("name", true);
        design.about = head.text("about");
        read_without(head, design);
        head.finish();
        return design;
    }

    Design read_base(const TomlTable& head, const std::string& code) {
        const VariantCode wanted = split_code(code);
        const Place place = head.place("builds_on");
        const auto same = [&](const std::string& other) {
            return base::lowered(other) == base::lowered(wanted.design);
        };
        if (std::any_of(chain_.begin(), chain_.end(), same) || chain_.size() > deepest_chain) {
            complaints_.add(place,
                            fmt::format("these designs build on each other: {} -> {}",
                                        fmt::join(chain_, " -> "), code),
                            "one of them must stand on its own");
            complaints_.throw_if_any();
        }
        const auto text = find_ ? find_(wanted.design) : std::nullopt;
        if (!text) {
            complaints_.add(place, fmt::format("there is no design \"{}\" to build on", code),
                            "bring it in first, or keep its file beside this one");
            complaints_.throw_if_any(); // without it nothing else can be judged
        }
        const Design base = FileReader(find_, chain_).read(text->text, text->file);
        const Design* found = find_variant(base, code);
        if (found == nullptr) {
            complaints_.add(place,
                            fmt::format("{} has no variant \"{}\"", base.code, wanted.variant));
            complaints_.throw_if_any();
        }
        Design design = *found;
        design.variants.clear();
        design.variant.clear();
        design.own_code.clear();
        return design;
    }

    static void read_tables(TomlTable& top, Design& design) {
        read_parameters(top, design);
        read_definitions(top, design);
        read_slots(top, design);
        read_adhesives(top, design);
        read_cover(top, design);
        read_block(top, design);
        read_binding(top, design);
        read_parts(top, design);
        read_operations(top, design);
        read_checks(top, design);
    }

    void read_variants(TomlTable& top, Design& design) {
        const toml::table* table = top.table("variant");
        if (table == nullptr) return;
        TomlTable all(*table, "[variant]", complaints_);
        std::vector<Design> variants;
        for (const std::string& name : keys_in_file_order(*table)) {
            const toml::table* changes = all.table(name);
            if (changes == nullptr) continue;
            if (!is_name(name))
                complaints_.add(all.place(name), fmt::format("\"{}\" cannot name a variant", name),
                                "use small letters, digits and _");
            TomlTable fields(*changes, fmt::format("[variant.{}]", name), complaints_);
            Design variant = read_variant(fields, design, name);
            for (const Design& other : variants)
                if (!variant.own_code.empty()
                    && base::lowered(other.own_code) == base::lowered(variant.own_code))
                    complaints_.add(fields.place("code"), "two variants have this code");
            variants.push_back(std::move(variant));
        }
        design.variants = std::move(variants);
    }

    Design read_variant(TomlTable& fields, const Design& family, const std::string& name) {
        Design variant = family;
        variant.variant = name;
        variant.code = family.code + "." + name;
        variant.name = family.name + ", " + name;
        fields.change("name", variant.name);
        fields.change("about", variant.about);
        fields.change("code", variant.own_code);
        if (!variant.own_code.empty()
            && (!is_code(variant.own_code)
                || base::lowered(variant.own_code) == base::lowered(family.code)))
            complaints_.add(fields.place("code"),
                            fmt::format("\"{}\" cannot be the code of a variant", variant.own_code),
                            "use letters, digits, - and _, at most 40, and not the design's own");
        read_without(fields, variant);
        read_tables(fields, variant);
        check_references(variant, complaints_);
        fields.finish();
        return variant;
    }

    const DesignFinder& find_;
    std::vector<std::string> chain_; ///< codes of the designs being read, outermost first
    Complaints complaints_;
};

} // namespace

Design read_design(std::string_view text, std::string_view file, const DesignFinder& find) {
    return FileReader(find, {}).read(text, file);
}

std::string code_in(std::string_view text) {
    try {
        return toml::parse(text)["design"]["code"].value_or(std::string());
    } catch (const toml::parse_error&) {
        return {};
    }
}

VariantCode split_code(std::string_view code) {
    const std::size_t dot = code.rfind('.');
    if (dot == std::string_view::npos) return {std::string(code), {}};
    return {std::string(code.substr(0, dot)), std::string(code.substr(dot + 1))};
}

const Design* find_variant(const Design& design, std::string_view code) {
    const std::string wanted = base::lowered(code);
    if (base::lowered(design.code) == wanted) return &design;
    for (const Design& variant : design.variants)
        if (base::lowered(variant.code) == wanted
            || (!variant.own_code.empty() && base::lowered(variant.own_code) == wanted))
            return &variant;
    return nullptr;
}

} // namespace barrow::design
