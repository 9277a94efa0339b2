// SPDX-License-Identifier: MIT
#include "caseload/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

constexpr double rounding = 1e-9;

}  // namespace

std::string figures(double value, int significant) {
    if (!std::isfinite(value)) return "none";
    if (std::fabs(value) < rounding) return "0";
    // The exponent after rounding: 99.96 to three figures is 100.
    const std::string rounded = fmt::format("{:.{}e}", value, significant - 1);
    const int exponent = std::stoi(rounded.substr(rounded.find('e') + 1));
    std::string out = fmt::format("{:.{}f}", value, std::max(significant - 1 - exponent, 0));
    if (out.find('.') != std::string::npos) {
        out.erase(out.find_last_not_of('0') + 1);
        if (out.back() == '.') out.pop_back();
    }
    return out;
}

std::string whole(double value) {
    return fmt::format("{:.0f}", std::round(value) + 0.0);
}

std::string signed_figures(double value, int significant) {
    const std::string out = figures(value, significant);
    return value > 0 && out != "0" ? "+" + out : out;
}

std::string percent_figures(double share) {
    constexpr double least_share = 1e-6;
    return share > 0 && share < least_share ? "below 0.0001" : figures(100 * share, 2);
}

std::string counted(double count, std::string_view what) {
    return fmt::format("{:.0f} {}{}", count, what, count == 1 ? "" : "s");
}

}  // namespace caseload
