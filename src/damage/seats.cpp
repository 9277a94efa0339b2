// SPDX-License-Identifier: MIT
#include "caseload/seats.hpp"

#include "caseload/formulas/iso_5753.hpp"
#include "caseload/formulas/operating_clearance.hpp"
#include "caseload/formulas/thermal_play.hpp"
#include "caseload/formulas/thick_ring.hpp"
#include "caseload/housing_metal.hpp"
#include "caseload/units.hpp"
#include "damage/creep.hpp"
#include "loads/seat_fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace caseload {
namespace {

// A case in a trailer on a winter night. Judgement.
constexpr double storage_degC = -20;
// The expansion formulas are not used above it; a case does not survive that.
constexpr double hottest_seat_degC = 300;

class Seat {
public:
    Seat(const BearingInput& input, const BearingData& data, const Setup& setup)
        : input_(input),
          data_(data),
          boss_(metal_of(setup.housing.material).elastic),
          shaft_bore_mm_(setup.shafts.at(input.shaft).bore_mm),
          raceway_mm_(outer_raceway_mm(data)),
          inner_raceway_mm_(inner_raceway_mm(data)),
          interference_(ring_interference(input)) {}

    [[nodiscard]] const RingInterference& interference() const { return interference_; }
    [[nodiscard]] double middle_mm() const { return interference_.middle_mm(); }
    [[nodiscard]] bool retained() const { return input_.seat.carrier == Carrier::steel_retainer; }

    struct State {
        double temp_degC;
        double ring_mm;  ///< interference of the ring
    };

    /// Temperature above which the ring turns in its seat, or the retainer in the housing. A
    /// housing that grows less than steel lets go of nothing as it warms: what is tight in the hot
    /// case stays so, what is loose there counts as loose from a cold store on.
    [[nodiscard]] double loose_above_degC(const State& hot) const {
        const double ring_mm = hot.ring_mm;
        if (boss_.expansion_pK <= thick_ring::steel.expansion_pK) {
            const SeatAt there = at(hot);
            return there.gap_mm > 0 || there.retainer_gap_mm > 0 ? storage_degC : hottest_seat_degC;
        }
        if (!retained()) return thick_ring::release_degC(fit(ring_mm));
        const thick_ring::Release release = thick_ring::release_degC(nest(ring_mm));
        return release.ring_degC ? std::min(*release.ring_degC, release.retainer_degC)
                                 : release.retainer_degC;
    }

    [[nodiscard]] SeatAt at(double temp_degC) const { return at({temp_degC, middle_mm()}); }

    [[nodiscard]] SeatAt at(const State& state) const {
        const auto& [temp_degC, ring_mm] = state;
        SeatAt out;
        out.temp_degC = temp_degC;
        thick_ring::Joint ring{};
        thick_ring::Joint outer{};
        if (retained()) {
            const thick_ring::NestJoints both =
                thick_ring::joints(nest(ring_mm), {temp_degC, temp_degC, temp_degC});
            ring = both.ring;
            outer = both.retainer;
            out.retainer_pressure_MPa = outer.pressure_MPa;
            out.retainer_gap_mm = outer.gap_mm;
        } else {
            ring = thick_ring::joint(fit(ring_mm), {temp_degC, temp_degC});
            outer = ring;
        }
        out.pressure_MPa = ring.pressure_MPa;
        out.gap_mm = ring.gap_mm;
        out.hoop_MPa = thick_ring::inside_hoop_MPa(
            {.inside_mm = retained() ? *input_.seat.retainer_outside_mm : input_.outside_mm,
             .outside_mm = *input_.seat.boss_outside_mm,
             .material = boss_},
            {.inside_MPa = outer.pressure_MPa, .outside_MPa = 0});
        out.raceway_shrink_mm =
            -thick_ring::inside_growth_mm({.inside_mm = raceway_mm_,
                                           .outside_mm = input_.outside_mm,
                                           .material = thick_ring::steel},
                                          {.inside_MPa = 0, .outside_MPa = ring.pressure_MPa});
        out.slip_torque_Nm =
            thick_ring::slip_torque_Nm({.pressure_MPa = ring.pressure_MPa,
                                        .diameter_mm = input_.outside_mm,
                                        .width_mm = input_.width_mm,
                                        .friction = thick_ring::least_seat_friction});
        if (const auto delivered = clearance()) {
            const operating_clearance::Reductions reductions{
                .inner_mm = operating_clearance::inner_reduction_mm(
                    {.interference_mm = input_.seat.shaft_interference_mm.value_or(0),
                     .shaft_bore_mm = shaft_bore_mm_,
                     .bore_mm = input_.bore_mm,
                     .raceway_mm = inner_raceway_mm_}),
                .outer_mm = out.raceway_shrink_mm,
                .thermal_mm = 0};
            out.play_least_mm = operating_clearance::clearance_mm(reductions, delivered->least_mm);
            out.play_largest_mm =
                operating_clearance::clearance_mm(reductions, delivered->largest_mm);
        }
        return out;
    }

