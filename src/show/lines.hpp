// SPDX-License-Identifier: MIT
// Lines of a screen.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace caseload {

inline constexpr std::size_t screen_width = 100;

/// Words in lines of the screen's width, later lines indented as far as the head.
std::string wrapped(const std::string& head, const std::string& words);

/// What every screen of an answer ends with.
inline constexpr std::string_view deference =
    "Plan with this; symptoms, your eyes and the rule book come first.";

}  // namespace caseload
