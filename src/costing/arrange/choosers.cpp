#include "costing/arrange/choosers.hpp"

#include "base/error.hpp"
#include "base/text.hpp"
#include "costing/bill/cut_wants.hpp"
#include "design/work/slot_choice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace barrow::costing {
namespace {

using design::Same;
using design::WorkedPart;
using design::WorkedSlot;

class Choosing {
public:
    Choosing(const std::vector<Run>& runs, const std::vector<ShelfMaterial>& shelf)
        : runs_(runs), shelf_(shelf) {}

    std::vector<Chooser> run() {
        for (std::size_t r = 0; r < runs_.size(); ++r) {
            by_slot_.clear();
            for (std::size_t p = 0; p < runs_[r].design.parts.size(); ++p) add(r, p);
            tie_differing(r);
        }
        return std::move(choosers_);
    }

private:
    const WorkedSlot* slot_of(std::size_t r, const std::string& name) const {
        for (const WorkedSlot& slot : runs_[r].design.slots)
            if (slot.name == name) return &slot;
        return nullptr;
    }

    const WorkedSlot* deciding(std::size_t r, const WorkedSlot* slot) const {
        return slot == nullptr ? nullptr : design::deciding_slot(runs_[r].design, slot->name);
    }

    std::vector<std::size_t> papers_of(const design::SlotChoice& choice, const std::string& slot,
                                       const std::string& where) const {
        std::vector<std::size_t> papers;
        for (const std::string& code : choice.codes)
            papers.push_back(material_index(shelf_, code, where));
        if (!papers.empty()) return papers;
        for (std::size_t i = 0; i < shelf_.size(); ++i)
            if (base::lowered(shelf_[i].collection) == base::lowered(choice.collection))
                papers.push_back(i);
        if (papers.empty())
            throw base::bad_input(
                where, fmt::format("the shop has no paper of the collection {}", choice.collection),
                "give materials their collection, or choose one: --use " + slot + "=CODE");
        return papers;
    }

    static bool may_be_turned_over(const ShelfMaterial& paper) {
        return paper.two_faced.value_or(true);
    }

    void add(std::size_t r, std::size_t p) {
        const Run& run = runs_[r];
        const WorkedPart& part = run.design.parts[p];
        const std::string where = title_of(run, p);
        const WorkedSlot* asked = slot_of(r, part.slot);
        const WorkedSlot* slot = deciding(r, asked);
        if (part.material.empty() && slot == nullptr) throw base::broken(where + " has no slot");
        std::vector<std::size_t> papers = papers_of(
            design::choice_of(run.design, part), slot == nullptr ? part.slot : slot->name, where);
        if (papers.size() > 1) keep_usable(part, asked, papers);
        for (const std::size_t paper : papers) refuse_other_form(part, shelf_[paper], where);
        if (papers.size() == 1 || slot == nullptr) {
            add_settled(r, p, papers, asked != nullptr && asked->offcuts_only);
            return;
        }
        if (slot->same == Same::piece) {
            Chooser& chooser = push(r, p, slot->name, papers, asked->offcuts_only);
            chooser.units = part.number * run.journals;
            chooser.journals = 0;
            chooser.uses = {{p, 1}};
            return;
        }
        add_to_slot(r, p, *slot, *asked, papers);
    }

    /// Of several papers, those the part can be taken from at all.
    void keep_usable(const WorkedPart& part, const WorkedSlot* asked,
                     std::vector<std::size_t>& papers) const {
        std::vector<std::size_t> usable;
        for (const std::size_t paper : papers) {
            // A ribbon of the same collection is not for this part.
            if (!form_fits(part, shelf_[paper])) continue;
            if (asked != nullptr && !asked->reverse_of.empty()
                && !may_be_turned_over(shelf_[paper]))
                continue;
            usable.push_back(paper);
        }
        if (!usable.empty()) papers = std::move(usable);
    }

    Chooser& push(std::size_t r, std::size_t p, const std::string& slot,
                  std::vector<std::size_t> papers, bool only) {
        Chooser chooser;
        chooser.run = r;
        chooser.slot = slot;
        chooser.papers = std::move(papers);
        chooser.offcuts_only = only;
        chooser.uses = {{p, runs_[r].design.parts[p].number}};
        chooser.units = runs_[r].journals;
        choosers_.push_back(std::move(chooser));
        return choosers_.back();
    }

