// SPDX-License-Identifier: MIT
// First step of the chain: who turns how fast, which force acts where. Lossless by definition.
//
// Axes: x along the shafts, from the front inside face rearwards; y to the right, z up, both as
// seen looking forward from behind. They are right-handed, and x points at the viewer, so a shaft
// that turns clockwise for the viewer turns negatively about x. Clock positions: 0 up, 90 right.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"
#include "caseload/formulas/iso_21771.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/load_zone.hpp"
#include "caseload/model.hpp"
#include "caseload/note.hpp"
#include "caseload/quantity.hpp"

#include <string>
#include <vector>

namespace caseload {

CASELOAD_MEMBERS(iso_21771::Pair, "mesh", z_1, z_2, module_mm, alpha_n_rad, beta_rad, alpha_t_rad,
                 alpha_wt_rad, beta_b_rad, beta_w_rad, d_1_mm, d_2_mm, d_b1_mm, d_b2_mm, d_w1_mm,
                 d_w2_mm, x_sum, x_1, x_2, tip_shortening, d_a1_mm, d_a2_mm, d_f1_mm, d_f2_mm,
                 clearance_1_mm, clearance_2_mm, p_bt_mm, g_1_mm, g_2_mm, eps_1, eps_2, eps_alpha,
                 eps_beta, rho_redC_mm, T1T2_mm, T1A_mm, T2E_mm, zeta_1, zeta_2, s_a1_mm, s_a2_mm,
                 d_Nf1_mm, d_Nf2_mm, d_Ff1_mm, d_Ff2_mm);
CASELOAD_MEMBERS(iso_21771::Finding, "finding", severity, id, text);
CASELOAD_MEMBERS(Bin, "duty", share, torque_Nm, speed_rpm, road_speed_mps);

/// A shaft in its place, in train order.
struct ShaftPlace {
    std::string name;
    double y_mm = 0;
    double z_mm = 0;
    double speed_ratio = 0;   ///< n of this shaft / n of the input; < 0: turns the other way
    double torque_ratio = 0;  ///< |T| of this shaft / |T| of the input; an idler shaft carries 0
    bool clockwise = true;    ///< driving, looking forward from behind
    bool takes_torque_in = false;  ///< the input shaft
    double gear_at_mm = 0;
    int teeth = 0;
    double tip_diameter_mm = 0;
    double pitch_diameter_mm = 0;  ///< working, of its first mesh
    double weight_N = 0;           ///< acts at the gear
    std::vector<int> bearings;     ///< the two that carry radial load, from the front
    int thrust_bearing = -1;       ///< takes the axial force alone; -1: a facing pair does

    bool operator==(const ShaftPlace&) const = default;
};
CASELOAD_MEMBERS(ShaftPlace, "shaft", name, y_mm, z_mm, speed_ratio, torque_ratio, clockwise,
                 takes_torque_in, gear_at_mm, teeth, tip_diameter_mm, pitch_diameter_mm, weight_N,
                 bearings, thrust_bearing);

/// One mesh; gear 1 of the pair is the driver.
struct MeshPlace {
    int driver = 0;  ///< index of the shaft
    int driven = 0;
    iso_21771::Pair pair{};

    bool operator==(const MeshPlace&) const = default;
};
CASELOAD_MEMBERS(MeshPlace, "mesh_place", driver, driven, pair);

struct Train {
    std::string set;  ///< name under [set]; "" when the teeth were given
    std::vector<ShaftPlace> shafts;
    std::vector<MeshPlace> meshes;
    std::vector<iso_21771::Finding> findings;
    double steel_mass_kg = 0;
    double ratio = 0;  ///< n_input / n_output; > 1: underdrive

