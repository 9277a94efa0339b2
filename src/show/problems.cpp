// SPDX-License-Identifier: MIT
#include "caseload/show/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload {

std::string problem_report(const Error& error) {
    std::string out;
    for (const Problem& problem : error.problems()) {
        const Where& where = problem.where;
        if (where.line > 0)
            out += fmt::format("{}:{}:{}: error: {}\n", where.file, where.line, where.column,
                               problem.text);
        else
            out += fmt::format("{}{}error: {}\n", where.file, where.file.empty() ? "" : ": ",
                               problem.text);
        if (where.line > 0 && !where.source_line.empty()) {
            std::string line = where.source_line.substr(0, 160);
            std::replace(line.begin(), line.end(), '\t', ' ');
            out += fmt::format("{:>5} | {}\n", where.line, line);
            out += fmt::format(
                "      | {}{}\n",
                std::string(static_cast<std::size_t>(std::clamp(where.column - 1, 0, 160)), ' '),
                std::string(static_cast<std::size_t>(std::clamp(where.width, 1, 60)), '^'));
        }
        if (!problem.hint.empty()) out += fmt::format("  hint: {}\n", problem.hint);
    }
    const std::size_t count = error.problems().size();
    out += fmt::format("{} error{}; nothing was calculated\n", count, count == 1 ? "" : "s");
    return out;
}

}  // namespace caseload
