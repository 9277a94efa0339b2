// SPDX-License-Identifier: MIT
// One file of this folder a command: it declares its options and says what to run.
#pragma once

#include <CLI/CLI.hpp>

#include <functional>
#include <memory>

namespace caseload {

/// A command of the program: what was declared, and what answers it. May throw Error.
struct Command {
    CLI::App* declared = nullptr;
    std::function<void()> run;
    std::shared_ptr<const int> code = nullptr;  ///< of the program after a run; none: 0
};

Command assess_command(CLI::App& program);
Command sets_command(CLI::App& program);
Command cooler_command(CLI::App& program);
Command bearings_command(CLI::App& program);
Command upgrade_command(CLI::App& program);
Command evidence_command(CLI::App& program);
Command compare_command(CLI::App& program);
Command season_command(CLI::App& program);
Command calibrate_command(CLI::App& program);
Command complete_command(CLI::App& program);
Command new_command(CLI::App& program);
Command keys_command(CLI::App& program);
Command book_command(CLI::App& program);
Command manual_command(CLI::App& program);
Command duty_command(CLI::App& program);
Command why_command(CLI::App& program);

}  // namespace caseload
