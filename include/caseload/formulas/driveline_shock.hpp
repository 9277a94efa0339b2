// SPDX-License-Identifier: MIT
// Torque of a driveline whose wheels are stopped by the ground: a car that lands on the throttle,
// grip that comes back, a clutch that is dropped. Two inertias, the engine's side and the wheels,
// and one torsional spring between; all is seen at the case's output. Left out: the engine's own
// torque (a lift takes it away), damping, backlash, wheels of one axle that land one by one.
#pragma once

namespace caseload::driveline_shock {

/// Shear modulus of steel: 77 to 81 GPa.
inline constexpr double G_steel_Pa = 79e9;
/// Wheels over the road, by share: 0.1 lifted, 0.2 usual, 0.4 on the limiter; judgement.
inline constexpr double overspeed_lifted = 0.1;
inline constexpr double overspeed_usual = 0.2;
inline constexpr double overspeed_limiter = 0.4;
/// Torque a dry clutch passes before it slips, over the engine's peak: 1.2 to 2.5, judgement.
inline constexpr double clutch_factor = 1.5;
/// Yield strength of hardened alloy steel, as of half shafts: 700 to 1300 MPa, judgement.
inline constexpr double hardened_yield_MPa = 900;

struct Shaft {
    double length_mm;
    double outside_mm;
    double inside_mm;  ///< 0: solid
};

/// Torque for each radian of twist.
///
/// k = G pi (D^4 - d^4) / (32 L)
/// Range    0 <= inside < outside; length > 0.
/// Source   beam-theory, torsion-stiffness
[[nodiscard]] double stiffness_Nmprad(const Shaft& shaft);

/// Fore-and-aft stiffness of a tyre at the ground: 150 kN/m up to 37 in, 200 from 39 in, a straight
/// line between; a factor of 1.7 either way. Judgement.
/// Source   driveline-shock, tyre
[[nodiscard]] double tyre_stiffness_Npm(double tyre_mm);

/// Wind-up of one wheel on its tyre.
///
/// k_w = k_x r^2
/// Source   driveline-shock, wind-up
[[nodiscard]] double wind_up_Nmprad(double tyre_stiffness_Npm, double rolling_radius_m);

struct Axle {
    double half_shaft_Nmprad;
    double wheel_Nmprad;  ///< wind-up of one
    double prop_shaft_Nmprad;
    double ratio;  ///< i_a
};
/// Both sides of a locked axle behind its prop shaft, at the case's output. Axles add up.
///
/// 1/k = 1/k_prop + i_a^2 / (2 k_s),   1/k_s = 1/k_half + 1/k_w
/// Source   driveline-shock, axle
[[nodiscard]] double axle_Nmprad(const Axle& axle);

/// Engine with its clutch or converter: 0.25 kg m2 up to 430 hp, 0.35 from 850 hp, a straight line
/// between; 0.15 to 0.6. Judgement.
/// Source   driveline-shock, engine
[[nodiscard]] double engine_kgm2(double rated_power_W);

struct EngineSide {
    double engine_kgm2;
    double gearbox_kgm2;  ///< what turns with its output
    double gear;          ///< input over output
    double case_ratio;    ///< input over output
};
/// Inertia of the engine's side at the case's output, the wheels not with it.
///
/// J_e = (J_engine i_g^2 + J_gearbox) i_c^2
/// Source   driveline-shock, engine-side
[[nodiscard]] double engine_side_kgm2(const EngineSide& side);

/// Inertia of the driven wheels at the case's output.
///
/// J_w = n J_wheel / i_a^2
/// Source   driveline-shock, wheel-side
[[nodiscard]] double wheel_side_kgm2(int wheels, double wheel_kgm2, double axle_ratio);

struct Grip {
    double mu;
    double weight_N;  ///< on the driven wheels, standing
    double rolling_radius_m;
    double axle_ratio;
};
/// Torque of the ground at the case's output; over i_c at its input.
///
/// T_g = mu n_z W r / i_a
/// Note     n_z is the load of the wheels over that of standing ones: 1 gives the static grip
///          torque; landing 2.5 (2 to 4, common practice); bouncing over rock 1.3.
/// Source   driveline-shock, ground
[[nodiscard]] double ground_torque_Nm(const Grip& grip, double n_z);

struct Driveline {
    double stiffness_Nmprad;  ///< k
    double engine_kgm2;       ///< J_e
    double wheel_kgm2;        ///< J_w
};

struct Overspeed {
    double share;  ///< e, of the road speed
    double road_mps;
    double axle_ratio;
    double rolling_radius_m;
};
/// Speed that the prop shaft has over that of wheels that roll.
///
/// d_omega = e v i_a / r
/// Source   driveline-shock, overspeed
[[nodiscard]] double overspeed_radps(const Overspeed& over);

/// The ground stops the wheels, the spring stops the engine.
///
/// T_elastic = d_omega sqrt(k J_e)
/// Source   driveline-shock, elastic
[[nodiscard]] double elastic_Nm(const Driveline& line, double overspeed_radps);

/// The tyres slide: a step of ground torque on two inertias.
///
/// T_cap = 2 T_g J_e / (J_e + J_w)
/// Source   driveline-shock, sliding
[[nodiscard]] double sliding_Nm(const Driveline& line, double ground_torque_Nm);

/// What is less of the two. An integration of wheels that first slide and then stay with the
/// ground stays below it by up to a tenth where both are near each other.
///
/// T_shock = min(T_elastic, T_cap)
/// Source   driveline-shock, landing
[[nodiscard]] double landing_Nm(const Driveline& line, double overspeed_radps,
                                double ground_torque_Nm);

/// A clutch dropped, or a converter put into gear, in a car that does not move: nothing passes more
/// than the clutch (the converter its stall torque) or the wheels' grip.
struct Dump {
    double engine_radps;
    double gear;
    double case_ratio;
    double clutch_Nm;  ///< at the engine
};
/// T = min(d_omega sqrt(k J_e), T_cap, T_clutch i_g i_c),   d_omega = omega_engine / (i_g i_c)
/// Note     T_g of the cap with n_z 1.
/// Source   driveline-shock, dump
[[nodiscard]] double dump_Nm(const Driveline& line, const Dump& dump, double ground_torque_Nm);

/// First mode, engine against the ground.
///
/// f = sqrt(k / J_e) / (2 pi)
/// Source   driveline-shock, first-mode
[[nodiscard]] double first_mode_Hz(const Driveline& line);

/// How many shocks come: an exponential above the static grip torque. No count of race cars is
/// published: judgement.
struct Spectrum {
    double per_h = 0;  ///< N_1, above the static grip torque
    double decay = 1;  ///< a; 0.05 to 1
    double max = 1;    ///< A_max, none above; 1 to 4

    bool operator==(const Spectrum&) const = default;
};
/// Shocks an hour above A times the static grip torque.
///
/// N = N_1 exp(-(A - 1)/a),  1 <= A < A_max;  0 from A_max
/// Source   driveline-shock, spectrum
[[nodiscard]] double events_per_h(const Spectrum& spectrum, double ratio);

/// A that is reached once in so many hours, at most A_max. Below 1, and not below 0, where less
/// than one shock comes: the exponential carried on.
///
/// A = 1 + a ln(N_1 h)
/// Source   driveline-shock, once
[[nodiscard]] double reached_once(const Spectrum& spectrum, double duration_h);

/// Shear stress at the outside of a shaft, without notches.
///
/// tau = 16 T / (pi D^3 (1 - (d/D)^4))
/// Source   beam-theory, torsion-stress
[[nodiscard]] double torsion_MPa(const Shaft& shaft, double torque_Nm);

/// What a shaft bears over what it has: 0.58 R_e (shape change energy) over tau.
/// Source   beam-theory, shear-yield
[[nodiscard]] double strength_ratio(double torsion_MPa, double yield_MPa);

}  // namespace caseload::driveline_shock
