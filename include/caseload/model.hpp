// SPDX-License-Identifier: MIT
// The setup as plain numbers: what the reader produces and the chain consumes. No member has a
// hidden default that is physics: the field table (input) fills every one and says where it came
// from. Optional members are those whose absence means something. Long: one list of members.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"
#include "caseload/formulas/iso_5753.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/formulas/spline_strength.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace caseload {

struct CaseInput {
    std::vector<double> centre_distance_mm;  ///< one, or one per mesh in train order
    std::optional<double> idler_angle_deg;   ///< needed with an idler; 180 = in line
    bool input_turns_clockwise = true;       ///< driving forward, looking forward from behind
    double drop_direction_deg = 0;           ///< 0 = output straight below; positive to the right
    std::optional<double> steel_mass_kg;     ///< all gears and shafts; absent: 1.2 x discs
    std::optional<double> structure_Npum;    ///< between the seats of a facing pair

    bool operator==(const CaseInput&) const = default;
};

enum class Support { straddled, hub, overhung };
enum class Hand { none, right, left };

/// How gears were cut, in train order; both empty: half of the sum of shifts on each gear.
struct CutInput {
    std::vector<double> profile_shift;    ///< modules
    std::vector<double> tip_diameter_mm;  ///< in place of it
    std::vector<int> teeth;               ///< of the gears these belong to

    [[nodiscard]] bool entered() const {
        return !profile_shift.empty() || !tip_diameter_mm.empty();
    }
    bool operator==(const CutInput&) const = default;
};

struct GearsInput {
    double module_mm = 0;  ///< normal module
    double pressure_angle_deg = 0;
    double helix_angle_deg = 0;
    Hand hand_on_input = Hand::none;
    double face_width_mm = 0;
    double flank_Ra_um = 0;
    double flank_Rz_um = 0;
    bool ground = false;  ///< finish = "ground": its own film-ratio limit
    int accuracy = 0;     ///< ISO 1328 grade
    std::string material;
    Support support = Support::straddled;
    double misalignment_um = 0;              ///< F_betay of the flanks, by the word of support
    std::optional<double> face_load_factor;  ///< K_Hbeta at every load; nothing: by load
    double tip_relief_um = 0;                ///< 0: not counted
    double rim_bore_ratio = 0;               ///< bore of the rim / mean tooth diameter
    std::vector<std::string> train;          ///< shaft names in power order
    std::vector<int> teeth;                  ///< as fitted, in train order
    std::string fitted_name;                 ///< name under [set], or "" when teeth were given
    CutInput cut;

    bool operator==(const GearsInput&) const = default;
};

struct SetInput {
    std::vector<int> teeth;
    bool in_trailer = true;

    bool operator==(const SetInput&) const = default;
};

struct ShaftInput {
    double gear_at_mm = 0;  ///< gear centre, from the front inside face rearwards
    double bore_mm = 0;     ///< hollow shaft; 0 = solid
    /// How its facing pair is set at 20 degC, by one of these.
    std::optional<double> end_play_mm{};  ///< negative: too short by so much
    std::optional<double> preload_N{};
    std::optional<double> turning_torque_Nm{};  ///< of the pair, slowly by hand

    bool operator==(const ShaftInput&) const = default;
};

using OilSupply = palmgren::Supply;  ///< what reaches a bearing
enum class Facing { front, rear };
using ClearanceClass = iso_5753::Class;
enum class Carrier { aluminium, steel_retainer };
enum class Held { none, flange, pin, glued };
enum class HeatCode { SN, S0, S1 };  ///< of DIN 623-1: what the rings are stabilised for
enum class CageMaterial { unknown, steel, brass, polyamide };

/// A boss nobody measured is this much larger than what it holds, on diameter. Judgement.
inline constexpr double usual_boss_over_mm = 50;

