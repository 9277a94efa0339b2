// SPDX-License-Identifier: MIT
#include "caseload/show/why.hpp"

#include <fmt/format.h>

#include <cctype>

namespace caseload {
namespace {

std::string digits(double x) {
    return fmt::format("{:.12g}", x);
}

/// The expression with the values in the places of the names.
std::string put_in(const std::string& expression, const std::vector<Number>& inputs) {
    std::string out;
    for (std::size_t i = 0; i < expression.size();) {
        std::size_t n = i;
        const auto of_name = [&](std::size_t k) {
            return k < expression.size() &&
                   (std::isalnum(static_cast<unsigned char>(expression[k])) != 0 ||
                    expression[k] == '_' || expression[k] == '.');
        };
        while (of_name(n)) ++n;
        if (n == i) {
            out += expression[i++];
            continue;
        }
        std::string word = expression.substr(i, n - i);
        for (const Number& input : inputs)
            if (input.member == word) {
                word = input.value < 0 ? "(" + digits(input.value) + ")" : digits(input.value);
                break;
            }
        out += word;
        i = n;
    }
    return out;
}

}  // namespace

std::string why_screen(const Why& why) {
    const Number& n = why.number;
    std::string out =
        fmt::format("{}\n  {}{}{}\n", n.address, n.words, n.symbol.empty() ? "" : ", ", n.symbol);
    if (!n.equation.empty())
        out += fmt::format("  equation  0 = {}\n  put in    {}\n", n.equation,
                           put_in(n.equation, why.inputs));
    else if (!n.value_of.empty())
        out += fmt::format("  formula   {}\n  put in    {}\n", n.value_of,
                           put_in(n.value_of, why.inputs));
    else if (n.how != "entered" && n.origin.empty())
        out += "  its formula is not told here yet: docs/method.md, at the source below\n";
    out += fmt::format("  result    {}{}{}\n", digits(n.value), n.unit.empty() ? "" : " ", n.unit);
    if (!n.origin.empty()) out += fmt::format("  entered   {}\n", n.origin);
    if (!n.source.empty()) out += fmt::format("  source    {}\n", n.source);
    for (const Number& input : why.inputs)
        out += fmt::format("    {} = {}{}{}   {}{}{}\n", input.member, digits(input.value),
                           input.unit.empty() ? "" : " ", input.unit, input.address,
                           input.origin.empty() ? "" : "   ", input.origin);
    return out;
}

}  // namespace caseload
