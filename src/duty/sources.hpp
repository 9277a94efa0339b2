// SPDX-License-Identifier: MIT
// Which columns of the log give speed and torque of the case.
#pragma once

#include "caseload/duty/event.hpp"
#include "duty/layout.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace caseload::duty {

/// Where speed and torque come from, and what that needs.
struct Sources {
    SpeedSource speed = SpeedSource::case_column;
    TorqueSource torque = TorqueSource::case_column;
    bool road_column = false;
    bool gear_column = false;
    bool ratio_by_speeds = false;  ///< engine and case speed both logged
    std::uint32_t required = 0;
    double stated_peak_Nm = 0;
    std::vector<double> gears;  ///< ratios: the setup's, else those of the log's speeds
    bool gears_from_log = false;
    double burst_s = 0;  ///< readings so near each other are one, for the slope of road speed
};
/// clustered: gears found from the log's speeds. Throws Error{input}: what is missing in the log,
/// with the nearest heading, and what to do.
[[nodiscard]] Sources choose_sources(const Layout& layout, const DutyOptions& options,
                                     const std::vector<double>& clustered, const std::string& file);

}  // namespace caseload::duty
