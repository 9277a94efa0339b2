// SPDX-License-Identifier: MIT
// Which class of clearance a bearing lives longest with.
#pragma once

#include "caseload/ask/bearings.hpp"
#include "caseload/damage.hpp"
#include "caseload/heat.hpp"

#include <optional>
#include <string>
#include <vector>

namespace caseload {

/// A bearing with the class its setup has, of the likely values; none where its play is not
/// counted.
std::optional<PlayClass> play_class(const Prepared& prepared, const Damage& damage,
                                    std::size_t bearing);

/// Sets how many times as long each lives as the one there now; the best of them, -1: none.
int compare_play(std::vector<PlayClass>& classes);

/// What the class there now costs, where the best one lives clearly longer; that none keeps play,
/// where it has none; else "".
std::string play_words(const BearingPosition& position, const BearingDamage& used);

}  // namespace caseload
