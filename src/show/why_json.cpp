// SPDX-License-Identifier: MIT
// A number and its reasons for another program.
#include "caseload/show/why.hpp"
#include "show/json_value.hpp"

#include <fmt/format.h>

namespace caseload {
namespace {

using json_value::number;
using json_value::text;

std::string member(std::string_view name, const std::string& value) {
    return value.empty() ? std::string{} : fmt::format(R"(,"{}":{})", name, text(value));
}

/// Address, words, value and what belongs to them; without the closing brace.
std::string number_of(const Number& n) {
    return fmt::format(R"({{"address":{},"words":{},"value":{})", text(n.address), text(n.words),
                       number(n.value)) +
           member("symbol", n.symbol) + member("unit", n.unit) + member("how", n.how) +
           member("origin", n.origin);
}

std::string beginning() {
    return R"("schema":1,"command":"why",)" + json_value::caution();
}

}  // namespace

std::string why_json(const Why& why) {
    const Number& n = why.number;
    const bool solved = !n.equation.empty();
    const std::string& formula = solved ? n.equation : n.value_of;
    std::string out = number_of(n).insert(1, beginning() + ",") + member("source", n.source);
    if (!formula.empty() && n.origin.empty())
        out += member(solved ? "equation" : "formula", formula) +
               member("put_in", put_in(formula, why));
    out += member("in_time", n.over_time) + member("at_least_formula", n.at_least) +
           member("at_most_formula", n.at_most);
    if (why.at_least) out += fmt::format(R"(,"at_least":{})", number(*why.at_least));
    if (why.at_most) out += fmt::format(R"(,"at_most":{})", number(*why.at_most));
    if (solved || !n.residual_allowed.empty())
        out += fmt::format(R"(,"residual":{})", number(why.residual));
    if (!n.residual_allowed.empty())
        out += fmt::format(R"(,"solved_to":{})", number(why.residual_allowed)) +
               member("solved_how", n.solved_how);
    std::string rows;
    for (const Between& row : why.rows)
        rows += fmt::format(R"({}{{"at":{},"low_at":{},"low":{},"high_at":{},"high":{}}})",
                            rows.empty() ? "" : ",", number(row.at), number(row.low_at),
                            number(row.low), number(row.high_at), number(row.high));
    if (!rows.empty()) out += ",\"table_rows\":[" + rows + "]";
    std::string largest;
    for (const Term& term : why.largest)
        largest += fmt::format(R"({}{{"term":{},"value":{}}})", largest.empty() ? "" : ",",
                               text(term.text), number(term.value));
    if (!largest.empty()) out += ",\"largest_terms\":[" + largest + "]";
    std::string inputs;
    for (std::size_t i = 0; i < why.inputs.size(); ++i)
        inputs += fmt::format(R"({}{},"name":{}}})", inputs.empty() ? "" : ",",
                              number_of(why.inputs[i]), text(why.names[i]));
    return out + ",\"inputs\":[" + inputs + "]}\n";
}

std::string why_list_json(const Reasons& reasons, const std::string& setup) {
    std::string out;
    for (const Number& n : reasons.all()) out += (out.empty() ? "" : ",\n") + number_of(n) + "}";
    return fmt::format("{{{},\"setup\":{},\"numbers\":[{}]}}\n", beginning(), text(setup), out);
}

}  // namespace caseload
