// SPDX-License-Identifier: MIT
// First step of the chain: who turns how fast, which force acts where. Lossless by definition.
//
// Axes: x along the shafts, from the front inside face rearwards; y to the right, z up, both as
// seen looking forward from behind. They are right-handed, and x points at the viewer, so a shaft
// that turns clockwise for the viewer turns negatively about x. Clock positions: 0 up, 90 right.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"
#include "caseload/formulas/iso_21771.hpp"
#include "caseload/model.hpp"
#include "caseload/note.hpp"

#include <string>
#include <vector>

namespace caseload {

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
};

/// One mesh; gear 1 of the pair is the driver.
struct MeshPlace {
    int driver = 0;  ///< index of the shaft
    int driven = 0;
    iso_21771::Pair pair{};
};

struct Train {
    std::vector<ShaftPlace> shafts;
    std::vector<MeshPlace> meshes;
    std::vector<iso_21771::Finding> findings;
    double steel_mass_kg = 0;
    double ratio = 0;  ///< n_input / n_output; > 1: underdrive
};

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
    double d_m_mm = 0;  ///< mean diameter; stands for the pitch diameter of the set
    double contact_angle_deg = 0;
    double C_N = 0;
    double C_0_N = 0;
    double C_u_N = 0;
    double f_0 = 0;  ///< ISO 76 factor, estimated
    double f0 = 0;   ///< friction factor of the load-independent torque
    bool estimated = false;
    double oil_reaching_Lpmin = 0;
    double seat_path_WpK = 0;  ///< heat path outer ring to housing
};

struct BearingLoad {
    double F_r_N = 0;  ///< p-mean over a turn, with the bearing's own exponent
    double F_a_N = 0;
    double clock_deg = 0;  ///< towards which the shaft presses, mean over a turn
};

/// One combination of slip-joint friction directions, with the share of time it acts.
struct LoadState {
    double weight = 0;
    std::vector<BearingLoad> bearings;
};

struct BinLoads {
    Bin bin{};
    std::vector<double> shaft_speed_rpm;  ///< per shaft, not negative
    std::vector<BearingLoad> nominal;     ///< without overload and slip: heat, friction, film
    std::vector<LoadState> for_life;      ///< with overload and slip
};

struct LegLoads {
    std::vector<BinLoads> bins;  ///< empty for a stop
    double drive_power_W = 0;    ///< time-mean of torque x speed over the bins that drive
    double mean_speed_rpm = 0;
    double revolutions = 0;  ///< of the input, in the leg
    double distance_m = 0;
    bool limited_by_engine = false;
    bool limited_by_grip = false;
};

struct Loads {
    Train train;
    std::vector<BearingData> bearings;
    std::vector<LegLoads> legs;  ///< as event.legs
    Notes notes;
};

/// Air at the site: what the vehicle meets. Pressure from altitude, temperature as given.
double site_pressure_Pa(const Setup& setup);

/// Geometry of the train with the fitted teeth. Throws Error{domain} when the gears cannot mesh
/// on this centre distance, naming the tooth sums that would fit.
Train place_train(const Setup& setup);

/// Bins of a leg: entered, or from the course, the vehicle and the train.
std::vector<Bin> leg_bins(const Setup& setup, const LegInput& leg, const Train& train,
                          LegLoads& into);

/// Forces on every bearing at one torque of the case input. slip_N: axial friction force of each
/// joint on its shaft, towards the rear; empty: none.
std::vector<BearingLoad> bearing_loads(const Setup& setup, const Train& train,
                                       const std::vector<BearingData>& bearings, double torque_Nm,
                                       const std::vector<double>& slip_N);

Loads calculate_loads(const Setup& setup);

}  // namespace caseload
