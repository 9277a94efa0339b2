// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace caseload {

/// The file as named from the folder another file is written to. Throws Error{input} for a pipe.
std::string name_beside(const std::string& file, const std::string& written);

}  // namespace caseload
