// SPDX-License-Identifier: MIT
#include "pace/engine.hpp"

namespace caseload {

double engine_torque_Nm(const std::vector<TorquePoint>& curve, double speed_rpm) {
    if (speed_rpm <= curve.front().speed_rpm) return curve.front().torque_Nm;
    for (std::size_t i = 1; i < curve.size(); ++i) {
        if (speed_rpm > curve[i].speed_rpm) continue;
        const TorquePoint& a = curve[i - 1];
        const TorquePoint& b = curve[i];
        return a.torque_Nm + (b.torque_Nm - a.torque_Nm) * (speed_rpm - a.speed_rpm) /
                                 (b.speed_rpm - a.speed_rpm);
    }
    return 0;  // beyond the last point: no torque is known
}

}  // namespace caseload
