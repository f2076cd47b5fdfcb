#include "layout/lp/linear_program.hpp"

#include <Cbc_C_Interface.h>
#include <ClpSimplex.hpp>

#include <fmt/format.h>

#include <clocale>
#include <cmath>
#include <cstdlib>
#include <numeric>
#include <string>

namespace barrow::layout {

namespace {

/// Every solve allocates and frees arrays of some 100 KB. By default glibc returns them to the
/// system each time, which takes longer than solving (measured: 40 % of the time). Once a large
/// block has been freed it keeps more (mallopt(3), "dynamic mmap threshold"); elsewhere this does
/// nothing.
void keep_memory_between_solves() {
    static const bool done = [] {
        void* volatile large = std::malloc(std::size_t{30} << 20);
        std::free(large);
        return true;
    }();
    static_cast<void>(done);
}

/// Options of Clp for continuing where the last solve ended: keep the work areas (1), keep the
/// factorization if it still fits (2), minimal set-up (4). Saves a third of the time of many short
/// solves.
constexpr int as_left = 1 + 2 + 4;

/// While it lives, this thread reads and writes numbers with a decimal point, whatever the locale
/// of the program is.
class PlainNumbers {
public:
    PlainNumbers() : plain_(newlocale(LC_ALL_MASK, "C", nullptr)), before_(uselocale(plain_)) {}
    ~PlainNumbers() {
        uselocale(before_);
        freelocale(plain_);
    }
    PlainNumbers(const PlainNumbers&) = delete;
    PlainNumbers& operator=(const PlainNumbers&) = delete;

private:
    locale_t plain_;
    locale_t before_;
};

class CbcProblem {
public:
    CbcProblem() : model_(Cbc_newModel()) {
        set("logLevel", "0");
        set("threads", "0");
    }
    ~CbcProblem() { Cbc_deleteModel(model_); }
    CbcProblem(const CbcProblem&) = delete;
    CbcProblem& operator=(const CbcProblem&) = delete;

    Cbc_Model* get() const { return model_; }
    void set(const char* name, const std::string& value) const {
        Cbc_setParameter(model_, name, value.c_str());
    }

private:
    Cbc_Model* model_;
};

} // namespace

struct LinearProgram::Solver {
    ClpSimplex model;
    std::int64_t iterations = 0;
    bool limits_changed = false;
    std::vector<int> rows;
    std::vector<double> values;
};

LinearProgram::LinearProgram(const std::vector<Row>& rows) : solver_(std::make_unique<Solver>()) {
    keep_memory_between_solves();
    ClpSimplex& model = solver_->model;
    model.setLogLevel(0);
    model.scaling(0); // entries are small whole numbers
    model.setOptimizationDirection(1);
    model.resize(static_cast<int>(rows.size()), 0);
    for (std::size_t i = 0; i < rows.size(); ++i) limit_row(static_cast<std::int32_t>(i), rows[i]);
    solver_->limits_changed = false;
}

LinearProgram::~LinearProgram() = default;

std::int32_t LinearProgram::add_column(double cost, const std::vector<Entry>& entries) {
    solver_->rows.clear();
    solver_->values.clear();
    for (const Entry& entry : entries) {
        solver_->rows.push_back(entry.row);
        solver_->values.push_back(entry.value);
    }
    solver_->model.addColumn(static_cast<int>(entries.size()), solver_->rows.data(),
                             solver_->values.data(), 0, COIN_DBL_MAX, cost);
    return solver_->model.numberColumns() - 1;
}

void LinearProgram::limit_column(std::int32_t column, double least, double most) {
    solver_->model.setColumnBounds(column, least, most >= infinite ? COIN_DBL_MAX : most);
    solver_->limits_changed = true;
}

void LinearProgram::limit_row(std::int32_t row, const Row& limits) {
    const double most = limits.most >= infinite ? COIN_DBL_MAX : limits.most;
    const double least = limits.least <= -infinite ? -COIN_DBL_MAX : limits.least;
    solver_->model.setRowBounds(row, least, most);
    solver_->limits_changed = true;
}

bool LinearProgram::solve() {
    ClpSimplex& model = solver_->model;
    // Starts from the last basis, which stays feasible when columns are added, and dual feasible
    // when limits change.
    if (solver_->limits_changed) {
        model.dual(0, as_left);
        solver_->iterations += model.numberIterations();
        solver_->limits_changed = false;
        if (model.status() == 0) return true;
    }
    model.primal(1);
    solver_->iterations += model.numberIterations();
    return model.status() == 0;
}

std::int64_t LinearProgram::iterations() const {
    return solver_->iterations;
}

double LinearProgram::cost() const {
    return solver_->model.objectiveValue();
}

double LinearProgram::dual(std::int32_t row) const {
    return solver_->model.dualRowSolution()[row];
}

double LinearProgram::column(std::int32_t column) const {
    return solver_->model.primalColumnSolution()[column];
}

std::int32_t LinearProgram::columns() const {
    return solver_->model.numberColumns();
}

double LinearProgram::reduced_cost(std::int32_t column) const {
    return solver_->model.dualColumnSolution()[column];
}

std::vector<std::int64_t> LinearProgram::in_whole_numbers(const std::vector<std::int32_t>& columns,
                                                          int nodes, double gap,
                                                          double most) const {
    const std::vector<int> which(columns.begin(), columns.end());
    std::vector<int> all_rows(static_cast<std::size_t>(solver_->model.numberRows()));
    std::iota(all_rows.begin(), all_rows.end(), 0);
    const ClpModel part(&solver_->model, static_cast<int>(all_rows.size()), all_rows.data(),
                        static_cast<int>(which.size()), which.data());
    const CbcProblem whole;
    Cbc_loadProblem(whole.get(), part.numberColumns(), part.numberRows(),
                    part.matrix()->getVectorStarts(), part.matrix()->getIndices(),
                    part.matrix()->getElements(), part.columnLower(), part.columnUpper(),
                    part.objective(), part.rowLower(), part.rowUpper());
    for (int c = 0; c < part.numberColumns(); ++c) Cbc_setInteger(whole.get(), c);
    // These cuts cost more than they save over patterns (measured: 40 journals over 24 papers take
    // a quarter of the time without them, and the plans are no worse).
    const PlainNumbers plain; // the settings are read as text
    whole.set("gomoryCuts", "off");
    whole.set("probingCuts", "off");
    whole.set("maxNodes", fmt::format("{}", nodes));
    whole.set("ratioGap", fmt::format("{}", gap));
    if (most < infinite) whole.set("cutoff", fmt::format("{}", most));
    Cbc_solve(whole.get());
    solver_->iterations += Cbc_getIterationCount(whole.get());
    if (Cbc_numberSavedSolutions(whole.get()) == 0) return {};
    std::vector<std::int64_t> answer;
    const double* found = Cbc_getColSolution(whole.get());
    for (std::size_t i = 0; i < which.size(); ++i) answer.push_back(std::llround(found[i]));
    return answer;
}

} // namespace barrow::layout
