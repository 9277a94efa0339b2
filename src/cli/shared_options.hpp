// SPDX-License-Identifier: MIT
// Options that several commands take, each declared once.
#pragma once

#include "cli/options.hpp"

#include <cstddef>
#include <string>

namespace caseload {

/// `words`: what the draws are for.
void take_draws(Syntax command, std::size_t& draws, const std::string& words);
void take_threads(Syntax command, unsigned& threads);
void take_units(Syntax command, std::string& units);

}  // namespace caseload
