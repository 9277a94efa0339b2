// SPDX-License-Identifier: MIT
// What gears, weight and joints press on the bearings at one torque.
#include "caseload/formulas/cardan.hpp"
#include "caseload/formulas/gear_forces.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/statics.hpp"
#include "caseload/loads.hpp"
#include "caseload/units.hpp"
#include "loads/pairs.hpp"
#include "loads/parts.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

// Steps over half a turn of a joint: its couple repeats twice a turn.
constexpr int joint_steps = 64;

/// What acts on one shaft, before the joints' couples.
struct ShaftActions {
    std::vector<statics::PointLoad> forces;
    statics::Couple couple{};
    double F_x_N = 0;
};

// Forces of one mesh on driver and driven: along the motion of the driven tooth, apart, and axial.
void add_mesh(const Setup& setup, const Train& train, const MeshPlace& mesh, double torque_1_Nm,
              std::vector<ShaftActions>& on) {
    const ShaftPlace& driver = train.shafts[static_cast<std::size_t>(mesh.driver)];
    const ShaftPlace& driven = train.shafts[static_cast<std::size_t>(mesh.driven)];
    const double a_mm = std::hypot(driven.y_mm - driver.y_mm, driven.z_mm - driver.z_mm);
    const double e_y = (driven.y_mm - driver.y_mm) / a_mm;
    const double e_z = (driven.z_mm - driver.z_mm) / a_mm;
    // Tooth of the driven gear at the mesh, at -r e from its axis: its motion is along
    // sign(omega) x^ x (-e), with x^ x e = (-e_z, e_y).
    const double sense = driven.clockwise ? -1 : 1;
    const double t_y = sense * e_z;
    const double t_z = -sense * e_y;
    const gear_forces::Forces force = gear_forces::forces({.torque_Nm = std::fabs(torque_1_Nm),
                                                           .d_w_mm = mesh.pair.d_w1_mm,
                                                           .alpha_wt_rad = mesh.pair.alpha_wt_rad,
                                                           .beta_w_rad = mesh.pair.beta_w_rad});
    const double drive = torque_1_Nm < 0 ? -1 : 1;
    const double F_y = drive * force.F_t_N * t_y + force.F_r_N * e_y;
    const double F_z = drive * force.F_t_N * t_z + force.F_r_N * e_z;
    // Axial force on the driven gear: hand x rotation about +x x (-1 for the driven gear).
    double hand = 0;
    if (setup.gears.hand_on_input != Hand::none)
        hand = setup.gears.hand_on_input == Hand::right ? 1 : -1;
    if (mesh.driven % 2 == 1) hand = -hand;  // hands alternate along the train
    const double F_x = -hand * sense * drive * force.F_a_N;
    struct Side {
        int shaft;
        double sign;
        double r_mm;
    };
    const auto add = [&](const Side& side) {
        const auto& [shaft, sign, r_mm] = side;
        const auto index = static_cast<std::size_t>(shaft);
        ShaftActions& actions = on[index];
        actions.forces.push_back(
            {.x_mm = train.shafts[index].gear_at_mm, .F_y_N = sign * F_y, .F_z_N = sign * F_z});
        actions.F_x_N += sign * F_x;
        // Moment of the axial force at the mesh point (r towards the mate): r x F_x.
        // Driven: (-r e) x x^ F = r F (x^ x e). Driver: (r e) x x^ (-F) gives the same direction.
        actions.couple.M_y_Nmm += r_mm * F_x * -e_z;
        actions.couple.M_z_Nmm += r_mm * F_x * e_y;
    };
    add({mesh.driven, 1, mesh.pair.d_w2_mm / 2});
    add({mesh.driver, -1, mesh.pair.d_w1_mm / 2});
}

/// The secondary couple of one joint on its shaft, without the factor that swings over a turn.
struct JointCouple {
    double torque_Nm = 0;  ///< of the shaft times the joint's share
    double angle_rad = 0;
    double u_y = 0;  ///< unit vector in the plane of shaft and prop shaft, across the shaft
    double u_z = 0;
};