    bool operator==(const Train&) const = default;
};
CASELOAD_MEMBERS(Train, "train", set, shafts, meshes, findings, steel_mass_kg, ratio);

/// Ratings and sizes a bearing is calculated with: entered, else estimated from its size.
struct BearingData {
    std::string name;
    BearingKind kind = BearingKind::deep_groove_ball;
    int shaft = 0;
    double at_mm = 0;
    bool radial = true;
    double bore_mm = 0;
    double outside_mm = 0;
    double width_mm = 0;
    double element_mm = 0;  ///< ball or mean roller diameter, from the size
    double d_m_mm = 0;      ///< mean diameter, taken for the pitch diameter of the set
    double contact_angle_deg = 0;
    double C_N = 0;
    double C_0_N = 0;
    double C_u_N = 0;
    double f_0 = 0;  ///< ISO 76 factor, estimated
    double f0 = 0;   ///< friction factor of the load-independent torque
    bool estimated = false;
    double oil_reaching_Lpmin = 0;
    int elements = 0;                ///< balls or rollers, from the size
    double element_stiffness_N = 0;  ///< stiffness of one between its raceways, N/mm^n
    bool play_known = false;         ///< its kind and bore have a class of clearance
    double running_play_mm = 0;      ///< on diameter, as it turns in a hot case; negative: preload
    double running_play_least_mm = 0;    ///< the same with the least play of its class
    double running_play_largest_mm = 0;  ///< and with the largest

    /// What ISO 281 needs of it for an equivalent load.
    [[nodiscard]] iso_281::EquivalentLoad for_load() const {
        return {kind, contact_angle_deg, f_0, C_0_N};
    }
    bool operator==(const BearingData&) const = default;
};
CASELOAD_MEMBERS(BearingData, "bearing", name, kind, shaft, at_mm, radial, bore_mm, outside_mm,
                 width_mm, element_mm, d_m_mm, contact_angle_deg, C_N, C_0_N, C_u_N, f_0, f0,
                 estimated, oil_reaching_Lpmin, elements, element_stiffness_N, play_known,
                 running_play_mm, running_play_least_mm, running_play_largest_mm);

struct BearingLoad {
    double F_r_N = 0;      ///< p-mean over a turn, with the bearing's own exponent
    double F_r_max_N = 0;  ///< largest within a turn
    double F_0_N = 0;      ///< the part that keeps its direction: length of the mean over a turn
    double F_a_N = 0;
    double clock_deg = 0;  ///< towards which the shaft presses, mean over a turn

    bool operator==(const BearingLoad&) const = default;
};
CASELOAD_MEMBERS(BearingLoad, "bearing_load", F_r_N, F_r_max_N, F_0_N, F_a_N, clock_deg);

/// Whether its play counts: it carries radial load, and its kind and bore have a class of
/// clearance.
bool has_running_play(const BearingInput& bearing);
/// What its running play makes of a radial load: k on the load of its life, k_M on the torque of
/// the load. 1 where the play is not known.
load_zone::Factors play_factors(const BearingData& bearing, double F_r_N);

/// P of ISO 281, a ball bearing's axial factor at its own load included, in a bearing without play:
/// what the guides for least loads mean.
inline double rated_load_N(const BearingData& bearing, const BearingLoad& load) {
    return iso_281::equivalent_load_N(bearing.for_load(), {load.F_r_N, load.F_a_N});
}
/// The load of its life: that, and not less than k F_r. Play counts only where the axial load is
/// small: above it the contact angle grows with the play and P falls.
double equivalent_load_N(const BearingData& bearing, const BearingLoad& load);

/// One combination of slip-joint friction directions, with the share of time it acts.
struct LoadState {
    double weight = 0;
    std::vector<BearingLoad> bearings;

    bool operator==(const LoadState&) const = default;
};
CASELOAD_MEMBERS(LoadState, "load_state", weight, bearings);

struct BinLoads {
    Bin bin{};
    std::vector<double> shaft_speed_rpm;  ///< per shaft, not negative
    std::vector<BearingLoad> nominal;     ///< without overload and slip: heat, friction, film
    std::vector<LoadState> for_life;      ///< with overload and slip

