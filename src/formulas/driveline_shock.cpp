// SPDX-License-Identifier: MIT
#include "caseload/formulas/driveline_shock.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::driveline_shock {
namespace {

/// From one value to the other between two places, level outside.
struct Ramp {
    double x_low;
    double x_high;
    double y_low;
    double y_high;

    [[nodiscard]] double operator()(double x) const {
        const double along = std::clamp((x - x_low) / (x_high - x_low), 0.0, 1.0);
        return y_low + along * (y_high - y_low);
    }
};

double in_series(double one, double other) {
    return 1 / (1 / one + 1 / other);
}

void require_shaft(const Shaft& shaft) {
    require_positive(shaft.outside_mm, "outside_mm");
    require_not_negative(shaft.inside_mm, "inside_mm");
    require_positive(shaft.outside_mm - shaft.inside_mm, "outside_mm - inside_mm");
}

void require_line(const Driveline& line) {
    require_positive(line.stiffness_Nmprad, "stiffness_Nmprad");
    require_positive(line.engine_kgm2, "engine_kgm2");
    require_positive(line.wheel_kgm2, "wheel_kgm2");
}

void require_spectrum(const Spectrum& spectrum) {
    require_not_negative(spectrum.per_h, "per_h");
    require_within(spectrum.decay, {0.05, 1}, "decay");
    require_within(spectrum.max, {1, 4}, "max");
}

}  // namespace

double stiffness_Nmprad(const Shaft& shaft) {
    require_shaft(shaft);
    require_positive(shaft.length_mm, "length_mm");
    const double D_m = m_from_mm(shaft.outside_mm);
    const double d_m = m_from_mm(shaft.inside_mm);
    return G_steel_Pa * pi * (D_m * D_m * D_m * D_m - d_m * d_m * d_m * d_m) /
           (32 * m_from_mm(shaft.length_mm));
}

double tyre_stiffness_Npm(double tyre_mm) {
    require_positive(tyre_mm, "tyre_mm");
    return Ramp{37, 39, 150e3, 200e3}(in_from_mm(tyre_mm));
}

double wind_up_Nmprad(double tyre_stiffness_Npm, double rolling_radius_m) {
    require_positive(tyre_stiffness_Npm, "tyre_stiffness_Npm");
    require_positive(rolling_radius_m, "rolling_radius_m");
    return tyre_stiffness_Npm * rolling_radius_m * rolling_radius_m;
}

double axle_Nmprad(const Axle& axle) {
    require_positive(axle.half_shaft_Nmprad, "half_shaft_Nmprad");
    require_positive(axle.wheel_Nmprad, "wheel_Nmprad");
    require_positive(axle.prop_shaft_Nmprad, "prop_shaft_Nmprad");
    require_positive(axle.ratio, "ratio");
    const double sides_Nmprad = 2 * in_series(axle.half_shaft_Nmprad, axle.wheel_Nmprad);
    return in_series(axle.prop_shaft_Nmprad, sides_Nmprad / (axle.ratio * axle.ratio));
}

double engine_kgm2(double rated_power_W) {
    require_positive(rated_power_W, "rated_power_W");
    return Ramp{W_from_hp(430), W_from_hp(850), 0.25, 0.35}(rated_power_W);
}

double engine_side_kgm2(const EngineSide& side) {
    require_positive(side.engine_kgm2, "engine_kgm2");
    require_not_negative(side.gearbox_kgm2, "gearbox_kgm2");
    require_positive(side.gear, "gear");
    require_positive(side.case_ratio, "case_ratio");
    return (side.engine_kgm2 * side.gear * side.gear + side.gearbox_kgm2) * side.case_ratio *
           side.case_ratio;
}

double wheel_side_kgm2(int wheels, double wheel_kgm2, double axle_ratio) {
    require_positive(wheels, "wheels");
    require_positive(wheel_kgm2, "wheel_kgm2");
    require_positive(axle_ratio, "axle_ratio");
    return wheels * wheel_kgm2 / (axle_ratio * axle_ratio);
}

double ground_torque_Nm(const Grip& grip, double n_z) {
    require_positive(grip.mu, "mu");
    require_positive(grip.weight_N, "weight_N");
    require_positive(grip.rolling_radius_m, "rolling_radius_m");
    require_positive(grip.axle_ratio, "axle_ratio");
    require_positive(n_z, "n_z");
    return grip.mu * n_z * grip.weight_N * grip.rolling_radius_m / grip.axle_ratio;
}

double overspeed_radps(const Overspeed& over) {
    require_not_negative(over.share, "share");
    require_not_negative(over.road_mps, "road_mps");
    require_positive(over.axle_ratio, "axle_ratio");
    require_positive(over.rolling_radius_m, "rolling_radius_m");
    return over.share * over.road_mps * over.axle_ratio / over.rolling_radius_m;
}

double elastic_Nm(const Driveline& line, double overspeed_radps) {
    require_line(line);
    require_not_negative(overspeed_radps, "overspeed_radps");
    return overspeed_radps * std::sqrt(line.stiffness_Nmprad * line.engine_kgm2);
}

double sliding_Nm(const Driveline& line, double ground_torque_Nm) {
    require_line(line);
    require_positive(ground_torque_Nm, "ground_torque_Nm");
    return 2 * ground_torque_Nm * line.engine_kgm2 / (line.engine_kgm2 + line.wheel_kgm2);
}

double landing_Nm(const Driveline& line, double overspeed_radps, double ground_torque_Nm) {
    return std::min(elastic_Nm(line, overspeed_radps), sliding_Nm(line, ground_torque_Nm));
}

double dump_Nm(const Driveline& line, const Dump& dump, double ground_torque_Nm) {
    require_positive(dump.gear, "gear");
    require_positive(dump.case_ratio, "case_ratio");
    require_positive(dump.clutch_Nm, "clutch_Nm");
    const double ratio = dump.gear * dump.case_ratio;
    return std::min(landing_Nm(line, dump.engine_radps / ratio, ground_torque_Nm),
                    dump.clutch_Nm * ratio);
}

double first_mode_Hz(const Driveline& line) {
    require_line(line);
    return std::sqrt(line.stiffness_Nmprad / line.engine_kgm2) / (2 * pi);
}

double events_per_h(const Spectrum& spectrum, double ratio) {
    require_spectrum(spectrum);
    require_within(ratio, {1, 100}, "ratio");
    return ratio < spectrum.max ? spectrum.per_h * std::exp(-(ratio - 1) / spectrum.decay) : 0;
}

double reached_once(const Spectrum& spectrum, double duration_h) {
    require_spectrum(spectrum);
    require_not_negative(duration_h, "duration_h");
    const double events = spectrum.per_h * duration_h;
    if (events <= 0) return 0;
    return std::clamp(1 + spectrum.decay * std::log(events), 0.0, spectrum.max);
}

double torsion_MPa(const Shaft& shaft, double torque_Nm) {
    require_shaft(shaft);
    require_not_negative(torque_Nm, "torque_Nm");
    const double D_mm = shaft.outside_mm;
    const double hollow = shaft.inside_mm / D_mm;
    return 16 * 1000 * torque_Nm /
           (pi * D_mm * D_mm * D_mm * (1 - hollow * hollow * hollow * hollow));
}

double strength_ratio(double torsion_MPa, double yield_MPa) {
    require_positive(torsion_MPa, "torsion_MPa");
    require_positive(yield_MPa, "yield_MPa");
    return 0.58 * yield_MPa / torsion_MPa;
}

}  // namespace caseload::driveline_shock
