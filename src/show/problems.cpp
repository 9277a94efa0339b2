// SPDX-License-Identifier: MIT
#include "caseload/show/problems.hpp"

#include "caseload/figures.hpp"
#include "input/harmless.hpp"
#include "input/letters.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload {
namespace {

constexpr int number_width = 5;
constexpr std::size_t widest_line = 100;  // characters of a source line shown

std::string place(const Where& where) {
    if (where.file.empty()) return {};
    if (where.line == 0) return input::harmless(where.file) + ": ";
    return fmt::format("{}:{}:{}: ", input::harmless(where.file), where.line, where.column);
}

/// The line and a caret under what is meant; a long line is cut to the part round it.
std::string caret_display(const Where& where) {
    if (where.line == 0 || where.source_line.empty()) return {};
    const std::string line = input::harmless_in_place(where.source_line);
    const auto column = static_cast<std::size_t>(std::max(where.column, 1)) - 1;
    std::size_t first = 0;
    std::string_view shown = line;
    if (input::count_characters(line) > widest_line) {
        first = column > widest_line / 2 ? column - widest_line / 2 : 0;
        const std::size_t begin = input::byte_of_character(line, first);
        shown = std::string_view(line).substr(
            begin, input::byte_of_character(line, first + widest_line) - begin);
    }
    const std::size_t before = column - first;
    const std::size_t room =
        std::max<std::size_t>(input::count_characters(shown), before + 1) - before;
    const auto wanted = static_cast<std::size_t>(std::max(where.width, 1));
    return fmt::format("{:>{}} | {}\n{:>{}} | {}{}\n", where.line, number_width, shown, "",
                       number_width, std::string(before, ' '),
                       std::string(std::min(wanted, room), '^'));
}

}  // namespace

std::string problem_report(const Error& error, std::string_view outcome) {
    std::string text;
    for (const Problem& problem : error.problems()) {
        text += fmt::format("{}error: {}\n{}", place(problem.where),
                            input::harmless_lines(problem.text), caret_display(problem.where));
        if (!problem.hint.empty())
            text += fmt::format("  hint: {}\n", input::harmless_lines(problem.hint));
    }
    return text + fmt::format("{}; {}\n", counted(error.problems().size(), "error"), outcome);
}

}  // namespace caseload
