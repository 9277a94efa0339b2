// SPDX-License-Identifier: MIT
// The legs of an event: duty, trains and bearing loads of each.
#include "caseload/loads.hpp"
#include "caseload/units.hpp"
#include "loads/kept.hpp"
#include "loads/parts.hpp"
#include "loads/running_play.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload {
namespace {

// Every combination of slip directions of the joints that slip, and the state in which none moves.
struct SlipCase {
    double weight = 0;
    std::vector<double> sign;  ///< per joint; 0: at rest
};

// Slip joints move for half of the driving time. Judgement.
constexpr double slip_moving_share = 0.5;

std::vector<SlipCase> slip_cases(const Setup& setup) {
    std::vector<std::size_t> slipping;
    for (std::size_t j = 0; j < setup.joints.size(); ++j)
        if (setup.joints[j].slip_friction > 0) slipping.push_back(j);
    std::vector<SlipCase> cases;
    const std::vector<double> rest(setup.joints.size(), 0.0);
    if (slipping.empty()) return {{1, rest}};
    cases.push_back({1 - slip_moving_share, rest});
    const std::size_t combinations = std::size_t{1} << slipping.size();
    for (std::size_t c = 0; c < combinations; ++c) {
        SlipCase slip{slip_moving_share / static_cast<double>(combinations), rest};
        for (std::size_t i = 0; i < slipping.size(); ++i)
            slip.sign[slipping[i]] = (c >> i & 1U) != 0 ? 1 : -1;
        cases.push_back(std::move(slip));
    }
    return cases;
}

/// Gears and bearings of a leg.
struct Fitted {
    const Train& train;
    const std::vector<BearingData>& bearings;
    const std::vector<double>& over_mm;  ///< of facing pairs, per shaft; empty: end play
};

/// Loads at one torque in every state of the slip joints.
std::vector<LoadState> slip_states(const Setup& setup, const Fitted& fitted, double torque_Nm) {
    const auto& [train, bearings, over_mm] = fitted;
    const std::vector<SlipCase> cases = slip_cases(setup);
    std::vector<std::vector<double>> slips_N;
    for (const SlipCase& slip : cases) {
        std::vector<double> slip_N;
        for (std::size_t j = 0; j < setup.joints.size(); ++j) {
            const JointInput& joint = setup.joints[j];
            double force_N = 0;
            if (slip.sign[j] != 0) {
                double ratio = 0;
                for (const ShaftPlace& shaft : train.shafts)
                    if (shaft.name == joint.shaft) ratio = shaft.torque_ratio;
                force_N = slip.sign[j] * joint.slip_friction * std::fabs(torque_Nm) * ratio *
                          joint.torque_share / (m_from_mm(joint.slip_diameter_mm) / 2);
            }
            slip_N.push_back(force_N);
        }
        slips_N.push_back(std::move(slip_N));
    }
    auto loads = bearing_loads_of_slips(setup, train, bearings, torque_Nm, slips_N, over_mm);
    std::vector<LoadState> states;
    for (std::size_t c = 0; c < cases.size(); ++c)
        states.push_back({cases[c].weight, std::move(loads[c])});
    return states;
}

BinLoads bin_loads(const Setup& setup, const Fitted& fitted, const Bin& bin, double overload) {
    const auto& [train, bearings, over_mm] = fitted;
    BinLoads result;
    result.bin = bin;
    result.bin.torque_Nm *= setup.factors.load;
    for (const ShaftPlace& shaft : train.shafts)
        result.shaft_speed_rpm.push_back(bin.speed_rpm * std::fabs(shaft.speed_ratio));
    const double for_life_Nm = result.bin.torque_Nm * overload;
    result.for_life = slip_states(setup, fitted, for_life_Nm);
    // The first state is the one in which no joint slips.
    result.nominal = for_life_Nm == result.bin.torque_Nm
                         ? result.for_life.front().bearings
                         : bearing_loads(setup, train, bearings, result.bin.torque_Nm, {}, over_mm);
    return result;
}

/// Index of the train a leg runs; places it when it is the first to run that set.
int train_index(const Setup& setup, const LegInput& leg, Loads& loads) {
    if (leg.set.empty() || leg.set == setup.gears.fitted_name) return 0;
    for (std::size_t k = 0; k < loads.others.size(); ++k)
        if (loads.others[k].set == leg.set) return static_cast<int>(k) + 1;
    Setup other = setup;
    other.gears.teeth = setup.sets.at(leg.set).teeth;
    other.gears.fitted_name = leg.set;
    loads.others.push_back(place_train(other));
    return static_cast<int>(loads.others.size());
}

std::vector<BearingData> all_bearings(const Setup& setup, const Train& train, Notes& notes) {
    std::vector<BearingData> bearings;
    std::string assumed_fit;
    for (const BearingInput& input : setup.bearings) {
        int shaft = 0;
        for (std::size_t s = 0; s < train.shafts.size(); ++s)
            if (train.shafts[s].name == input.shaft) shaft = static_cast<int>(s);
        BearingData& data = bearings.emplace_back(bearing_data(input, shaft, notes));
        if (const auto play = running_play(setup, input, data)) {
            data.play_known = true;
            data.running_play_mm = play->at_mm(setup.factors.play);
            data.running_play_least_mm = play->at_mm(0);
            data.running_play_largest_mm = play->at_mm(1);
            if (!input.seat.shaft_interference_mm)
                assumed_fit += (assumed_fit.empty() ? "" : ", ") + input.name;
        }
    }
    if (!assumed_fit.empty())
        add_note(notes, {"bearing.shaft_fit_assumed", "bearing",
                         fmt::format("play of {}: the fit of the inner ring on the shaft is "
                                     "assumed, 0.025 mm on 90 mm and in proportion (k5 to m5); "
                                     "enter bearing.*.seat.shaft_interference",
                                     assumed_fit)});
    return bearings;
}

}  // namespace

