// SPDX-License-Identifier: MIT
// Where a number comes from: its formula in a form a reader can put in again, and what goes into
// it. After the answer and beside it: nothing here is part of the chain.
#pragma once

#include "caseload/assess.hpp"

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// Value of an expression in the grammar of tables/why.toml. Throws std::invalid_argument for what
/// it does not know: our bug.
double evaluate(std::string_view expression, const std::function<double(std::string_view)>& named);

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
    std::string value_of;   ///< expression; "" when none is known
    std::string equation;   ///< expression that must be 0
    std::string solved_to;  ///< what the solver may leave, "1e-8 W"; "" when nothing is solved
    std::string row;        ///< of tables/quantities.toml, "mesh.d_1_mm"; "" for a step
    bool by_table = false;  ///< a step that only tables/why.toml calculates: proves nothing
    std::string origin;     ///< of an entered value
};

/// A number and the inputs of its expression.
struct Why {
    Number number;
    std::vector<std::string> names;  ///< as names_in
    std::vector<Number> inputs;      ///< of these names
};

class Reasons {
public:
    Reasons(const ReadSetup& read, const Assessment& answer);
    [[nodiscard]] const std::vector<Number>& all() const { return all_; }
    /// Throws Error{input} with the nearest addresses when there is none of this name.
    [[nodiscard]] Why why(std::string_view address) const;
    /// The oil at rest on the leg that gets hottest; "" when nothing is driven.
    [[nodiscard]] const std::string& deciding() const { return deciding_; }

private:
    std::vector<Number> all_;
    std::map<std::string, std::size_t, std::less<>> index_;  ///< by address
    std::string deciding_;
};

/// A printed answer put in again, from its text alone.
struct Again {
    double printed = 0;
    double again = 0;
    double allowed = 0;  ///< difference that 12 printed digits and the solver explain
    bool agrees = false;
};
/// Nothing when the text holds no expression.
std::optional<Again> put_in_again(std::string_view printed);

}  // namespace caseload