    [[nodiscard]] std::optional<iso_5753::Clearance> clearance() const {
        if (!input_.seat.shaft_interference_mm) return std::nullopt;
        if (input_.bore_mm <= iso_5753::over_bore_mm || input_.bore_mm > iso_5753::largest_bore_mm)
            return std::nullopt;
        return iso_5753::radial_clearance_mm(input_.kind, input_.clearance, input_.bore_mm);
    }

private:
    [[nodiscard]] thick_ring::Fit fit(double ring_mm) const {
        return ring_in_boss({input_, data_, boss_}, ring_mm);
    }
    [[nodiscard]] thick_ring::Nest nest(double ring_mm) const {
        return ring_in_retainer({input_, data_, boss_}, ring_mm);
    }

    const BearingInput& input_;
    const BearingData& data_;
    const thick_ring::Material& boss_;
    double shaft_bore_mm_;
    double raceway_mm_;
    double inner_raceway_mm_;
    RingInterference interference_;
};

/// Whether a seat says enough to be calculated.
bool described(const BearingInput& bearing) {
    return has_ring_fit(bearing) && bearing.seat.boss_outside_mm;
}

double first_above_s(const EventHeat& heat, double housing_degC) {
    for (std::size_t i = 0; i < heat.samples.size(); ++i) {
        const Sample& to = heat.samples[i];
        if (to.nodes.housing_degC <= housing_degC) continue;
        if (i == 0) return to.t_s;
        const Sample& from = heat.samples[i - 1];
        const double rise_K = to.nodes.housing_degC - from.nodes.housing_degC;
        return rise_K > 0
                   ? from.t_s +
                         (to.t_s - from.t_s) *
                             std::clamp((housing_degC - from.nodes.housing_degC) / rise_K, 0.0, 1.0)
                   : to.t_s;
    }
    return -1;
}

double hottest_steel_degC(const EventHeat& heat) {
    double hottest = heat.samples.front().nodes.steel_degC;
    for (const Sample& sample : heat.samples) hottest = std::max(hottest, sample.nodes.steel_degC);
    return std::min(hottest, oil_ceiling_degC);
}

}  // namespace

std::vector<SeatResult> seat_results(const Prepared& prepared, const EventHeat& heat) {
    const Setup& setup = *prepared.setup;
    std::vector<SeatResult> all;
    for (std::size_t b = 0; b < setup.bearings.size(); ++b) {
        const BearingInput& input = setup.bearings[b];
        if (!described(input)) continue;
        const Seat seat(input, prepared.loads.bearings[b], setup);
        SeatResult out;
        out.bearing = input.name;
        out.retainer = seat.retained();
        out.play_known = seat.clearance().has_value();
        out.interference_least_mm = seat.interference().least_mm;
        out.interference_largest_mm = seat.interference().largest_mm;
        const double peak_degC = std::min(heat.peak_housing_degC, oil_ceiling_degC);
        out.loose_above_least_degC =
            seat.loose_above_degC({peak_degC, seat.interference().least_mm});
        out.loose_above_degC = seat.loose_above_degC({peak_degC, seat.middle_mm()});
        out.loose_above_largest_degC =
            seat.loose_above_degC({peak_degC, seat.interference().largest_mm});
        out.storage = seat.at(storage_degC);
        out.cold = seat.at(prepared.ambient_degC);
        out.hot = seat.at(peak_degC);
        const double hot_degC = out.hot.temp_degC;
        const auto [least_mm, largest_mm] = seat.interference();
        out.storage_tightest = seat.at({storage_degC, largest_mm});
        out.cold_loosest = seat.at({prepared.ambient_degC, least_mm});
        out.hot_loosest = seat.at({hot_degC, least_mm});
        out.hot_tightest = seat.at({hot_degC, largest_mm});
        out.loose_after_s = first_above_s(heat, out.loose_above_degC);
        add_creep(prepared, heat, b, out);
        add_shaft_creep(prepared, b, out);
        all.push_back(std::move(out));
    }
    return all;
}

