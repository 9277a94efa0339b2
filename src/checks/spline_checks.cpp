// SPDX-License-Identifier: MIT
#include "checks/parts.hpp"

namespace caseload {

void check_splines(const Checked& found, std::vector<Check>& into) {
    for (const SplineResult& spline : found.splines) {
        const std::string about = "spline." + spline.name;
        into.push_back(judged({.id = CheckId::spline_peak,
                               .about = about,
                               .words = "largest torque over what the spline takes at once",
                               .value = spline.peak_share}));
        if (spline.wear_share > 0)
            into.push_back(judged({.id = CheckId::spline_wear,
                                   .about = about,
                                   .words = "wear used this event",
                                   .value = spline.wear_share}));
    }
}

}  // namespace caseload