std::vector<JointCouple> joint_couples(const Setup& setup, const ShaftPlace& shaft,
                                       double shaft_torque_Nm) {
    std::vector<JointCouple> couples;
    for (const JointInput& joint : setup.joints) {
        if (joint.shaft != shaft.name) continue;
        const double right = std::tan(rad_from_deg(joint.angle_right_deg));
        const double down = std::tan(rad_from_deg(joint.angle_down_deg));
        const double across = std::hypot(right, down);
        if (across <= 0) continue;
        // Followed away from the case the prop shaft runs right and down. A joint at the front
        // looks along -x: taken along +x its direction reverses.
        const double side = joint.end == End::rear ? 1 : -1;
        // The shaft turns about +x when it turns counter-clockwise for the viewer. Torque leaves
        // the case through its output joints and enters through one on the input: the couple on
        // the case's shaft opposes the torque passed on in the first case, follows it in the
        // second.
        const double turns = shaft.clockwise ? -1 : 1;
        const double passes = shaft.takes_torque_in ? turns : -turns;
        couples.push_back({.torque_Nm = passes * shaft_torque_Nm * joint.torque_share,
                           .angle_rad = std::atan(across),
                           .u_y = side * right / across,
                           .u_z = -side * down / across});
    }
    return couples;
}

struct AxialSplit {
    double F_a_front_N = 0;
    double F_a_rear_N = 0;
};

double induced_N(const BearingData& bearing, double F_r_N) {
    return iso_281::induced_axial_N(bearing.for_load(), F_r_N);
}

// Facing pair without end play or preload: the axial force and the induced forces in balance.
struct Induced {
    double front_N;
    double rear_N;
};

AxialSplit facing_pair(const Induced& induced, bool front_takes_rearward, double F_x_N) {
    // A: the bearing the outside force presses on.
    const bool a_is_front = (F_x_N >= 0) == front_takes_rearward;
    const double K_N = std::fabs(F_x_N);
    const double F_iA_N = a_is_front ? induced.front_N : induced.rear_N;
    const double F_iB_N = a_is_front ? induced.rear_N : induced.front_N;
    double F_aA_N = F_iB_N + K_N;
    double F_aB_N = F_iB_N;
    if (F_iA_N > F_iB_N + K_N) {
        F_aA_N = F_iA_N;
        F_aB_N = F_iA_N - K_N;
    }
    return a_is_front ? AxialSplit{F_aA_N, F_aB_N} : AxialSplit{F_aB_N, F_aA_N};
}