struct SeatInput {
    bool assumed = false;       ///< nothing of how the outer ring sits was entered
    bool boss_assumed = false;  ///< its boss was not entered
    Carrier carrier = Carrier::aluminium;
    Held held = Held::none;  ///< what keeps the outer ring from turning, beside its fit
    std::optional<double> ring_interference_mm;  ///< at 20 degC
    std::string ring_fit;                        ///< ISO 286 name; "" if the interference is given
    std::optional<double> retainer_outside_mm;
    std::optional<double> retainer_interference_mm;
    std::optional<double> boss_outside_mm;
    std::optional<double> shaft_interference_mm;

    bool operator==(const SeatInput&) const = default;
};

struct BearingInput {
    std::string name;  ///< position, for example "input_front"
    std::string shaft;
    double at_mm = 0;
    BearingKind kind = BearingKind::deep_groove_ball;
    double bore_mm = 0;
    double outside_mm = 0;
    double width_mm = 0;
    bool locating = false;
    bool radial = true;  ///< false: takes the axial force only
    std::optional<double> contact_angle_deg;
    std::optional<Facing> big_end;
    ClearanceClass clearance = ClearanceClass::CN;
    std::optional<double> dynamic_rating_N;  ///< absent: estimated from size, and said
    std::optional<double> static_rating_N;
    std::optional<double> fatigue_limit_N;
    std::optional<double> f0;  ///< Palmgren friction factor; absent: by kind and oil supply
    std::optional<double> f1;  ///< the same of the load; absent: by kind and load
    OilSupply oil = OilSupply::damp;
    double oil_reaching_Lpmin = 0;
    HeatCode heat_code = HeatCode::SN;
    CageMaterial cage = CageMaterial::unknown;
    bool has_seat = false;
    SeatInput seat;

    bool operator==(const BearingInput&) const = default;
};

enum class End { front, rear };

struct JointInput {
    std::string name;
    std::string shaft;
    End end = End::rear;
    double angle_down_deg = 0;
    double angle_right_deg = 0;
    double torque_share = 1;
    double slip_friction = 0;  ///< 0: no slip joint
    double slip_diameter_mm = 0;

    bool operator==(const JointInput&) const = default;
};

using SplineHardness = spline_strength::Hardness;
/// Tight or ringed at both ends and clamped; a gear that slides on by hand; a slip joint.
enum class SplineFit { piloted, loose, sliding };

struct SplineInput {
    std::string name;
    std::string shaft;
    int teeth = 0;
    double pitch_diameter_mm = 0;
    double length_mm = 0;             ///< engaged
    std::optional<double> height_mm;  ///< radial, in contact; absent: 0.9 modules of the spline
    std::optional<SplineHardness> hardness;  ///< absent: by fit
    SplineFit fit = SplineFit::loose;
    std::optional<double> misalignment_mmpm;  ///< absent: by fit
    double bore_mm = 0;                       ///< of the shaft with the outer teeth
    bool oiled = true;

    bool operator==(const SplineInput&) const = default;
};

enum class SealMaterial { FKM, NBR, HNBR, ACM, VMQ, PTFE };

struct SealInput {
    std::string name;
    std::string shaft;
    double diameter_mm = 0;
    SealMaterial material = SealMaterial::FKM;
    int lips = 1;

    bool operator==(const SealInput&) const = default;
};

enum class Filter { in_line, off_line, none };

struct OilInput {
    std::string grade;  ///< words; "" when the viscosities were entered
    bool synthetic = true;
    double viscosity_40C_mm2ps = 0;
    double viscosity_100C_mm2ps = 0;
    double density_15C_kgpm3 = 0;
    double shear_loss = 0;      ///< permanent fraction of viscosity lost, for lives
    double scuffing_stage = 0;  ///< load stage of the gear-oil scuffing test
    bool ep_additive = true;
    int code_6um = 0;   ///< ISO 4406, second number
    int code_14um = 0;  ///< ISO 4406, third number
    Filter filter = Filter::off_line;
    double fill_L = 0;

    bool operator==(const OilInput&) const = default;
};

enum class Method { scavenged, dip };
enum class PumpDrive { electric, input };

