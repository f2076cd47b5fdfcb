#pragma once

#include <exception>
#include <string>
#include <vector>

namespace barrow::base {

/// Why an operation ended. The numbers are the program's exit codes (README, "Exit codes").
enum class Kind {
    refused = 1,   ///< a rule of the shop says no: not enough stock, cannot be laid out
    usage = 2,     ///< the command line itself is wrong
    bad_input = 3, ///< a file, line or field that cannot be understood
    shop = 4,      ///< the shop file is damaged, locked, missing or from a newer version
    machine = 5,   ///< disk full, no permission
};

/// One thing wrong. `where` names file, line and field as far as they are known
/// ("papers.csv:7, pack_price"); `what` says what was found and what was expected;
/// `hint` says what to do. `where` and `hint` may be empty.
struct Problem {
    std::string where;
    std::string what;
    std::string hint = {};
};

/// Ends the operation. Outcomes one expects (a shortage in an estimate) are return values instead.
class Error : public std::exception {
public:
    Error(Kind kind, std::vector<Problem> problems);
    Error(Kind kind, std::string what, std::string hint = {});

    Kind kind() const { return kind_; }
    const std::vector<Problem>& problems() const { return problems_; }

    /// All problems, one a line, hints in brackets.
    const char* what() const noexcept override { return text_.c_str(); }

private:
    Kind kind_;
    std::vector<Problem> problems_;
    std::string text_;
};

/// Shorthands for the commonest ends of an operation.
Error refused(std::string what, std::string hint = {});
Error bad_input(std::string where, std::string what, std::string hint = {});

/// Something that cannot happen unless the program itself is wrong: said loudly, with the place,
/// instead of going on with a wrong figure. Reported as Kind::shop never is: exit code 5.
Error broken(const std::string& what);

} // namespace barrow::base
