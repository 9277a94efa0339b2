// SPDX-License-Identifier: MIT
#include "caseload/error.hpp"
#include "caseload/formulas/air.hpp"
#include "caseload/formulas/box_film.hpp"
#include "caseload/formulas/exchanger.hpp"
#include "caseload/housing_metal.hpp"
#include "caseload/input.hpp"
#include "caseload/units.hpp"
#include "heat/at_oil.hpp"

#include <algorithm>
#include <utility>
#include <vector>

namespace caseload {
namespace {

// Capacities are taken at this temperature; they move 5 % from 40 to 120 degC.
constexpr double capacity_temp_degC = 80;
constexpr double steel_heat_JpkgK = 470;  // handbook value, from memory
// Flung oil on gears and hubs. Judgement: 0.12 to 0.2 m2 at 600 to 1000 W/(m2 K).
constexpr double oil_steel_WpK = 120;
// Core pressure drop at the rating point. Judgement, typical of a 45 mm core.
constexpr double core_drop_rating_Pa = 30000;
// Air stirred by wheels and shafts while driving. Judgement.
constexpr double stirred_air_mps = 0.5;
// Thermostat: least flow through the core. Common practice.
constexpr double thermostat_leak = 0.05;
// Share of the resistance on the oil side at the rating point. Judgement (0.3 to 0.7).
constexpr double oil_side_share = 0.5;
// Exhaust: full heat at this mean drive power, and never less than this share while driving.
// Judgement.
constexpr double exhaust_power_W = 150000;
constexpr double exhaust_least_share = 0.2;
// Paths in a stop, when splash has ended; the second of the oil in bearings too. Judgement.
constexpr double stop_oil_housing_share = 0.5;
constexpr double stop_oil_steel_share = 0.25;

box_film::Box box(const HousingInput& housing) {
    return {.along_m = m_from_mm(housing.along_mm),
            .across_m = m_from_mm(housing.across_mm),
            .high_m = m_from_mm(housing.high_mm)};
}

double housing_mass_kg(const HousingInput& housing) {
    if (housing.mass_kg) return *housing.mass_kg;
    const auto inner_m = [&](double outer_mm) {
        return std::max(m_from_mm(outer_mm - 2 * housing.wall_mm), 0.0);
    };
    const double outer_m3 =
        m_from_mm(housing.along_mm) * m_from_mm(housing.across_mm) * m_from_mm(housing.high_mm);
    const double inner_m3 =
        inner_m(housing.along_mm) * inner_m(housing.across_mm) * inner_m(housing.high_mm);
    return metal_of(housing.material).density_kgpm3 * (outer_m3 - inner_m3);
}

CoolerModel cooler_model(const Setup& setup, const Oil& oil) {
    CoolerModel model;
    const CoolerInput& cooler = setup.cooler;
    model.fitted = cooler.fit;
    if (!cooler.fit) return model;
    const CoolerRating& rating = cooler.rating;
    const double oil_in_degC = rating.rated_air_degC + rating.difference_K;
    const RatedStreams streams = rated_streams(cooler, setup.oil);
    model.face_m2 = m_from_mm(cooler.width_mm) * m_from_mm(cooler.height_mm);
    model.air_mass_flux_rating = streams.air_kgpsm2;
    model.oil_mass_flow_rating_kgps = streams.oil_kgps;
    model.viscosity_rating =
        astm_d341::viscosity_mm2ps(oil.fresh, oil_in_degC) * oil_density_kgpm3(oil, oil_in_degC);
    model.conductance_rating_WpK =
        setup.factors.cooler_conductance *
        (cooler.conductance_WpK > 0
             ? cooler.conductance_WpK
             : exchanger::conductance_WpK({.heat_W = rating.heat_W,
                                           .difference_K = rating.difference_K,
                                           .oil_capacity_WpK = streams.oil_WpK,
                                           .air_capacity_WpK = streams.air_WpK}));
    return model;
}

/// Entries this version does not calculate: refused, never ignored.
void refuse_uncalculated(const Setup& setup) {
    const auto refuse = [](std::string what, std::string hint) {
        throw Error(
            Error::Kind::domain,
            {Problem{{}, std::move(what) + " is not calculated by this version", std::move(hint)}});
    };
    for (const BearingInput& bearing : setup.bearings)
        if (!use_of(bearing.kind).holds_axially && bearing.locating)
            refuse("bearing." + bearing.name + " as the locating one",
                   "flange thrust is outside the rating standard; make another one locating");
}

}  // namespace

Prepared prepare(const Setup& setup) {
    return prepare_settled(setup, calculate_loads(setup));
}

Prepared prepare(const Setup& setup, Loads loads) {
    refuse_uncalculated(setup);
    Prepared prepared;
    prepared.setup = &setup;
    prepared.loads = std::move(loads);
    prepared.oil = make_oil(setup.oil);
    prepared.bearing_paths = bearing_paths(setup, prepared.loads, prepared.oil);
    prepared.films = film_groups(prepared.bearing_paths);
    for (const LegLoads& leg : prepared.loads.legs)
        prepared.losses.push_back(
            prepare_losses(setup, prepared.loads, leg, prepared.bearing_paths));
    prepared.pressure_Pa = site_pressure_Pa(setup);
    const double ambient_degC = setup.event.ambient_degC + setup.factors.air_K;
    prepared.case_air_degC = ambient_degC + setup.housing.air_warmer_by_K;
    prepared.cooler_air_degC = ambient_degC + setup.cooler.air_warmer_by_K;
    prepared.start_degC =
        setup.event.oil_at_start_entered ? setup.event.oil_at_start_degC : ambient_degC;
    prepared.ambient_degC = ambient_degC;
    prepared.neighbour_degC = setup.housing.neighbour_temp_degC.value_or(
                                  ambient_degC + setup.housing.neighbour_warmer_K) +
                              setup.factors.neighbour_K;
    prepared.cooler = cooler_model(setup, prepared.oil);
    const HousingMetal& metal = metal_of(setup.housing.material);
    prepared.capacities = {
        .oil_JpK = m3_from_L(setup.oil.fill_L) *
                   oil_density_kgpm3(prepared.oil, capacity_temp_degC) *
                   oil_specific_heat_JpkgK(prepared.oil, capacity_temp_degC),
        .housing_JpK = housing_mass_kg(setup.housing) * metal.specific_heat_JpkgK,
        .steel_JpK = prepared.loads.train.steel_mass_kg * steel_heat_JpkgK};
    const double area_m2 = box_film::area_m2(box(setup.housing));
    prepared.direct.oil_housing_WpK = box_wall::oil_to_metal_WpK(
        {.film_Wpm2K = setup.housing.oil_film_coefficient_Wpm2K * setup.factors.oil_film,
         .wetted_m2 = setup.housing.oil_wetted_share * area_m2,
         .wall_m = m_from_mm(setup.housing.wall_mm),
         .conductivity_WpmK = metal.conductivity_WpmK,
         .area_m2 = area_m2});
    prepared.direct.oil_steel_WpK = oil_steel_WpK;
    prepared.direct.neighbour_WpK = setup.housing.neighbour_WpK + setup.factors.neighbour_WpK;
    prepared.driving = with_bearings(prepared.direct, prepared.bearing_paths);
    return prepared;
}

double core_oil_drop_Pa(const Prepared& prepared, const OilThroughCore& state) {
    const double viscosity = astm_d341::viscosity_mm2ps(prepared.oil.fresh, state.oil_degC) *
                             oil_density_kgpm3(prepared.oil, state.oil_degC);
    return exchanger::core_drop_Pa(
        {.drop_rating_Pa = core_drop_rating_Pa,
         .viscosity_ratio = viscosity / prepared.cooler.viscosity_rating,
         .flow_ratio = state.flow_Lpmin / prepared.setup->cooler.rating.oil_flow_Lpmin});
}

std::optional<double> thermostat_opens_degC(const Setup& setup) {
    const auto& opens_degC = setup.cooler.thermostat_opens_degC;
    if (!opens_degC) return opens_degC;
    return *opens_degC + setup.factors.thermostat_K;
}

double thermostat_share(const std::optional<double>& opens_degC, double oil_degC) {
    if (!opens_degC) return 1;
    return thermostat_leak +
           (1 - thermostat_leak) *
               std::clamp((std::min(oil_degC, oil_ceiling_degC) - *opens_degC) / thermostat_range_K,
                          0.0, 1.0);
}

double most_core_flow_Lpmin(const Prepared& prepared, double oil_degC) {
    constexpr double flow_Lpmin = 1;  // the drop is in proportion to the flow
    const double drop_Pa =
        core_oil_drop_Pa(prepared, {flow_Lpmin, std::min(oil_degC, oil_ceiling_degC)});
    return flow_Lpmin * prepared.setup->cooler.bypass_opens_Pa / drop_Pa;
}

double core_flow_Lpmin(const Prepared& prepared, const PumpedOil& state) {
    const Setup& setup = *prepared.setup;
    const double flow_Lpmin = state.pump_Lpmin * setup.factors.pump_flow *
                              thermostat_share(thermostat_opens_degC(setup), state.oil_degC);
    return std::min(flow_Lpmin, most_core_flow_Lpmin(prepared, state.oil_degC));
}

double coldest_beside_degC(const Prepared& prepared) {
    const double air_degC = std::min(prepared.ambient_degC, prepared.case_air_degC);
    return prepared.driving.neighbour_WpK > 0 ? std::min(air_degC, prepared.neighbour_degC)
                                              : air_degC;
}

std::vector<FilmGroup> film_groups(const std::vector<BearingPaths>& paths) {
    std::vector<FilmGroup> groups;
    for (std::size_t b = 0; b < paths.size(); ++b) {
        const auto same = std::find_if(groups.begin(), groups.end(), [&](const FilmGroup& group) {
            return group.paths == paths[b];
        });
        if (same == groups.end())
            groups.push_back({paths[b], {b}});
        else
            same->bearings.push_back(b);
    }
    return groups;
}

Conductances with_bearings(Conductances direct, const std::vector<BearingPaths>& bearings) {
    for (const BearingPaths& one : bearings) {
        const bearing_heat::Bridges bridges = bearing_heat::bridges(one);
        direct.oil_housing_WpK += bridges.oil_housing_WpK;
        direct.oil_steel_WpK += bridges.oil_steel_WpK;
        direct.steel_housing_WpK += bridges.steel_housing_WpK;
    }
    return direct;
}

Conductances direct_in_stop(const Conductances& driving) {
    return {driving.oil_housing_WpK * stop_oil_housing_share,
            driving.oil_steel_WpK * stop_oil_steel_share, driving.steel_housing_WpK,
            driving.neighbour_WpK};
}

std::vector<BearingPaths> bearing_paths_in_stop(std::vector<BearingPaths> driving) {
    for (BearingPaths& one : driving) one.oil_WpK *= stop_oil_steel_share;
    return driving;
}

Conductances in_stop(const Prepared& prepared) {
    return with_bearings(direct_in_stop(prepared.direct),
                         bearing_paths_in_stop(prepared.bearing_paths));
}

box_wall::Outside surroundings(const Prepared& prepared, double air_mps) {
    const HousingInput& housing = prepared.setup->housing;
    return {.box = box(housing),
            .emissivity = housing.emissivity,
            .air_degC = prepared.case_air_degC,
            .surroundings_degC = prepared.case_air_degC,
            .speed_mps = air_mps,
            .pressure_Pa = prepared.pressure_Pa,
            .coat_resistance_m2KpW = prepared.setup->factors.dirt *
                                     m_from_mm(housing.dirt_thickness_mm) / dirt_conductivity_WpmK,
            .coat_area_share = housing.dirt_area_share};
}

OutsideParts outside_in_air(const Prepared& prepared, double air_mps, double housing_degC) {
    const double calculated_degC = std::min(housing_degC, hottest_path_degC);
    const double air_degC = prepared.case_air_degC;
    const double scale = housing_degC > hottest_path_degC
                             ? (housing_degC - air_degC) / (hottest_path_degC - air_degC)
                             : 1;
    const box_wall::OutsideHeat heat =
        box_wall::outside(surroundings(prepared, air_mps), calculated_degC);
    return {scale * heat.convection_W, scale * heat.radiation_W};
}

double air_along_mps(const Setup& setup, const Bin& bin) {
    return setup.factors.air_share * setup.housing.air_speed_share * bin.road_speed_mps +
           stirred_air_mps;
}

OutsideParts outside_parts(const Prepared& prepared, std::size_t leg, double housing_degC) {
    const auto& bins = prepared.loads.legs[leg].bins;
    if (bins.empty()) return outside_in_air(prepared, 0, housing_degC);
    OutsideParts mean;
    for (const BinLoads& bin : bins) {
        const OutsideParts part =
            outside_in_air(prepared, air_along_mps(*prepared.setup, bin.bin), housing_degC);
        mean.convection_W += bin.bin.share * part.convection_W;
        mean.radiation_W += bin.bin.share * part.radiation_W;
    }
    return mean;
}

double core_heat_W(const Prepared& prepared, const CoreBin& bin, double oil_degC) {
    return (oil_degC - prepared.cooler_air_degC) *
           core_heat_WpK(prepared,
                         {bin.face_mps, core_flow_Lpmin(prepared, {bin.pump_Lpmin, oil_degC})},
                         oil_degC);
}

double core_heat_WpK(const Prepared& prepared, const CoreStreams& streams, double oil_degC) {
    const auto [face_mps, flow_Lpmin] = streams;
    if (face_mps <= 0 || flow_Lpmin <= 0) return 0;
    const CoolerModel& model = prepared.cooler;
    const auto air = us_standard_atmosphere::air(
        {.temp_degC = prepared.cooler_air_degC, .pressure_Pa = prepared.pressure_Pa});
    const double flux = air.density_kgpm3 * face_mps;
    const double property_degC = std::min(oil_degC, oil_ceiling_degC);
    const double oil_kgps =
        oil_density_kgpm3(prepared.oil, property_degC) * m3ps_from_Lpmin(flow_Lpmin);
    const double oil_WpK = oil_kgps * oil_specific_heat_JpkgK(prepared.oil, property_degC);
    const double air_WpK = flux * model.face_m2 * air.cp_JpkgK;
    const double conductance_WpK = exchanger::conductance_scaled_WpK(
        {.conductance_rating_WpK = model.conductance_rating_WpK,
         .oil_side_share = oil_side_share,
         .air_mass_ratio = flux / model.air_mass_flux_rating,
         .oil_mass_ratio = oil_kgps / model.oil_mass_flow_rating_kgps});
    const double least_WpK = std::min(oil_WpK, air_WpK);
    const double effectiveness = exchanger::effectiveness_crossflow_unmixed(
        {.NTU = conductance_WpK / least_WpK, .C_ratio = least_WpK / std::max(oil_WpK, air_WpK)});
    return effectiveness * least_WpK;
}

std::vector<CoreBin> core_bins(const Prepared& prepared, std::size_t leg,
                               const Switches& switches) {
    if (!prepared.cooler.fitted || !switches.cooler || !switches.pump) return {};
    const Setup& setup = *prepared.setup;
    const double fan_mps =
        switches.fan ? setup.factors.face_speed * setup.cooler.fan_face_speed_mps : 0;
    const auto& bins = prepared.loads.legs[leg].bins;
    if (bins.empty()) {
        const auto& pump = setup.lubrication.pump;
        if (!pump || pump->drive == PumpDrive::input) return {};
        return {{1, fan_mps, pump->flow_Lpmin}};
    }
    std::vector<CoreBin> all;
    for (const BinLoads& bin : bins)
        all.push_back({bin.bin.share,
                       std::max(setup.factors.face_speed * setup.cooler.face_speed_share *
                                    bin.bin.road_speed_mps,
                                fan_mps),
                       pump_flow_Lpmin(setup, bin.bin.speed_rpm)});
    return all;
}

double cooler_heat_W(const Prepared& prepared, std::size_t leg, double oil_degC,
                     const Switches& switches) {
    double mean_W = 0;
    for (const CoreBin& bin : core_bins(prepared, leg, switches))
        mean_W += bin.share * core_heat_W(prepared, bin, oil_degC);
    return mean_W;
}

double exhaust_W(double heat_W, double drive_power_W) {
    return heat_W * std::max(exhaust_least_share, drive_power_W / exhaust_power_W);
}

double exhaust_driving_W(const Prepared& prepared, std::size_t leg) {
    const Setup& setup = *prepared.setup;
    return exhaust_W(setup.housing.exhaust_heat_W + setup.factors.exhaust_W,
                     prepared.loads.legs[leg].drive_power_W);
}

}  // namespace caseload
