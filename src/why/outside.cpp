// SPDX-License-Identifier: MIT
// Heat from the housing to the air and from the oil to the cooler, in each bin of a leg at rest.
#include "heat/at_oil.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

namespace caseload::why_detail {
void add_outside(const Gather& gather, const LegAnswer& leg) {
    const Setup& setup = gather.setup;
    Collector& to = gather.to;
    const LegLoads& loads = loads_of(gather, leg);
    const double housing_degC = leg.at_rest.nodes.housing_degC;
    // Above hottest_path_degC the path to the outside is extrapolated; no settled leg is so hot.
    if (housing_degC > hottest_path_degC) return;
    const double coated = setup.housing.dirt_thickness_mm > 0 ? setup.housing.dirt_area_share : 0;
    std::vector<std::string> convection;
    std::vector<std::string> radiation;
    for (std::size_t bin = 0; bin < loads.bins.size(); ++bin) {
        const std::string at = in_bin(leg.name, bin);
        const double air_mps = setup.factors.air_share * setup.housing.air_speed_share *
                                   loads.bins[bin].bin.road_speed_mps +
                               0.5;
        for (const bool coat : {false, true}) {
            if (coat ? coated <= 0 : coated >= 1) continue;
            const Collector::Place place{"air", coat ? "air.coat" : "air.bare", at, {}};
            if (coat) {
                Number& surface =
                    to.add(place, "surface_degC",
                           box_wall::outside(surroundings(gather.prepared, air_mps), housing_degC)
                               .surface_degC);
                surface.equation =
                    "([rest.housing_degC@" + leg.name +
                    "] - surface_degC) / coat_m2KpW - convection_Wpm2 - radiation_Wpm2";
                surface.how = "solved";
            } else {
                to.step(place, "surface_degC", "[rest.housing_degC@" + leg.name + "]");
            }
            to.step(place, "speed_mps",
                    fmt::format(
                        "factor_air_share * air_speed_share * [duty.road_speed_mps@{}] + 0.5", at));
            to.step(place, "convection_Wpm2");
            to.step(place, "radiation_Wpm2");
            to.steps_of(place);
            const std::string share = coat ? "dirt_share" : coated > 0 ? "(1 - dirt_share)" : "1";
            convection.push_back(fmt::format("[duty.share@{0}] * {1} * [{2}.convection_Wpm2@{0}]",
                                             at, share, place.part));
            radiation.push_back(fmt::format("[duty.share@{0}] * {1} * [{2}.radiation_Wpm2@{0}]", at,
                                            share, place.part));
        }
    }
    to.number("rest.convection_W@" + leg.name).value_of = "area_m2 * (" + sum_of(convection) + ")";
    to.number("rest.radiation_W@" + leg.name).value_of = "area_m2 * (" + sum_of(radiation) + ")";
    to.steps_of({"rest", "rest", leg.name, {}});
}

// Long: one number after the other, each with its formula beside it.
void add_cooler(const Gather& gather, const LegAnswer& leg) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    if (!prepared.cooler.fitted || !setup.lubrication.pump) return;
    const CoolerInput& cooler = setup.cooler;
    const CoolerModel& model = prepared.cooler;
    const Collector::Place core{"cooler", "cooler", {}, {}};
    if (!to.has("cooler.face_m2")) {
        to.add(core, "width_mm", cooler.width_mm);
        to.add(core, "height_mm", cooler.height_mm);
        to.add(core, "rating_heat_W", cooler.rating.heat_W);
        to.add(core, "rating_difference_K", cooler.rating.difference_K);
        to.add(core, "rating_Lpmin", cooler.rating.oil_flow_Lpmin);
        to.add(core, "rating_face_mps", cooler.rating.face_speed_mps);
        to.add(core, "rated_air_degC", cooler.rating.rated_air_degC);
        to.add(core, "air_warmer_K", cooler.air_warmer_by_K);
        to.add(core, "air_degC", prepared.cooler_air_degC);
        to.add(core, "face_share", cooler.face_speed_share);
        to.add(core, "factor_face", setup.factors.face_speed);
        to.add(core, "fan_mps", cooler.fan_face_speed_mps);
        to.add(core, "bypass_Pa", cooler.bypass_opens_Pa);
        if (cooler.thermostat_opens_degC)
            to.add(core, "thermostat_degC", *cooler.thermostat_opens_degC);
        to.add(core, "face_m2", model.face_m2);
        to.add(core, "rating_flux", model.air_mass_flux_rating);
        to.add(core, "rating_oil_kgps", model.oil_mass_flow_rating_kgps);
        to.add(core, "rating_viscosity", model.viscosity_rating);
        Number& path = to.add(core, "rating_WpK", model.conductance_rating_WpK);
        // A core too large or too small for a rating has none; its conductance is from its size.
        if (cooler.rating.heat_W > 0)
            path.equation = "rating_heat_W / (rating_least_WpK * rating_difference_K) - rating_eff";
        to.steps_of(core);
    }
    if (!leg.at_rest.switches.pump || !leg.at_rest.switches.cooler) return;
    const LegLoads& loads = loads_of(gather, leg);
    const double oil_degC = leg.at_rest.nodes.oil_degC;
    std::vector<std::string> carried;
    for (std::size_t bin = 0; bin < loads.bins.size(); ++bin) {
        const std::string at = in_bin(leg.name, bin);
        const Collector::Place place{"cooler_run", "cooler", at, {}};
        const Bin& duty = loads.bins[bin].bin;
        const bool fan = leg.at_rest.switches.fan;
        to.step(place, "face_mps",
                fmt::format("factor_face * max(face_share * [duty.road_speed_mps@{}], {})", at,
                            fan ? "fan_mps" : "0"));
        const double pump_Lpmin = pump_flow_Lpmin(setup, duty.speed_rpm);
        const std::string pumped = fmt::format("[pump.flow_Lpmin@{}]", at);
        to.step(place, "pumped_Lpmin",
                cooler.thermostat_opens_degC
                    ? pumped + " * (0.05 + 0.95 * min(max((at_degC - thermostat_degC) / 10, 0), 1))"
                    : pumped);
        to.add(place, "flow_Lpmin", core_flow_Lpmin(prepared, {pump_Lpmin, oil_degC}));
        to.steps_of(place);
        // Without air or oil the core carries nothing.
        if (to.number("cooler.face_mps@" + at).value <= 0 || pump_Lpmin <= 0) continue;
        to.step(place, "heat_W");
        carried.push_back(fmt::format("[duty.share@{0}] * [cooler.heat_W@{0}]", at));
    }
    Number& heat = to.number("rest.cooler_W@" + leg.name);
    if (carried.empty())
        mark_as_zero(heat, "neither air nor oil passes the core");
    else
        heat.value_of = sum_of(carried);
}

}  // namespace caseload::why_detail