struct PumpInput {
    PumpDrive drive = PumpDrive::electric;
    double flow_Lpmin = 0;  ///< electric: always; input-driven: at rated_speed
    double rated_speed_rpm = 0;
    double pressure_Pa = 0;
    double efficiency = 0;
    std::optional<double> on_above_degC;

    bool operator==(const PumpInput&) const = default;
};

struct LubricationInput {
    Method method = Method::scavenged;
    double mist_oil_fraction = 0;  ///< by volume
    double oil_rehit = 0;          ///< thrown oil met again by the teeth
    double jet_speed_mps = 0;
    std::optional<double> side_gap_mm;  ///< gear side to wall; absent: 0.1 x pitch radius
    std::optional<double> depth_mm;     ///< dip: immersion of the lowest tip circle
    std::optional<PumpInput> pump;      ///< absent: no pump

    bool operator==(const LubricationInput&) const = default;
};

enum class HousingMaterial { aluminium, cast_iron };

struct HousingInput {
    HousingMaterial material = HousingMaterial::aluminium;
    double along_mm = 0;  ///< along the car
    double across_mm = 0;
    double high_mm = 0;
    double wall_mm = 0;
    std::optional<double> mass_kg;  ///< absent: solid-wall box of its material
    double emissivity = 0;
    double air_speed_share = 0;
    double dirt_thickness_mm = 0;
    double dirt_area_share = 0;  ///< share of the area under the coat
    bool dirt_assumed = false;   ///< neither its word nor its thickness was entered
    double air_warmer_by_K = 0;
    double exhaust_heat_W = 0;  ///< at 150 kW mean drive power
    double neighbour_WpK = 0;   ///< through the flange of what the case is bolted to; 0: nothing
    double neighbour_warmer_K = 0;              ///< that neighbour over ambient
    std::optional<double> neighbour_temp_degC;  ///< in place of it
    double oil_film_coefficient_Wpm2K = 0;
    double oil_wetted_share = 0;

    bool operator==(const HousingInput&) const = default;
};

struct CoolerRating {
    double heat_W = 0;
    double difference_K = 0;
    double oil_flow_Lpmin = 0;
    double face_speed_mps = 0;
    double rated_air_degC = 40;

    bool operator==(const CoolerRating&) const = default;
};

struct CoolerInput {
    bool fit = false;
    double width_mm = 0;
    double height_mm = 0;
    double depth_mm = 0;
    bool rating_estimated = false;
    CoolerRating rating;
    /// Estimated from the core's size, at the flows of the rating; 0: that of the rating.
    double conductance_WpK = 0;
    double face_speed_share = 0;
    double fan_face_speed_mps = 0;  ///< 0: no fan
    std::optional<double> fan_on_above_degC;
    double air_warmer_by_K = 0;
    std::optional<double> thermostat_opens_degC;
    double bypass_opens_Pa = 0;

    bool operator==(const CoolerInput&) const = default;
};

/// A core the user has, to choose from.
struct CoreInput {
    double width_mm = 0;
    double height_mm = 0;
    double depth_mm = 0;
    std::string construction;              ///< plate-fin | tube-fin
    std::optional<CoolerRating> rating{};  ///< absent: estimated from size and construction

    bool operator==(const CoreInput&) const = default;
};

struct TorquePoint {
    double speed_rpm = 0;
    double torque_Nm = 0;

    bool operator==(const TorquePoint&) const = default;
};

struct PropShaft {
    double length_mm = 0;
    double outside_mm = 0;
    double wall_mm = 0;

    bool operator==(const PropShaft&) const = default;
};

enum class Driven { all, rear };
enum class GearboxKind { manual, sequential, automatic };
enum class Fuel { petrol, race_petrol, e85, methanol, diesel };

