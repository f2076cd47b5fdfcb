#pragma once

#include "base/error.hpp"
#include "design/formula/not_to_be_had.hpp"
#include "design/work/names.hpp"
#include "design/work/work_out.hpp"

#include <deque>
#include <optional>
#include <string>
#include <vector>

namespace barrow::design {

/// What lies on the desk while a design is worked out: what is given, the names, the answer as far
/// as it has come, and the problems met. Each stage (names first, then numbers) is a function of
/// its own that takes the desk.
class Desk {
public:
    Desk(const Design& the_design, const Changes& the_changes, const Facts& the_facts)
        : design(the_design), changes(the_changes), facts(the_facts) {}

    const Design& design;
    const Changes& changes;
    const Facts& facts;
    Names names;
    Worked worked;

    /// Does `work`; a problem it meets is noted, and the working out goes on with the next thing.
    /// `place` is named for problems that have no place of their own.
    template <typename Work>
    void attempt(const Place& place, Work work) {
        try {
            work();
        } catch (const base::Error& error) {
            note(error, place);
        }
    }

    /// The answer of `work`, or nothing (and a word in `not_known`) when it hangs on what is not to
    /// be had.
    template <typename Work>
    auto if_known(Work work) -> std::optional<decltype(work())> {
        try {
            return work();
        } catch (const NotToBeHad& missing) {
            say_not_known(missing);
            return std::nullopt;
        }
    }

    /// Notes a problem; each is told once.
    void note(const base::Error& error, const Place& place);
    /// Throws everything noted, if anything was.
    void throw_if_any() const;

    void warn(std::string text, Severity severity = Severity::mind);
    void say_not_known(const NotToBeHad& missing);

    /// A length above zero; zero or more. Throw base::Error naming the formula's place.
    base::Length length_of(const Formula& formula);
    base::Length length_or_zero(const Formula& formula);
    /// A whole number from zero to 100 000.
    std::int64_t count_of(const Formula& formula);
    /// A plain number, zero or more.
    base::Rational number_of(const Formula& formula);
    /// Throws: `formula` came to `value`, but `wanted` was wanted.
    [[noreturn]] static void refuse(const Formula& formula, const Quantity& value,
                                    const std::string& wanted);

    /// Adds "name = formula = spelled = value" to the explanations.
    void explain(const std::string& group, const std::string& name, const Formula& formula);
    void explain(const std::string& group, const std::string& name, const std::string& formula,
                 const std::string& spelled, const Quantity& value);

    /// A formula of the program's own, kept as long as the desk.
    const Formula& own_formula(std::string text, const Place& place);

private:
    std::deque<Formula> own_;
    std::vector<base::Problem> problems_;
    bool all_refused_ = true; ///< every problem so far is of Kind::refused
};

/// Stages that give names to formulas. They compute nothing yet.
void set_parameters(Desk& desk);
void settle_slots(Desk& desk);
void name_facts(Desk& desk);
void name_cover(Desk& desk);
void name_block(Desk& desk);
void name_binding(Desk& desk);

/// Stages that compute, in this order.
void explain_facts(Desk& desk);
void work_cover(Desk& desk);
void check_contents(Desk& desk);
void work_block(Desk& desk);
void work_binding(Desk& desk);
void work_parts(Desk& desk);
void work_glue(Desk& desk);
void work_checks(Desk& desk);

/// The materials a slot may be filled with: its one code, the codes it may be any of, or those of
/// its collection that are known. Empty when nothing is known of the collection.
std::vector<std::string> candidates(const Desk& desk, const WorkedSlot& slot);
const WorkedSlot* worked_slot(const Desk& desk, const std::string& name);

/// A part as the design (or the binding) specifies it, worked out; nothing when its number is zero.
std::optional<WorkedPart> work_part(Desk& desk, const PartSpec& spec, const std::string& group);

/// Joins, grain and size against the sheets there are.
void settle_joins(Desk& desk, const PartSpec& spec, WorkedPart& part);
void settle_sheet(Desk& desk, const PartSpec& spec, WorkedPart& part);

} // namespace barrow::design
