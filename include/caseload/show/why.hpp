// SPDX-License-Identifier: MIT
// One number and where it comes from; what recalculate reads back.
#pragma once

#include "caseload/why.hpp"

#include <string>

namespace caseload {

std::string why_screen(const Why& why);

/// The same as a whole answer, with a sentence before it.
std::string why_answer(const std::string& before, const Why& why);

/// The formula with the values in the places of the names.
std::string put_in(const std::string& expression, const Why& why);

/// Every address with its words, a line each.
std::string why_list(const Reasons& reasons);

/// One number and its reasons as one JSON document, and all addresses of a setup with their values.
std::string why_json(const Why& why);
std::string why_list_json(const Reasons& reasons, const std::string& setup);

}  // namespace caseload