struct VehicleInput {
    double mass_kg = 0;
    double rolling_radius_m = 0;
    double tyre_m = 0;  ///< outside diameter; 0: by the rolling radius
    double axle_ratio = 0;
    double engine_power_W = 0;
    std::optional<double> engine_limit_rpm;
    std::vector<double> gearbox;
    std::vector<TorquePoint> engine_torque;
    double drag_area_m2 = 0;
    double grip = 0;
    // What only the segment model reads.
    double wheel_travel_mm = 0;  ///< full droop to full bump
    Driven driven = Driven::all;
    std::optional<GearboxKind> gearbox_kind;  ///< absent: by the number of its ratios
    std::optional<double> rated_rpm;          ///< of the engine
    Fuel fuel = Fuel::petrol;
    std::optional<double> wheel_kg;  ///< with tyre and rim; absent: by the tyre
    std::optional<PropShaft> prop_shaft;

    /// False where every drive leg has bins and nothing is said of a vehicle.
    [[nodiscard]] bool known() const { return mass_kg > 0; }
    bool operator==(const VehicleInput&) const = default;
};

/// A slice of a leg's time at one torque and speed of the case input. Torque < 0: coast.
struct Bin {
    double share = 0;  ///< of the leg's time
    double torque_Nm = 0;
    double speed_rpm = 0;
    double road_speed_mps = 0;

    bool operator==(const Bin&) const = default;
};

struct Peak {
    double torque_Nm = 0;
    double times = 0;  ///< in the leg

    bool operator==(const Peak&) const = default;
};

/// One line of a course: what the ground asks for, before a car is known.
struct CourseLine {
    double share = 0;
    double pace_ratio = 0;  ///< road speed / mean speed of the course
    double resistance = 0;  ///< rolling resistance coefficient, force / weight
    double grade = 0;       ///< rise / run; negative downhill
    double acceleration_mps2 = 0;

    bool operator==(const CourseLine&) const = default;
};

/// How a course becomes a duty: by its fixed lines, or by a lap of this car over its ground.
enum class CourseModel { fixed, segments };
enum class DrivingStyle { finish, quick, flat_out };

/// What the highest speed of a lap is limited by. power: by the engine, on the way to a limit.
enum class Fastest { limiter, cap, ride, power };

/// What a car does on a course, driven one way: a lap of the segment model (pace.hpp).
struct CourseDuty {
    double style = 0;              ///< -1 to finish, 0 quick, 1 flat out
    double severity = 1;           ///< on every roughness of the ground
    double resistance_factor = 1;  ///< on the soil's
    double traffic = 1;            ///< on the course's highest speed
    double pace_mps = 0;
    double fast_mps = 0;  ///< not exceeded for 95 % of the time
    double highest_mps = 0;
    Fastest highest_by = Fastest::ride;
    // Shares of the time; the first four are all of it.
    double engine_share = 0;
    double grip_share = 0;
    double ride_share = 0;  ///< kept to ride limit, cap or traffic, or on the way to a slow spot
    double brake_share = 0;
    double open_throttle_share = 0;
    double drive_power_W = 0;  ///< mean at the case input
    double crank_W = 0;
    double fuel_Lph = 0;
    double fuel_Lp100km = 0;
    double torque_mean_Nm = 0;  ///< over the turns of the case input with drive torque
    double torque_cube_Nm = 0;
    double torque_874_Nm = 0;
    std::vector<Bin> bins;  ///< of those that are drawn; empty for the others

    bool operator==(const CourseDuty&) const = default;
};

/// Duties of a course by rising mean drive power, all as likely; the likely one in the middle. The
/// middle of each fifth is drawn.
inline constexpr std::size_t course_duties = 15;
inline constexpr std::size_t drawn_duties = 5;
/// Place of a drawn duty among all.
constexpr std::size_t place_of_drawn(std::size_t drawn) {
    constexpr std::size_t each = course_duties / drawn_duties;
    return drawn * each + each / 2;
}
inline constexpr std::size_t likely_duty = drawn_duties / 2;

enum class LegKind { drive, stop };
enum class Engine { off, idle };
/// Where the torque of a leg comes from: how far off it may be.
enum class LoadSource { course, entered, logged, track };