// Long: front and rear side by side, as both come from one solution.
/// Radial loads of a shaft's bearings.
void press_radially(const Setup& setup, const ShaftPlace& shaft,
                    const std::vector<BearingData>& bearings, const ShaftActions& actions,
                    double shaft_torque_Nm, std::vector<BearingLoad>& result) {
    const auto front = static_cast<std::size_t>(shaft.bearings.front());
    const auto rear = static_cast<std::size_t>(shaft.bearings.back());
    const statics::Supports supports{.A_mm = bearings[front].at_mm, .B_mm = bearings[rear].at_mm};
    const statics::Reactions steady = statics::reactions(supports, actions.forces, actions.couple);
    const std::vector<JointCouple> joints = joint_couples(setup, shaft, shaft_torque_Nm);

    // The shaft presses on a bearing with the opposite of the bearing's reaction.
    struct Press {
        double y;
        double z;
    };
    const auto at_phase = [&](double phase_rad) {
        statics::Couple couple = actions.couple;
        for (const JointCouple& joint : joints) {
            const cardan::CoupleInPlane swing =
                cardan::driving_shaft_couple({.torque_Nm = joint.torque_Nm,
                                              .angle_rad = joint.angle_rad,
                                              .phase_rad = phase_rad});
            // In the plane: along u; across: along x^ x u.
            couple.M_y_Nmm += 1000 * (swing.in_plane_Nm * joint.u_y - swing.across_Nm * joint.u_z);
            couple.M_z_Nmm += 1000 * (swing.in_plane_Nm * joint.u_z + swing.across_Nm * joint.u_y);
        }
        return statics::reactions(supports, actions.forces, couple);
    };
    const double p_front = iso_281::life_exponent(bearings[front].kind);
    const double p_rear = iso_281::life_exponent(bearings[rear].kind);
    Press mean_front{-steady.A_y_N, -steady.A_z_N};
    Press mean_rear{-steady.B_y_N, -steady.B_z_N};
    if (joints.empty()) {
        result[front].F_r_N = std::hypot(steady.A_y_N, steady.A_z_N);
        result[rear].F_r_N = std::hypot(steady.B_y_N, steady.B_z_N);
        result[front].F_r_max_N = result[front].F_r_N;
        result[rear].F_r_max_N = result[rear].F_r_N;
    } else {
        double sum_front = 0;
        double sum_rear = 0;
        mean_front = mean_rear = {0, 0};
        for (int step = 0; step < joint_steps; ++step) {
            const statics::Reactions r = at_phase(pi * step / joint_steps);
            const double front_N = std::hypot(r.A_y_N, r.A_z_N);
            const double rear_N = std::hypot(r.B_y_N, r.B_z_N);
            sum_front += std::pow(front_N, p_front);
            sum_rear += std::pow(rear_N, p_rear);
            result[front].F_r_max_N = std::max(result[front].F_r_max_N, front_N);
            result[rear].F_r_max_N = std::max(result[rear].F_r_max_N, rear_N);
            mean_front.y -= r.A_y_N / joint_steps;
            mean_front.z -= r.A_z_N / joint_steps;
            mean_rear.y -= r.B_y_N / joint_steps;
            mean_rear.z -= r.B_z_N / joint_steps;
        }
        result[front].F_r_N = std::pow(sum_front / joint_steps, 1 / p_front);
        result[rear].F_r_N = std::pow(sum_rear / joint_steps, 1 / p_rear);
    }
    const auto clock_deg = [](const Press& press) {
        const double angle = deg_from_rad(std::atan2(press.y, press.z));
        return angle < 0 ? angle + 360 : angle;
    };
    result[front].F_0_N = std::hypot(mean_front.y, mean_front.z);
    result[rear].F_0_N = std::hypot(mean_rear.y, mean_rear.z);
    result[front].clock_deg = clock_deg(mean_front);
    result[rear].clock_deg = clock_deg(mean_rear);
}

/// Along one shaft: the outside force, and what a facing pair is too long by.
struct Along {
    double F_x_N;
    double over_mm;
};

/// Axial loads of the same, pressed radially before, under an axial force.
void press_axially(const Setup& setup, const ShaftPlace& shaft,
                   const std::vector<BearingData>& bearings, const Along& along,
                   std::vector<BearingLoad>& result) {
    const double F_x_N = along.F_x_N;
    if (shaft.thrust_bearing >= 0) {
        result[static_cast<std::size_t>(shaft.thrust_bearing)].F_a_N = std::fabs(F_x_N);
        return;
    }
    const auto front = static_cast<std::size_t>(shaft.bearings.front());
    const auto rear = static_cast<std::size_t>(shaft.bearings.back());
    const auto& big_end = setup.bearings[front].big_end;
    const bool front_takes_rearward = big_end && *big_end == Facing::front;
    const AxialSplit split =
        facing_pair({.front_N = induced_N(bearings[front], result[front].F_r_N),
                     .rear_N = induced_N(bearings[rear], result[rear].F_r_N)},
                    front_takes_rearward, F_x_N);
    result[front].F_a_N = split.F_a_front_N;
    result[rear].F_a_N = split.F_a_rear_N;
    if (along.over_mm <= 0) return;
    // The two springs know no radial load, the induced forces no preload: the larger counts.
    const bool a_is_front = (F_x_N >= 0) == front_takes_rearward;
    const facing_pair::Pair pair =
        springs_of(setup, a_is_front ? front : rear, a_is_front ? rear : front, bearings);
    const facing_pair::Forces by_springs =
        facing_pair::forces(pair, std::fabs(F_x_N), along.over_mm);
    double& F_aA_N = result[a_is_front ? front : rear].F_a_N;
    double& F_aB_N = result[a_is_front ? rear : front].F_a_N;
    F_aA_N = std::max(F_aA_N, by_springs.F_A_N);
    F_aB_N = std::max(F_aB_N, by_springs.F_B_N);
}

