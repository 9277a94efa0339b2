// SPDX-License-Identifier: MIT
#include "caseload/error.hpp"

#include "caseload/units.hpp"

#include <fmt/format.h>

#include <utility>

namespace caseload {
namespace {

std::string joined(const std::vector<Problem>& problems) {
    std::string all;
    for (const Problem& problem : problems) {
        if (!all.empty()) all += '\n';
        all += problem.text;
    }
    return all;
}

[[noreturn]] void refuse(double x, std::string_view name, const std::string& accepted) {
    const std::string unit = unit_of_name(name);
    throw Error(Error::Kind::domain,
                fmt::format("{} = {}{}{}: {}", name, x, unit.empty() ? "" : " ", unit, accepted));
}

}  // namespace

Error::Error(Kind kind, std::vector<Problem> problems)
    : std::runtime_error(joined(problems)), kind_(kind), problems_(std::move(problems)) {}

Error::Error(Kind kind, std::string text)
    : std::runtime_error(text), kind_(kind), problems_{{{}, std::move(text), {}}} {}

void refuse_input(std::string text, std::string hint) {
    throw Error(Error::Kind::input, {Problem{{}, std::move(text), std::move(hint)}});
}

void refuse_not_positive(double x, std::string_view name) {
    refuse(x, name, "must be > 0");
}

void refuse_negative(double x, std::string_view name) {
    refuse(x, name, "must be >= 0");
}

void refuse_outside(double x, const Limits& limits, std::string_view name) {
    refuse(x, name, fmt::format("must be from {} to {}", limits.low, limits.high));
}

}  // namespace caseload