    /// Pieces of a settled material are divided one by one; nothing else is to be decided.
    void add_settled(std::size_t r, std::size_t p, const std::vector<std::size_t>& papers,
                     bool only) {
        Chooser& chooser = push(r, p, runs_[r].design.parts[p].slot, papers, only);
        chooser.units = runs_[r].design.parts[p].number * runs_[r].journals;
        chooser.journals = 0;
        chooser.uses = {{p, 1}};
    }

    void add_to_slot(std::size_t r, std::size_t p, const WorkedSlot& slot, const WorkedSlot& asked,
                     const std::vector<std::size_t>& papers) {
        const Run& run = runs_[r];
        const auto known = by_slot_.find(slot.name);
        if (known != by_slot_.end()) {
            Chooser& chooser = choosers_[known->second];
            chooser.uses.push_back({p, run.design.parts[p].number * per_unit(run, chooser)});
            // Each of its parts must be possible: what both allow.
            std::vector<std::size_t> both;
            for (const std::size_t paper : chooser.papers)
                if (std::find(papers.begin(), papers.end(), paper) != papers.end())
                    both.push_back(paper);
            if (both.empty())
                throw base::refused(fmt::format("{}: no paper of {} will do for all its parts",
                                                run.design.code, slot.name),
                                    "choose one: --use " + slot.name + "=CODE");
            chooser.papers = std::move(both);
            return;
        }
        by_slot_[slot.name] = choosers_.size();
        Chooser& chooser = push(r, p, slot.name, papers, asked.offcuts_only);
        if (slot.same == Same::run) {
            chooser.units = 1;
            chooser.journals = run.journals;
            chooser.uses[0].copies *= run.journals;
        }
    }

    static std::int64_t per_unit(const Run& run, const Chooser& chooser) {
        return chooser.units == 1 && chooser.journals == run.journals ? run.journals : 1;
    }

    /// Slots of a run that must have another paper in the same journal.
    void tie_differing(std::size_t r) {
        for (const WorkedSlot& slot : runs_[r].design.slots) {
            const WorkedSlot* mine = deciding(r, &slot);
            for (const std::string& other_name : slot.differs_from) {
                const WorkedSlot* other = deciding(r, slot_of(r, other_name));
                if (mine == nullptr || other == nullptr || mine == other) continue;
                tie(r, *mine, *other);
            }
        }
    }

    void tie(std::size_t r, const WorkedSlot& a, const WorkedSlot& b) {
        const auto first = by_slot_.find(a.name);
        const auto second = by_slot_.find(b.name);
        if (first != by_slot_.end() && second != by_slot_.end()) {
            add_once(choosers_[first->second].differs_from, second->second);
            add_once(choosers_[second->second].differs_from, first->second);
            return;
        }
        // One of them is settled: the other must not have its paper.
        if (first != by_slot_.end()) strike(r, choosers_[first->second], b);
        if (second != by_slot_.end()) strike(r, choosers_[second->second], a);
    }

    static void add_once(std::vector<std::size_t>& list, std::size_t entry) {
        if (std::find(list.begin(), list.end(), entry) == list.end()) list.push_back(entry);
    }

    void strike(std::size_t r, Chooser& chooser, const WorkedSlot& settled) const {
        if (settled.material.empty()) return;
        const std::size_t paper =
            material_index(shelf_, settled.material, "the slot " + settled.name);
        auto& papers = chooser.papers;
        papers.erase(std::remove(papers.begin(), papers.end(), paper), papers.end());
        if (papers.empty())
            throw base::refused(fmt::format("{}: {} must differ from {}, but {} is all there is",
                                            runs_[r].design.code, chooser.slot, settled.name,
                                            shelf_[paper].code),
                                "choose another: --use " + settled.name + "=CODE");
    }

    const std::vector<Run>& runs_;
    const std::vector<ShelfMaterial>& shelf_;
    std::vector<Chooser> choosers_;
    std::map<std::string, std::size_t> by_slot_; ///< of the run at hand
};

} // namespace

std::vector<Chooser> choosers_of(const std::vector<Run>& runs,
                                 const std::vector<ShelfMaterial>& shelf) {
    return Choosing(runs, shelf).run();
}

} // namespace barrow::costing