/// Loads at one torque, for any state of the slip joints: their forces act along the shafts.
class AtTorque {
public:
    AtTorque(const Setup& setup, const Train& train, const std::vector<BearingData>& bearings,
             double torque_Nm)
        : setup_(setup), train_(train), bearings_(bearings) {
        std::vector<ShaftActions> on(train.shafts.size());
        double torque_1_Nm = torque_Nm;
        for (const MeshPlace& mesh : train.meshes) {
            add_mesh(setup, train, mesh, torque_1_Nm, on);
            torque_1_Nm *= mesh.pair.d_w2_mm / mesh.pair.d_w1_mm;
        }
        radial_.resize(bearings.size());
        for (std::size_t s = 0; s < train.shafts.size(); ++s) {
            const ShaftPlace& shaft = train.shafts[s];
            on[s].forces.push_back(
                {.x_mm = shaft.gear_at_mm, .F_y_N = 0, .F_z_N = -shaft.weight_N});
            press_radially(setup, shaft, bearings, on[s], torque_Nm * shaft.torque_ratio, radial_);
            F_x_N_.push_back(on[s].F_x_N);
        }
    }

    /// With the force of each joint's slip; none: no joint slips.
    [[nodiscard]] std::vector<BearingLoad> with_slip(const std::vector<double>& slip_N,
                                                     const std::vector<double>& over_mm) const {
        std::vector<BearingLoad> result = radial_;
        for (std::size_t s = 0; s < train_.shafts.size(); ++s) {
            double F_x_N = F_x_N_[s];
            for (std::size_t j = 0; j < slip_N.size(); ++j)
                if (setup_.joints[j].shaft == train_.shafts[s].name) F_x_N += slip_N[j];
            press_axially(setup_, train_.shafts[s], bearings_,
                          {F_x_N, over_mm.empty() ? 0 : over_mm[s]}, result);
        }
        return result;
    }

private:
    const Setup& setup_;
    const Train& train_;
    const std::vector<BearingData>& bearings_;
    std::vector<BearingLoad> radial_;
    std::vector<double> F_x_N_;  ///< per shaft, of its meshes
};

}  // namespace

std::vector<BearingLoad> bearing_loads(const Setup& setup, const Train& train,
                                       const std::vector<BearingData>& bearings, double torque_Nm,
                                       const std::vector<double>& slip_N,
                                       const std::vector<double>& over_mm) {
    return AtTorque(setup, train, bearings, torque_Nm).with_slip(slip_N, over_mm);
}

std::vector<std::vector<BearingLoad>> bearing_loads_of_slips(
    const Setup& setup, const Train& train, const std::vector<BearingData>& bearings,
    double torque_Nm, const std::vector<std::vector<double>>& slips_N,
    const std::vector<double>& over_mm) {
    const AtTorque loads(setup, train, bearings, torque_Nm);
    std::vector<std::vector<BearingLoad>> all;
    all.reserve(slips_N.size());
    for (const std::vector<double>& slip_N : slips_N)
        all.push_back(loads.with_slip(slip_N, over_mm));
    return all;
}

}  // namespace caseload
