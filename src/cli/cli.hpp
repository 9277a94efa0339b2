// SPDX-License-Identifier: MIT
#pragma once

namespace caseload {
/// Parses the command line, calls, prints; returns the exit code.
int run_program(int argc, char** argv);
}  // namespace caseload
