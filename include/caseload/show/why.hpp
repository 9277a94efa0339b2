// SPDX-License-Identifier: MIT
// One number and where it comes from; what put_in_again reads back.
#pragma once

#include "caseload/why.hpp"

#include <string>

namespace caseload {

std::string why_screen(const Why& why);

}  // namespace caseload
