#include "layout/joint/joint.hpp"

#include "layout/joint/joint_lp.hpp"

namespace barrow::layout {
namespace {

/// Columns with a reduced cost above this share of the total are left out of the search in whole
/// numbers, which finds better answers among few; where it finds none, the next share is tried, at
/// last all. Found by trial.
constexpr double dearest_columns[] = {1e-3, 1e-4, 0, 1e9};
/// That search stops this near its own bound, and after this many nodes.
constexpr double near_enough = 0.01;
constexpr int most_nodes = 20;

JointFalls falls_of(const JointQuestion& question, const JointLp& lp,
                    const std::vector<std::int32_t>& columns,
                    const std::vector<std::int64_t>& numbers) {
    JointFalls falls;
    for (const JointChoice& choice : question.choices) falls.emplace_back(choice.options.size(), 0);
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const JointLp::Column& column = lp.columns()[static_cast<std::size_t>(columns[i])];
        if (column.option) falls[column.option->first][column.option->second] = numbers[i];
    }
    return falls;
}

} // namespace

std::optional<JointFalls> joint_falls(const JointQuestion& question, std::int64_t work) {
    JointLp lp(question, work);
    if (!lp.generate()) return std::nullopt;
    const LinearProgram& program = lp.program();
    for (const double part : dearest_columns) {
        std::vector<std::int32_t> columns;
        for (std::int32_t c = 0; c < program.columns(); ++c)
            if (program.reduced_cost(c) <= part * program.cost()) columns.push_back(c);
        const auto numbers = program.in_whole_numbers(columns, most_nodes, near_enough);
        if (!numbers.empty()) return falls_of(question, lp, columns, numbers);
    }
    return std::nullopt;
}

} // namespace barrow::layout