Loads loads_on(const Setup& setup, const Setup& basis, const KeptLoads* like) {
    Loads loads;
    loads.train = place_train(basis);
    loads.bearings = all_bearings(setup, loads.train, loads.notes);
    note_layout(setup, loads.train, loads.notes);
    const bool same_basis = like != nullptr && like->basis == basis;
    Notes said_above;
    const std::vector<BearingData> bearings = all_bearings(basis, loads.train, said_above);
    const std::vector<double> no_pairs;
    const Setup rear_only = without_front_drive(basis, loads.train);
    for (std::size_t i = 0; i < setup.event.legs.size(); ++i) {
        const LegInput& leg = setup.event.legs[i];
        LegLoads result;
        result.name = leg.name;
        // A set of its own is placed by the first leg that runs it.
        if (same_basis && leg.set.empty() && i < like->legs.size() && like->legs[i] == leg) {
            result = like->loads.legs[i];
        } else if (leg.kind == LegKind::drive) {
            result.train = train_index(basis, leg, loads);
            const Fitted fitted{train_of(loads, result.train), bearings,
                                basis.pair_over_mm.empty() ? no_pairs : basis.pair_over_mm[i]};
            const std::vector<Bin> bins = leg_bins(basis, leg, fitted.train, result);
            double road_m = 0;
            const Setup& driven = leg.front_drive ? basis : rear_only;
            for (const Peak& peak : leg_peaks(basis, leg, fitted.train, bins))
                result.peaks.push_back(
                    {peak.torque_Nm, peak.times, slip_states(driven, fitted, peak.torque_Nm)});
            for (const Bin& entered : bins) {
                result.bins.push_back(bin_loads(driven, fitted, entered, leg.overload));
                const Bin& bin = result.bins.back().bin;
                result.mean_speed_rpm += bin.share * bin.speed_rpm;
                result.drive_power_W +=
                    bin.share * std::max(bin.torque_Nm, 0.0) * radps_from_rpm(bin.speed_rpm);
                road_m += bin.share * bin.road_speed_mps * leg.duration_s;
            }
            result.revolutions = result.mean_speed_rpm * min_from_s(leg.duration_s);
            result.distance_m = leg.distance_m > 0 ? leg.distance_m : road_m;
        }
        if (result.limited_by_engine)
            add_note(loads.notes, {"leg.limited_by_engine", "leg." + leg.name,
                                   "part of the course asks more power than the engine has: "
                                   "the engine limits the torque there"});
        if (result.limited_by_grip)
            add_note(loads.notes, {"leg.limited_by_grip", "leg." + leg.name,
                                   "part of the course asks more torque than the tyres can "
                                   "hold: the grip limits the torque there"});
        if (result.beyond_engine_speed)
            add_note(loads.notes, {"leg.engine_speed", "leg." + leg.name,
                                   "part of the course is faster than the engine's limit allows "
                                   "in the tallest gear"});
        loads.legs.push_back(std::move(result));
    }
    note_four_point(loads);
    return loads;
}

}  // namespace caseload
