// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace caseload {

/// The program on Windows: arguments and console in UTF-8; a double click and files dropped on the
/// program are answered (dropped.hpp), and the window stays.
int run_on_windows();

/// Where the program's own file is.
std::string program_path();

}  // namespace caseload
