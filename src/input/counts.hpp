// SPDX-License-Identifier: MIT
// How many of each kind a setup may name, so that reading and answering it take seconds.
#pragma once

#include "input/library.hpp"

#include <map>
#include <optional>
#include <string>

namespace caseload::input {

/// Of joints, seals, readings, cores, candidates (with those of the library), drop sets, and legs
/// that are not driven: the problem at the first one too many. Legs driven: build_event.cpp.
[[nodiscard]] std::optional<Problem> too_many(const std::map<std::string, Sourced>& leaves);

}  // namespace caseload::input
