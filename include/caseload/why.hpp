// SPDX-License-Identifier: MIT
// Where a number comes from: its formula in a form a reader can recalculate, and what goes into
// it. After the answer and beside it: nothing here is part of the chain.
#pragma once

#include "caseload/assess.hpp"

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// Rows of a table between which a number was taken; equal ones beyond its ends.
struct Between {
    double at = 0;
    double low_at = 0;
    double low = 0;
    double high_at = 0;
    double high = 0;
};

/// An expression in the grammar of tables/why.toml, read once.
class Expression {
public:
    /// Throws std::invalid_argument for what it does not know: our bug.
    explicit Expression(std::string_view text);
    Expression(Expression&&) noexcept;
    ~Expression();

    /// Each once, in order.
    [[nodiscard]] const std::vector<std::string>& names() const { return names_; }
    /// With the values of names(); adds the rows of the tables that it used.
    double value(std::span<const double> named, std::vector<Between>* rows = nullptr) const;
    double value_by(const std::function<double(std::string_view)>& named,
                    std::vector<Between>* rows = nullptr) const;

private:
    struct Step;
    class Parser;
    class Calculation;
    std::vector<Step> steps_;
    std::vector<std::string> names_;
    std::size_t last_ = 0;  ///< the step whose number is the value
};

/// Value of an expression that is needed once, and the rows of the tables that it used.
double evaluate(std::string_view expression, const std::function<double(std::string_view)>& named,
                std::vector<Between>* rows = nullptr);

/// The terms of a sum, signs included; one when the expression is no sum.
std::vector<std::string> terms_of(const std::string& expression);

/// The names an expression uses, each once, in order.
std::vector<std::string> names_in(std::string_view expression);

/// A number with its address: "bearing.output_rear.kappa@loop/2" is in leg loop, bin 2 from 1.
struct Number {
    std::string address;
    std::string part;    ///< "bearing.output_rear"
    std::string member;  ///< "kappa"
    std::string at;      ///< "loop/2"; "" when it belongs to no leg
    double value = 0;
    std::string symbol;
    std::string unit;
    std::string words;
    std::string how;  ///< as Quantity::how, or "step" between two of them
    std::string source;
    std::string value_of;          ///< expression; "" when none is known
    std::string equation;          ///< expression that must be 0
    std::string residual_allowed;  ///< by the solver, an expression; "" when nothing is solved
    std::string solved_how;        ///< the same in words: "film found to 1e-10 K"
    std::string over_time;  ///< of a number of the event: what is summed, or where its extreme
                            ///< lies, in words
    std::string at_least;   ///< expressions between which it must lie; "" when none is known
    std::string at_most;
    std::string row;               ///< of tables/quantities.toml, "mesh.d_1_mm"; "" for a step
    bool is_intermediate = false;  ///< a step that only tables/why.toml calculates: proves nothing
    std::string origin;            ///< of an entered value, or why it is 0
    std::string check;             ///< of a check's value, Check::id
    std::string reason;            ///< of an action, Action::reason
};

/// A term of a sum and its value.
struct Term {
    std::string text;
    double value = 0;
};

/// A number and the inputs of its expression.
struct Why {
    Number number;
    std::vector<std::string> names;  ///< as names_in
    std::vector<Number> inputs;      ///< of these names
    double residual = 0;             ///< of the equation, or of a solved formula, all digits in
    double residual_allowed = 0;     ///< of it, by the solver's tolerance
    std::optional<double> at_least;  ///< of a number followed through time
    std::optional<double> at_most;
    std::vector<Between> rows;  ///< of tables
    std::vector<Term> largest;  ///< of a sum of more than four, at most three
};

/// What decides a verdict.
struct Deciding {
    std::string address;  ///< "" when nothing is driven and nothing fails
    std::string words;
};

class Reasons {
public:
    Reasons(const ReadSetup& read, const Assessment& answer);
    /// With another text in the place of tables/why.toml.
    Reasons(const ReadSetup& read, const Assessment& answer, std::string_view formulas);
    [[nodiscard]] const std::vector<Number>& all() const { return all_; }
    /// Throws Error{input} with the nearest addresses when there is none of this name.
    [[nodiscard]] Why why(std::string_view address) const;
    [[nodiscard]] bool has(std::string_view address) const {
        return index_.find(address) != index_.end();
    }
    /// Address of a check's value; "" when it has none.
    [[nodiscard]] std::string check_address(const Check& check) const;
    /// The check that stops the case; else the oil, where it passes its watch limit; else what
    /// opens the case before common practice; else the settled oil on the leg that gets hottest.
    [[nodiscard]] const Deciding& deciding() const { return deciding_; }

private:
    [[nodiscard]] Deciding decide(const Setup& setup, const Assessment& answer) const;

    std::vector<Number> all_;
    std::map<std::string, std::size_t, std::less<>> index_;  ///< by address
    Deciding deciding_;
};

/// Whether a row is neither entered nor words.
bool is_calculated(std::string_view how);

/// Calculated rows of tables/quantities.toml: the numbers of an assessment, groups of such numbers;
/// all others answer other questions (range, sets, cooler, bearings).
struct AnswerRows {
    std::set<std::string> numbers;
    std::set<std::string> groups;
    int calculated = 0;  ///< all of them
};
AnswerRows answer_rows();

/// What a printed answer comes to when it is recalculated.
struct Recalculated {
    double printed = 0;
    double again = 0;
    double allowed = 0;    ///< difference that 12 printed digits and the solver explain
    bool bounded = false;  ///< not a value, but bounds: `again` is the nearest value within them
    bool agrees = false;
};
/// Recalculates a printed answer from its text. Nothing when the text has no expression.
std::optional<Recalculated> recalculate(std::string_view printed);

}  // namespace caseload
