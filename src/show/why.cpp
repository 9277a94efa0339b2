// SPDX-License-Identifier: MIT
#include "caseload/show/why.hpp"

#include "show/lines.hpp"

#include <fmt/format.h>

#include <cctype>

namespace caseload {
namespace {

std::string twelve_digits(double x) {
    return fmt::format("{:.12g}", x);
}

bool of_name(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '.';
}

std::string labelled(const std::string& label, const std::string& text) {
    return wrapped(fmt::format("  {:<10}", label), text);
}

/// The rows of a table on either side of where it was read.
std::string table_line(const Between& rows) {
    if (rows.at == rows.high_at || rows.at == rows.low_at)
        return fmt::format("  table     {:.6g}: the row there, {:g}\n", rows.at,
                           rows.at == rows.high_at ? rows.high : rows.low);
    if (rows.low_at == rows.high_at)
        return fmt::format("  table     {:.6g}: beyond its end at {:g}, the value there, {:g}\n",
                           rows.at, rows.low_at, rows.low);
    return fmt::format("  table     {:.6g}: between the rows at {:g}, {:g}, and at {:g}, {:g}\n",
                       rows.at, rows.low_at, rows.low, rows.high_at, rows.high);
}

/// The values of the bounds.
std::string bounds_line(const Why& why) {
    std::string out;
    if (why.at_least) out += " from " + twelve_digits(*why.at_least);
    if (why.at_most) out += " to " + twelve_digits(*why.at_most);
    return "  bounds   " + out + "\n";
}

}  // namespace

std::string put_in(const std::string& expression, const Why& why) {
    std::string out;
    for (std::size_t i = 0; i < expression.size();) {
        std::size_t n = i;
        if (expression[i] == '[') n = expression.find(']', i) + 1;
        while (n < expression.size() && expression[i] != '[' && of_name(expression[n])) ++n;
        if (n == i) {
            out += expression[i++];
            continue;
        }
        std::string word = expression.substr(i, n - i);
        for (std::size_t k = 0; k < why.names.size(); ++k) {
            if (why.names[k] != word) continue;
            const double x = why.inputs[k].value;
            word = x < 0 ? "(" + twelve_digits(x) + ")" : twelve_digits(x);
            break;
        }
        out += word;
        i = n;
    }
    return out;
}

std::string why_screen(const Why& why) {
    const Number& n = why.number;
    const bool bounded = why.at_least || why.at_most;
    std::string out =
        fmt::format("{}\n  {}{}{}\n", n.address, n.words, n.symbol.empty() ? "" : ", ", n.symbol);
    if (!n.equation.empty() && n.origin.empty())
        out +=
            labelled("equation", "0 = " + n.equation) + labelled("put in", put_in(n.equation, why));
    else if (!n.value_of.empty() && n.origin.empty())
        out += labelled("formula", n.value_of) + labelled("put in", put_in(n.value_of, why));
    else if (n.how != "entered" && n.origin.empty() && n.over_time.empty() && !bounded)
        out += "  its formula is not shown here yet: docs/method.md, at the source below\n";
    if (!n.over_time.empty() && n.origin.empty()) out += labelled("in time", n.over_time);
    if (why.at_least)
        out += labelled("at least", n.at_least) + labelled("put in", put_in(n.at_least, why));
    if (why.at_most)
        out += labelled("at most", n.at_most) + labelled("put in", put_in(n.at_most, why));
    out += fmt::format("  result    {}{}{}\n", twelve_digits(n.value), n.unit.empty() ? "" : " ",
                       n.unit);
    if (bounded) out += bounds_line(why);
    if (!why.names.empty() && !bounded && (!n.equation.empty() || !n.residual_allowed.empty()))
        out += fmt::format("  residual  {:.1e}\n", why.residual);
    if (!n.residual_allowed.empty() && !why.names.empty())
        out += fmt::format("  solved    to {:.1e}: {}\n", why.residual_allowed, n.solved_how);
    if (!n.origin.empty())
        out += fmt::format("  {:<10}{}\n", n.how == "entered" ? "entered" : "because", n.origin);
    for (const Between& rows : why.rows) out += table_line(rows);
    for (const Term& term : why.largest)
        out += labelled("largest", fmt::format("{:.6g} of {}", term.value, term.text));
    if (!n.source.empty()) out += fmt::format("  source    {}\n", n.source);
    for (std::size_t i = 0; i < why.inputs.size(); ++i) {
        const Number& input = why.inputs[i];
        const bool by_address = why.names[i].front() == '[';
        out += fmt::format("    {} = {}{}{}", why.names[i], twelve_digits(input.value),
                           input.unit.empty() ? "" : " ", input.unit);
        if (!by_address) out += "   " + input.address;
        if (!input.origin.empty()) out += "   " + input.origin;
        out += "\n";
    }
    return out;
}

std::string why_answer(const std::string& before, const Why& why) {
    return fmt::format("{}{}\n{}\n", before, why_screen(why), deference);
}

std::string why_list(const Reasons& reasons) {
    std::string out;
    for (const Number& number : reasons.all())
        out += fmt::format("{:<44} {}\n", number.address, number.words);
    return out;
}

}  // namespace caseload