/// Pace of a course that was not entered: between its ends.
struct PaceEnds {
    double low_mps = 0;
    double high_mps = 0;

    bool operator==(const PaceEnds&) const = default;
};

struct LegInput {
    std::string name;
    LegKind kind = LegKind::drive;
    double duration_s = 0;
    double distance_m = 0;  ///< 0 when unknown
    std::vector<Bin> bins;  ///< entered bins; empty when a course is given
    std::string course;     ///< name, for words
    std::vector<CourseLine> course_lines;
    double course_pace_mps = 0;
    std::optional<PaceEnds> pace_ends;   ///< absent: the pace is entered, or calculated
    std::vector<CourseDuty> calculated;  ///< by the segment model, in place of lines
    bool pace_said = false;              ///< of a calculated leg: its ground is solved from it
    LoadSource load_source = LoadSource::entered;
    double course_peaks_per_h = 0;  ///< brief torques at the load limit
    double overload = 1;
    std::vector<Peak> peaks;
    bool front_drive = true;
    std::string set;  ///< "" = the fitted one
    Engine engine = Engine::off;
    bool pump_on = true;
    bool fan_on = true;

    bool operator==(const LegInput&) const = default;
};

struct EventInput {
    CourseModel course_model = CourseModel::fixed;
    double ambient_degC = 0;
    double altitude_m = 0;
    double oil_at_start_degC = 0;       ///< of the whole case
    bool oil_at_start_entered = false;  ///< false: it is the ambient
    std::vector<LegInput> legs;         ///< each leg once
    std::vector<int> run;               ///< indices into legs, in the order driven
    std::string words;  ///< how the event was given: "rough-desert", "3 x loop", ...

    bool operator==(const EventInput&) const = default;
};

struct LimitsInput {
    double oil_watch_degC = 0;
    double oil_stop_degC = 0;

    bool operator==(const LimitsInput&) const = default;
};

struct RulesInput {
    double change_oil_events = 0;
    double look_events = 0;
    double open_case_events = 0;
    bool change_oil_own = false;  ///< the user's rule; false: common practice
    bool look_own = false;
    bool open_case_own = false;

    bool operator==(const RulesInput&) const = default;
};

struct AimsInput {
    double rebuild_reliability = 0;

    bool operator==(const AimsInput&) const = default;
};

/// What a planned rebuild and a failure cost, in one currency.
struct CostsInput {
    double planned = 0;
    double failure = 0;
    std::string currency;

    bool operator==(const CostsInput&) const = default;
};

/// How this one case differs from the calculated one: 1 each for a case that was not measured.
/// Drawn for the range, or found from readings.
struct Factors {
    double load = 1;  ///< on every torque, for heat and lives alike
    double mesh = 1;  ///< on heat made, by source
    double windage = 1;
    double pocketing = 1;
    double thrown = 1;
    double churning = 1;
    double churning_fast = 1;  ///< the same where a gear runs at 35 m/s; between, both count
    double bearing_friction = 1;
    double seals = 1;
    double pump = 1;
    double air_share = 1;           ///< on the share of road speed at the case
    double oil_film = 1;            ///< on the film coefficient oil to housing
    double face_speed = 1;          ///< on the air speed at the cooler's face
    double thermostat_K = 0;        ///< added to where the cooler's thermostat opens
    double pump_flow = 1;           ///< on the oil through the core and onto the gears
    double cooler_conductance = 1;  ///< on that of the core
    double mist = 1;                ///< on the oil in the air round the gears
    double rehit = 1;               ///< on how often thrown oil meets the teeth
    double exhaust_W = 0;           ///< added to the exhaust's heat at 150 kW
    double neighbour_WpK = 0;       ///< added to the path to what the case is bolted to
    double neighbour_K = 0;         ///< added to the temperature of that
    double dirt = 1;                ///< on the thickness of the coat of dirt
    /// Share of likely cars that are slower on a course whose pace is not entered, or whose drive
    /// power is less on a calculated one; absent: the likely.
    std::optional<double> pace_rank;
    double air_K = 0;      ///< added to the air at case and cooler, and to a start at ambient
    int cleanliness = 0;   ///< ISO 4406 table classes; positive is dirtier
    double life = 1;       ///< on every bearing life
    double seat_heat = 1;  ///< on the heat a bearing seat of unknown fit lets through
    double play = 0.5;     ///< where bearings lie in their class of clearance, 0 least, 1 largest

