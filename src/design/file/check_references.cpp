#include "design/file/reader.hpp"

#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace barrow::design {
namespace {

class ReferenceCheck {
public:
    ReferenceCheck(const Design& design, Complaints& complaints)
        : design_(design), complaints_(complaints) {
        for (const SlotSpec& slot : design.slots) slots_.push_back(slot.name);
        for (const AdhesiveSpec& adhesive : design.adhesives) adhesives_.push_back(adhesive.name);
        if (!design.cover) return;
        for (const Panel& panel : design.cover->panels) {
            if (!panels_.empty()) folds_.push_back(panels_.back() + "/" + panel.name);
            panels_.push_back(panel.name);
        }
    }

    void run() {
        names_once();
        for (const SlotSpec& slot : design_.slots) slot_fits(slot);
        for (const AdhesiveSpec& adhesive : design_.adhesives)
            is_slot(adhesive.slot, adhesive.place.of("material"));
        if (design_.cover) is_slot(design_.cover->board, design_.cover->place.of("board"));
        if (design_.block)
            for (const LayerSpec& layer : design_.block->layers)
                is_slot(layer.slot, layer.place.of("material"));
        binding_fits();
        for (const PartSpec& part : design_.parts) part_fits(part);
        for (const PartSpec& filler : design_.fillers) part_fits(filler);
    }

private:
    /// Complains unless `name` (if it is not empty) is one of `known`.
    void one_of(const std::string& name, const std::vector<std::string>& known,
                std::string_view what, std::string_view table, const Place& place) {
        if (name.empty() || std::find(known.begin(), known.end(), name) != known.end()) return;
        std::string hint = base::did_you_mean(name, known);
        if (hint.empty())
            hint = known.empty() ? fmt::format("{} names nothing yet", table)
                                 : fmt::format("{} names {}", table, fmt::join(known, ", "));
        complaints_.add(place, fmt::format("\"{}\" is {} named in {}", name, what, table), hint);
    }

    void is_slot(const std::string& name, const Place& place) {
        one_of(name, slots_, "not", "[materials]", place);
    }

    void is_panel(const std::string& name, const Place& place) {
        one_of(name, panels_, "no panel", "[cover]", place);
    }

    void names_once() {
        std::set<std::string> seen;
        for (const Parameter& parameter : design_.parameters) seen.insert(parameter.name);
        for (const Definition& definition : design_.definitions)
            if (!seen.insert(definition.name).second)
                complaints_.add(definition.formula.place(),
                                fmt::format("the name \"{}\" is given twice", definition.name),
                                "it is a parameter too: change it there, or use another name");
    }

    void slot_fits(const SlotSpec& slot) {
        for (const std::string& other : slot.differs_from) {
            is_slot(other, slot.place.of("differs_from"));
            if (other == slot.name)
                complaints_.add(slot.place.of("differs_from"), "a paper cannot differ from itself");
        }
        is_slot(slot.reverse_of, slot.place.of("reverse_of"));
        const SlotSpec* other = named(design_.slots, slot.reverse_of);
        if (slot.reverse_of == slot.name || (other != nullptr && !other->reverse_of.empty()))
            complaints_.add(slot.place.of("reverse_of"),
                            "names a slot that is itself the reverse of another",
                            "name the slot whose paper it is");
    }

    void binding_fits() {
        if (!design_.binding) return;
        for (const auto& [key, slot] : design_.binding->slots)
            is_slot(slot, design_.binding->place.of(key));
        is_panel(design_.binding->panel, design_.binding->place.of("panel"));
    }

    void part_fits(const PartSpec& part) {
        for (const std::string& fold : part.join.folds)
            one_of(fold, folds_, "no fold between panels", "[cover]", part.place.of("join"));
        for (const std::string& panel : part.join.never_on)
            is_panel(panel, part.place.of("no_join_on"));
        for (const GlueSpec& glue : part.glue)
            one_of(glue.adhesive, adhesives_, "not", "[adhesives]", glue.place);
    }

    const Design& design_;
    Complaints& complaints_;
    std::vector<std::string> slots_;
    std::vector<std::string> adhesives_;
    std::vector<std::string> panels_;
    std::vector<std::string> folds_;
};

} // namespace

void check_references(const Design& design, Complaints& complaints) {
    ReferenceCheck(design, complaints).run();
}

} // namespace barrow::design
