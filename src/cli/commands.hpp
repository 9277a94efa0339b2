// SPDX-License-Identifier: MIT
// One file of this folder a command: it declares its options and says what to run.
#pragma once

#include "cli/options.hpp"

#include <functional>
#include <memory>

namespace caseload {

/// A command of the program: what was declared, and what answers it. May throw Error.
struct Command {
    Syntax declared;
    std::function<void()> run;
    std::shared_ptr<const int> code = nullptr;  ///< of the program after a run; none: 0
};

Command assess_command(Syntax program);
Command sets_command(Syntax program);
Command cooler_command(Syntax program);
Command bearings_command(Syntax program);
Command upgrade_command(Syntax program);
Command evidence_command(Syntax program);
Command compare_command(Syntax program);
Command season_command(Syntax program);
Command calibrate_command(Syntax program);
Command complete_command(Syntax program);
Command new_command(Syntax program);
Command keys_command(Syntax program);
Command book_command(Syntax program);
Command manual_command(Syntax program);
Command duty_command(Syntax program);
Command why_command(Syntax program);

}  // namespace caseload