    bool operator==(const Factors&) const = default;
};

/// Where a temperature was taken; each place is one node of the network (ask/calibrate.hpp).
enum class ReadingPlace { scavenge_line, oil_bath, housing_below_oil, housing_above_oil };

struct LoggedTemp {
    double t_s = 0;  ///< after the leg began
    double temp_degC = 0;

    bool operator==(const LoggedTemp&) const = default;
};

/// One temperature, or one logged run of them, taken on the case itself.
struct ReadingInput {
    std::string name;
    ReadingPlace place = ReadingPlace::scavenge_line;
    std::string leg;
    double ambient_degC = 0;
    std::optional<double> start_degC;  ///< whole case when the leg began; absent: the ambient
    double at_pace_s = 0;
    double temp_degC = 0;              ///< of a label: its highest window that turned
    std::optional<double> clear_degC;  ///< of a label: its lowest window that stayed clear
    std::optional<double> scatter_K;   ///< one standard deviation; absent: by place
    bool cooler = true;                ///< false: taken with the cooler out of the circuit
    std::vector<LoggedTemp> series;    ///< in place of at_pace and temp

    bool operator==(const ReadingInput&) const = default;
};

/// One factor of the range after the readings.
struct MeasuredFactor {
    std::string name;         ///< its row of tables/band.toml
    bool told_apart = false;  ///< the readings alone find it
    double median = 1;
    double spread = 0;         ///< standard deviation of the logarithm
    std::vector<double> with;  ///< correlations with the factors before it

    bool operator==(const MeasuredFactor&) const = default;
};

/// A case that was measured: written by `caseload calibrate`.
struct Measured {
    std::string date;
    int readings = 0;
    std::vector<MeasuredFactor> factors;  ///< in the order of tables/band.toml

    bool operator==(const Measured&) const = default;
};

/// What the word "unknown" gives a number, entered or assumed: nobody has looked at the case yet.
/// An entered number is known, whatever its word.
struct NotLookedAt {
    bool mist = false;   ///< lubrication.mist_oil_fraction
    bool rehit = false;  ///< lubrication.oil_rehit
    bool exhaust = false;
    bool neighbour_path = false;
    bool neighbour_temp = false;

    bool operator==(const NotLookedAt&) const = default;
};

struct Setup {
    std::string title;
    std::string name;  ///< of the file
    bool imperial = false;
    CaseInput transfer_case;  ///< [case]
    GearsInput gears;
    std::map<std::string, SetInput> sets;
    std::map<std::string, ShaftInput> shafts;
    std::vector<BearingInput> bearings;  ///< by shaft in train order, then from the front
    std::vector<JointInput> joints;
    std::vector<SplineInput> splines;
    std::vector<SealInput> seals;
    OilInput oil;
    LubricationInput lubrication;
    HousingInput housing;
    CoolerInput cooler;
    std::map<std::string, CoreInput> cores;
    std::map<std::string, BearingInput>
        candidates;  ///< bearings to choose from: kind, size, ratings
    VehicleInput vehicle;
    EventInput event;
    NotLookedAt unknown;
    LimitsInput limits;
    RulesInput rules;
    AimsInput aims;
    std::optional<CostsInput> costs;
    std::vector<ReadingInput> readings;
    std::optional<Measured> measured;
    Factors factors;
    /// By leg and shaft, what the parts of a facing pair are too long by in the hot case; negative:
    /// its end play. Empty: found from the temperatures each leg settles at, by `prepare`.
    std::vector<std::vector<double>> pair_over_mm;

    bool operator==(const Setup&) const = default;
};

}  // namespace caseload