std::vector<double> seat_sweep_temps_degC() {
    constexpr double step_K = 5;
    constexpr auto steps = static_cast<int>((oil_ceiling_degC - storage_degC) / step_K);
    std::vector<double> temps_degC;
    temps_degC.reserve(steps + 1);
    for (int i = 0; i <= steps; ++i) temps_degC.push_back(storage_degC + step_K * i);
    return temps_degC;
}

std::vector<SeatSweep> seat_sweep(const Prepared& prepared, const std::vector<double>& temps_degC) {
    const Setup& setup = *prepared.setup;
    std::vector<SeatSweep> all;
    for (std::size_t b = 0; b < setup.bearings.size(); ++b) {
        const BearingInput& input = setup.bearings[b];
        if (!described(input)) continue;
        const Seat seat(input, prepared.loads.bearings[b], setup);
        SeatSweep one{input.name, {}};
        one.at.reserve(temps_degC.size());
        for (const double temp_degC : temps_degC) one.at.push_back(seat.at(temp_degC));
        all.push_back(std::move(one));
    }
    return all;
}

Notes seat_notes(const Setup& setup, const std::vector<SeatResult>& seats) {
    Notes notes;
    for (const BearingInput& bearing : setup.bearings)
        if (bearing.has_seat && !described(bearing))
            add_note(notes,
                     {"seat.not_calculated", "bearing." + bearing.name,
                      fmt::format("seat of {} is not calculated: it needs boss_outside, and a "
                                  "steel retainer its outside and interference",
                                  bearing.name)});
    for (const SeatResult& seat : seats)
        if (seat.play_known && seat.storage.play_least_mm < 0)
            add_note(notes, {"seat.no_play_in_store", "bearing." + seat.bearing,
                             fmt::format(
                                 "{} can be without play by {:.0f} um in a store at -20 degC: warm "
                                 "the case before it turns",
                                 seat.bearing, um_from_mm(-seat.storage.play_least_mm))});
    return notes;
}

PlayChange play_change(const Prepared& prepared, const EventHeat& heat) {
    PlayChange out;
    const double housing_pK = metal_of(prepared.setup->housing.material).elastic.expansion_pK;
    const auto expansion = [&](double housing_degC, double steel_degC) {
        return thermal_play::Expansion{.housing_pK = housing_pK,
                                       .steel_pK = thick_ring::steel.expansion_pK,
                                       .housing_degC = housing_degC,
                                       .steel_degC = steel_degC};
    };
    const auto hot =
        expansion(std::min(heat.peak_housing_degC, oil_ceiling_degC), hottest_steel_degC(heat));
    const auto cold = expansion(prepared.ambient_degC, prepared.ambient_degC);
    for (int k = 0; k <= static_cast<int>(prepared.loads.others.size()); ++k)
        for (const MeshPlace& place : train_of(prepared.loads, k).meshes) {
            const iso_21771::Pair& pair = place.pair;
            const thermal_play::Mesh mesh{.centre_distance_mm = (pair.d_w1_mm + pair.d_w2_mm) / 2,
                                          .alpha_w_deg = deg_from_rad(pair.alpha_wt_rad)};
            out.backlash_hot_mm.push_back(thermal_play::backlash_change_mm(hot, mesh));
            out.backlash_cold_mm.push_back(thermal_play::backlash_change_mm(cold, mesh));
        }
    for (const ShaftPlace& shaft : prepared.loads.train.shafts) {
        const auto front = static_cast<std::size_t>(shaft.bearings.front());
        const auto rear = static_cast<std::size_t>(shaft.bearings.back());
        const double span_mm =
            prepared.loads.bearings[rear].at_mm - prepared.loads.bearings[front].at_mm;
        if (shaft.thrust_bearing >= 0) {
            out.end_play_hot_mm.push_back(thermal_play::axial_travel_mm(hot, span_mm));
            out.end_play_cold_mm.push_back(thermal_play::axial_travel_mm(cold, span_mm));
            continue;
        }
        const auto& big_end = prepared.setup->bearings[front].big_end;
        const bool out_ends = big_end && *big_end == Facing::front;
        const auto pair =
            out_ends ? thermal_play::Pair::thick_ends_out : thermal_play::Pair::thick_ends_in;
        out.end_play_hot_mm.push_back(thermal_play::end_play_change_mm(hot, pair, span_mm));
        out.end_play_cold_mm.push_back(thermal_play::end_play_change_mm(cold, pair, span_mm));
    }
    return out;
}

}  // namespace caseload
