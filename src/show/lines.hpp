// SPDX-License-Identifier: MIT
// Lines of a screen.
#pragma once

#include <cstddef>
#include <string>

namespace caseload {

inline constexpr std::size_t screen_width = 100;

/// Words in lines of the screen's width, later lines indented as far as the head.
std::string wrapped(const std::string& head, const std::string& words);

}  // namespace caseload
