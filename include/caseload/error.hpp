// SPDX-License-Identifier: MIT
// Three channels, never mixed: Error (cannot calculate), Note (calculated, with a reservation),
// assert (our own mistake).
#pragma once

#include <cmath>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// A place in the user's file. line == 0: no place in a file (library call, command line).
struct Where {
    std::string file;
    int line = 0;
    int column = 0;           ///< 1-based, counted in characters
    int width = 0;            ///< characters to underline; 0: one caret
    std::string source_line;  ///< the line itself, for the caret display
};

/// One thing that is wrong, in words a builder can act on.
struct Problem {
    Where where;
    std::string text;  ///< what is wrong: key, what was read, what is accepted
    std::string hint;  ///< what to do; may be empty
};

/// The only exception type thrown by this library.
class Error : public std::runtime_error {
public:
    enum class Kind { input = 2, domain = 3, convergence = 4, file = 5 };  // values are exit codes

    Error(Kind kind, std::vector<Problem> problems);
    Error(Kind kind, std::string text);

    [[nodiscard]] Kind kind() const noexcept { return kind_; }
    [[nodiscard]] const std::vector<Problem>& problems() const noexcept { return problems_; }

private:
    Kind kind_;
    std::vector<Problem> problems_;
};

/// Throws Error{input} about something without a place in a file: an argument, a record.
[[noreturn]] void refuse_input(std::string text, std::string hint = {});

/// A range, both ends included.
struct Limits {
    double low;
    double high;
};

// What a check below throws. Every formula begins with some, so they are inline.
[[noreturn]] void refuse_not_positive(double x, std::string_view name);
[[noreturn]] void refuse_negative(double x, std::string_view name);
[[noreturn]] void refuse_outside(double x, const Limits& limits, std::string_view name);

/// Throws Error{domain} unless x is finite and > 0. The unit is read from the suffix of the name:
/// require_positive(0, "n_rpm") says "n_rpm = 0 r/min: must be > 0".
inline void require_positive(double x, std::string_view name) {
    if (!(std::isfinite(x) && x > 0)) refuse_not_positive(x, name);
}

/// Throws Error{domain} unless x is finite and >= 0.
inline void require_not_negative(double x, std::string_view name) {
    if (!(std::isfinite(x) && x >= 0)) refuse_negative(x, name);
}

/// Throws Error{domain} unless x is finite and low <= x <= high.
inline void require_within(double x, const Limits& limits, std::string_view name) {
    if (!(std::isfinite(x) && x >= limits.low && x <= limits.high)) refuse_outside(x, limits, name);
}

}  // namespace caseload
