// SPDX-License-Identifier: MIT
// A printed answer put in again. It reads the text a user sees and nothing else.
#include "caseload/why.hpp"

#include <fast_float/fast_float.h>

#include <cmath>
#include <map>
#include <sstream>
#include <stdexcept>

namespace caseload {
namespace {

double number_in(const std::string& word) {
    double x = 0;
    const auto read = fast_float::from_chars(word.data(), word.data() + word.size(), x);
    if (read.ptr == word.data()) throw std::invalid_argument("no number: " + word);
    return x;
}

// Printed with 12 digits; the viscosity line, its steepest formula, makes some 1e-10 of that.
constexpr double digits_lost = 1e-9;

}  // namespace

std::optional<Again> put_in_again(std::string_view printed) {
    std::istringstream lines{std::string(printed)};
    std::map<std::string, double, std::less<>> named;
    std::string formula;
    bool equation = false;
    Again result;
    for (std::string line; std::getline(lines, line);) {
        std::istringstream words(line);
        std::string first;
        std::string second;
        std::string third;
        words >> first >> second >> third;
        if (line.rfind("  formula ", 0) == 0) formula = line.substr(12);
        if (line.rfind("  equation ", 0) == 0) {
            formula = line.substr(line.find("0 = ") + 4);
            equation = true;
        }
        if (line.rfind("  result ", 0) == 0 && !equation) result.printed = number_in(second);
        if (line.rfind("    ", 0) == 0 && second == "=") named[first] = number_in(third);
    }
    if (formula.empty()) return std::nullopt;
    result.again = evaluate(formula, [&](std::string_view name) {
        const auto found = named.find(name);
        if (found == named.end()) throw std::invalid_argument("not printed: " + std::string(name));
        return found->second;
    });
    // What an equation leaves is measured against its terms; the solver stops at 52 bits of the
    // temperature, and the paths are steep in it.
    double size = std::fabs(result.printed);
    if (equation)
        for (const auto& [name, value] : named) size += std::fabs(value);
    result.agrees = std::fabs(result.again - result.printed) <= digits_lost * size;
    return result;
}

}  // namespace caseload
