// SPDX-License-Identifier: MIT
// Recalculates a printed answer. It reads the text a user sees and nothing else.
#include "caseload/why.hpp"

#include <fast_float/fast_float.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <sstream>
#include <stdexcept>
#include <vector>

namespace caseload {
namespace {

double number_in(const std::string& word) {
    double x = 0;
    const auto read = fast_float::from_chars(word.data(), word.data() + word.size(), x);
    if (read.ptr == word.data()) throw std::invalid_argument("no number: " + word);
    return x;
}

// 12 printed digits: a number is off by up to this share of itself.
constexpr double half_a_digit = 5e-12;
// Beyond what the digits explain: rounding within the formula itself, in double precision.
constexpr double rounding = 1e-14;

using Named = std::map<std::string, double, std::less<>>;

std::vector<double> values_of(const Named& named) {
    std::vector<double> values;
    for (const auto& [name, value] : named) values.push_back(value);
    return values;
}

/// A printed formula, of the printed numbers in their order.
class Printed {
public:
    Printed(const std::string& formula, const Named& named) : expression_(formula) {
        for (const std::string& name : expression_.names()) {
            const auto found = named.find(name);
            if (found == named.end()) throw std::invalid_argument("not printed: " + name);
            places_.push_back(static_cast<std::size_t>(std::distance(named.begin(), found)));
        }
    }
    [[nodiscard]] double with(const std::vector<double>& inputs) const {
        std::vector<double> own;
        own.reserve(places_.size());
        for (const std::size_t place : places_) own.push_back(inputs[place]);
        return expression_.value(own);
    }

private:
    Expression expression_;
    std::vector<std::size_t> places_;
};

/// What half a digit of all inputs at once does: where a condition is a tie, it turns.
double from_corners(const Printed& formula, const std::vector<double>& inputs, double again) {
    constexpr std::size_t most_inputs = 6;
    if (inputs.size() > most_inputs) return 0;
    double most = 0;
    for (std::size_t corner = 0; corner < std::size_t{1} << inputs.size(); ++corner) {
        std::vector<double> moved = inputs;
        for (std::size_t i = 0; i < moved.size(); ++i)
            moved[i] *= (corner >> i & 1U) != 0 ? 1 + half_a_digit : 1 - half_a_digit;
        most = std::max(most, std::fabs(formula.with(moved) - again));
    }
    return most;
}

/// What half a digit of each input does to the result, summed: the most that printing explains.
double from_digits(const Printed& formula, const std::vector<double>& inputs, double again) {
    double sum = 0;
    std::vector<double> moved = inputs;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        double most = 0;
        for (const double side : {-half_a_digit, half_a_digit}) {
            moved[i] = inputs[i] * (1 + side);
            most = std::max(most, std::fabs(formula.with(moved) - again));
        }
        moved[i] = inputs[i];
        sum += most;
    }
    return std::max(sum, from_corners(formula, inputs, again));
}

struct Bounds {
    const std::string& at_least;
    const std::string& at_most;
};
struct Result {
    double value;
    double solved_to;
};

/// Whether a number lies between its bounds, digits allowed for.
Recalculated within_bounds(const Bounds& bounds, const Named& named, const Result& printed) {
    Recalculated result;
    result.printed = printed.value;
    result.again = printed.value;
    result.bounded = true;
    result.allowed = half_a_digit * std::fabs(printed.value) + printed.solved_to;
    const auto bound = [&](const std::string& formula, double side) {
        if (formula.empty()) return;
        const Printed bound_by(formula, named);
        const std::vector<double> inputs = values_of(named);
        const double at = bound_by.with(inputs);
        if (side * (at - printed.value) <= 0) return;
        result.again = at;
        result.allowed += from_digits(bound_by, inputs, at) + rounding * std::fabs(at);
    };
    bound(bounds.at_least, 1);
    bound(bounds.at_most, -1);
    result.agrees = std::fabs(result.again - result.printed) <= result.allowed;
    return result;
}

}  // namespace

std::optional<Recalculated> recalculate(std::string_view printed) {
    std::istringstream lines{std::string(printed)};
    Named named;
    std::string formula;
    std::string at_least;
    std::string at_most;
    std::string* goes_on = nullptr;
    bool equation = false;
    double solved_to = 0;
    Recalculated result;
    for (std::string line; std::getline(lines, line);) {
        std::istringstream words(line);
        std::string first;
        std::string second;
        std::string third;
        words >> first >> second >> third;
        if (line.rfind("            ", 0) == 0) {
            if (goes_on != nullptr) *goes_on += " " + line.substr(12);
            continue;
        }
        goes_on = nullptr;
        if (first == "formula" || first == "equation") goes_on = &formula;
        if (first == "at" && (second == "least" || second == "most"))
            goes_on = second == "least" ? &at_least : &at_most;
        if (goes_on != nullptr) *goes_on = line.substr(12);
        if (first == "equation") {
            formula = line.substr(line.find("0 = ") + 4);
            equation = true;
        }
        if (first == "result" && !equation) result.printed = number_in(second);
        if (first == "solved") solved_to = number_in(third);
        if (line.rfind("    ", 0) == 0 && second == "=") named[first] = number_in(third);
    }
    if (!at_least.empty() || !at_most.empty())
        return within_bounds({at_least, at_most}, named, {result.printed, solved_to});
    if (formula.empty()) return std::nullopt;
    const Printed again(formula, named);
    const std::vector<double> inputs = values_of(named);
    result.again = again.with(inputs);
    double size = std::fabs(result.printed);
    if (equation)
        for (const auto& [name, value] : named) size += std::fabs(value);
    result.allowed = half_a_digit * std::fabs(result.printed) + rounding * size + solved_to;
    const auto agrees = [&] { return std::fabs(result.again - result.printed) <= result.allowed; };
    // What the digits of the inputs explain takes long to find and is seldom needed.
    if (!agrees()) result.allowed += from_digits(again, inputs, result.again);
    result.agrees = agrees();
    return result;
}

}  // namespace caseload
