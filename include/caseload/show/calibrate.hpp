// SPDX-License-Identifier: MIT
// What calibrate found, as text, as JSON and for its setup. Never calculates.
#pragma once

#include "caseload/ask/calibrate.hpp"

#include <string>
#include <vector>

namespace caseload {

std::string calibration_screen(const Setup& setup, const Calibration& found);
std::string calibration_json(const Setup& setup, const Calibration& found);

/// A setup on top of `base` that holds what was found, and the sums of the case it was found on.
std::string measured_setup(const std::string& base, const std::vector<std::string>& case_sums,
                           const Calibration& found);

/// "Measured: 6 temperatures, 2026-05-30; air past the case 1.8." or that nothing was.
std::string measured_sentence(const Setup& setup);

}  // namespace caseload
