// SPDX-License-Identifier: MIT
// A file of this folder for each command, or for some that are alike: it declares its options and
// says what to run.
#pragma once

#include "cli/options.hpp"

#include <array>
#include <functional>
#include <memory>

namespace caseload {

/// A command of the program: what was declared, and what answers it. May throw Error.
struct Command {
    Syntax declared;
    std::function<void()> run;
    std::shared_ptr<const int> code = nullptr;  ///< of the program after a run; none: 0
};

using Declare = Command(Syntax program);
Declare assess_command, sets_command, cooler_command, bearings_command, upgrade_command,
    evidence_command, compare_command, season_command, calibrate_command, complete_command,
    new_command, keys_command, book_command, manual_command, duty_command, why_command;

/// In the order of the help.
inline constexpr std::array<Declare*, 16> every_command{
    assess_command,  sets_command,      cooler_command, bearings_command,
    compare_command, season_command,    book_command,   evidence_command,
    upgrade_command, complete_command,  new_command,    keys_command,
    duty_command,    calibrate_command, why_command,    manual_command};

}  // namespace caseload
