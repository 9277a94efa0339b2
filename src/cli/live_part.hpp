// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/show/page.hpp"

#include <string>

namespace caseload {

/// The live part: the file caseload.html, looked for beside the program, in share/caseload beside
/// its folder, and where the build leaves it. Throws Error{file} when it is not there or belongs to
/// another version.
std::string live_part();

/// The page of a setup file with the live part inside.
std::string live_page(const std::string& part, const std::string& setup_path,
                      const PageAnswer& page);

}  // namespace caseload