    bool operator==(const BinLoads&) const = default;
};
CASELOAD_MEMBERS(BinLoads, "bin", bin, shaft_speed_rpm, nominal, for_life);

/// A brief torque at the case input, with its count in the leg.
struct PeakLoads {
    double torque_Nm = 0;
    double times = 0;
    std::vector<LoadState> states;  ///< with slip joints, for dents

    bool operator==(const PeakLoads&) const = default;
};
CASELOAD_MEMBERS(PeakLoads, "peak", torque_Nm, times, states);

struct LegLoads {
    std::string name;
    int train = 0;               ///< 0: the fitted one; k: the k-th of the others
    std::vector<BinLoads> bins;  ///< empty for a stop
    std::vector<PeakLoads> peaks;
    double drive_power_W = 0;  ///< time-mean of torque x speed over the bins that drive
    double mean_speed_rpm = 0;
    double revolutions = 0;  ///< of the input, in the leg
    double distance_m = 0;
    bool limited_by_engine = false;
    bool limited_by_grip = false;
    bool beyond_engine_speed = false;  ///< somewhere on the course, in the tallest gear

    bool operator==(const LegLoads&) const = default;
};
CASELOAD_MEMBERS(LegLoads, "leg_load", name, train, bins, peaks, drive_power_W, mean_speed_rpm,
                 revolutions, distance_m, limited_by_engine, limited_by_grip, beyond_engine_speed);

struct Loads {
    Train train;                ///< as fitted
    std::vector<Train> others;  ///< of legs that run another set
    std::vector<BearingData> bearings;
    std::vector<LegLoads> legs;  ///< as event.legs
    Notes notes;

    bool operator==(const Loads&) const = default;
};
CASELOAD_MEMBERS(Loads, "loads", train, others, bearings, legs, notes);

/// The train behind LegLoads::train.
inline const Train& train_of(const Loads& loads, int index) {
    return index == 0 ? loads.train : loads.others[static_cast<std::size_t>(index) - 1];
}

/// Air at the site: what the vehicle meets. Pressure from altitude, temperature as given.
double site_pressure_Pa(const Setup& setup);

/// Where a triangular distribution with these ends and this most likely value has a share of
/// `rank` below it.
struct Triangle {
    double low;
    double likely;
    double high;
};
double triangular(const Triangle& triangle, double rank);

/// Which of the drawn duties of a calculated course the factors' rank picks; the likely one
/// without.
std::size_t drawn_duty(const Factors& factors);

/// Mean speed on the course of a leg, m/s: its likely one, or the one of the factors' rank.
double pace_mps(const LegInput& leg, const Factors& factors);

/// Geometry of the train with the fitted teeth. Throws Error{domain} when the gears cannot mesh
/// on this centre distance, naming the tooth sums that would fit.
Train place_train(const Setup& setup);

/// Bins of a leg: entered, or from the course, the vehicle and the train.
std::vector<Bin> leg_bins(const Setup& setup, const LegInput& leg, const Train& train,
                          LegLoads& into);

/// Brief torques of a leg with their count: entered ones, and those of a course: what the tyres
/// bring under `landing_load` times the weight, and not less than the largest of these bins of the
/// leg with overload.
std::vector<Peak> leg_peaks(const Setup& setup, const LegInput& leg, const Train& train,
                            const std::vector<Bin>& bins);

/// Load on the wheels over their weight when a car lands on the throttle or grip comes back; 1.5 to
/// 3, judgement. The torque comes from the turning engine and wheels, so the engine's own does not
/// limit it.
inline constexpr double landing_load = 2;

/// Forces on every bearing at one torque of the case input. slip_N: axial friction force of each
/// joint on its shaft, towards the rear; empty: none. over_mm: per shaft, what a facing pair is too
/// long by; empty: pairs have end play.
std::vector<BearingLoad> bearing_loads(const Setup& setup, const Train& train,
                                       const std::vector<BearingData>& bearings, double torque_Nm,
                                       const std::vector<double>& slip_N,
                                       const std::vector<double>& over_mm = {});

Loads calculate_loads(const Setup& setup);

}  // namespace caseload
