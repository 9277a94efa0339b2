// SPDX-License-Identifier: MIT
// What all parts share, and a settled leg: its oil, its ledger, its three nodes.
#include "caseload/formulas/astm_d341.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/housing_metal.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace caseload::why_detail {

std::string of_set(const Loads& loads, int train) {
    return train == 0 ? std::string{} : train_of(loads, train).set + ".";
}

std::string train_part(const Loads& loads, int train) {
    return "train" + (train == 0 ? "" : "." + train_of(loads, train).set);
}

int times_run(const Setup& setup, std::size_t leg) {
    return static_cast<int>(
        std::count(setup.event.run.begin(), setup.event.run.end(), static_cast<int>(leg)));
}

std::string shaft_part(const Gather& gather, int train, int shaft) {
    const Loads& loads = gather.prepared.loads;
    return "shaft." + of_set(loads, train) +
           train_of(loads, train).shafts[static_cast<std::size_t>(shaft)].name;
}

std::string mesh_part(const Gather& gather, int train, const MeshPlace& mesh) {
    const Loads& loads = gather.prepared.loads;
    const auto& shafts = train_of(loads, train).shafts;
    return fmt::format("mesh.{}{}-{}", of_set(loads, train),
                       shafts[static_cast<std::size_t>(mesh.driver)].name,
                       shafts[static_cast<std::size_t>(mesh.driven)].name);
}

const LegLoads& loads_of(const Gather& gather, const LegAnswer& leg) {
    return gather.prepared.loads.legs[static_cast<std::size_t>(leg.leg)];
}

std::string in_bin(const std::string& leg, std::size_t bin) {
    return fmt::format("{}/{}", leg, bin + 1);
}

void mark_as_zero(Number& number, const std::string& reason) {
    number.value_of.clear();
    number.equation.clear();
    number.residual_allowed.clear();
    number.over_time.clear();
    number.origin = reason;
}

// Long: a list.
void add_shared(const Gather& gather) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const Collector::Place place{"shared", "shared", {}, {}};
    const bool in_line = setup.oil.filter == Filter::in_line;
    const double left = 1 - setup.oil.shear_loss;
    to.add(place, "nu_40_mm2ps", setup.oil.viscosity_40C_mm2ps);
    to.add(place, "nu_100_mm2ps", setup.oil.viscosity_100C_mm2ps);
    to.add(place, "shear_loss", setup.oil.shear_loss);
    to.add(place, "nu_40_used_mm2ps", setup.oil.viscosity_40C_mm2ps * left);
    to.add(place, "nu_100_used_mm2ps", setup.oil.viscosity_100C_mm2ps * left);
    to.add(place, "B", prepared.oil.sheared.B);
    to.add(place, "A", prepared.oil.sheared.A);
    to.add(place, "B_fresh", prepared.oil.fresh.B);
    to.add(place, "A_fresh", prepared.oil.fresh.A);
    to.add(place, "rho_15_kgpm3", prepared.oil.density_15C_kgpm3);
    to.add(place, "synthetic", setup.oil.synthetic ? 1 : 0);
    to.add(place, "ep_additive", setup.oil.ep_additive ? 1 : 0);
    to.add(place, "in_line", in_line ? 1 : 0);
    to.add(place, "code_14um", setup.oil.code_14um + 2 * setup.factors.cleanliness);
    to.add(place, "code",
           iso_281::table_code_14um(
               {in_line ? iso_281::FilterGroup::in_line : iso_281::FilterGroup::off_line_or_bath,
                setup.oil.code_14um + 2 * setup.factors.cleanliness}));
    to.add(place, "Ra_um", setup.gears.flank_Ra_um);
    to.add(place, "Rz_um", setup.gears.flank_Rz_um);
    to.add(place, "face_width_mm", setup.gears.face_width_mm);
    to.add(place, "module_mm", setup.gears.module_mm);
    to.add(place, "helix_deg", setup.gears.helix_angle_deg);
    to.add(place, "exhaust_heat_W", setup.housing.exhaust_heat_W);
    to.add(place, "fill_L", setup.oil.fill_L);
    to.add(place, "mist_share", setup.lubrication.mist_oil_fraction);
    to.add(place, "altitude_m", setup.event.altitude_m);
    to.add(place, "pressure_Pa", prepared.pressure_Pa);
    to.add(place, "ambient_degC", prepared.ambient_degC);
    to.add(place, "case_warmer_K", setup.housing.air_warmer_by_K);
    to.add(place, "case_air_degC", prepared.case_air_degC);
    to.add(place, "along_mm", setup.housing.along_mm);
    to.add(place, "across_mm", setup.housing.across_mm);
    to.add(place, "high_mm", setup.housing.high_mm);
    to.add(place, "wall_mm", setup.housing.wall_mm);
    const HousingMetal& metal = metal_of(setup.housing.material);
    to.add(place, "housing_kgpm3", metal.density_kgpm3);
    to.add(place, "housing_JpkgK", metal.specific_heat_JpkgK);
    to.add(place, "housing_WpmK", metal.conductivity_WpmK);
    to.add(place, "housing_MPa", metal.elastic.E_MPa);
    to.add(place, "housing_nu", metal.elastic.nu);
    to.add(place, "housing_pK", metal.elastic.expansion_pK);
    to.add(place, "emissivity", setup.housing.emissivity);
    to.add(place, "air_speed_share", setup.housing.air_speed_share);
    to.add(place, "factor_air_share", setup.factors.air_share);
    to.add(place, "dirt_mm", setup.housing.dirt_thickness_mm);
    to.add(place, "dirt_share", setup.housing.dirt_area_share);
    to.add(place, "oil_film_Wpm2K", setup.housing.oil_film_coefficient_Wpm2K);
    to.add(place, "factor_oil_film", setup.factors.oil_film);
    to.add(place, "wetted_share", setup.housing.oil_wetted_share);
    to.add(place, "factor_bearing", setup.factors.bearing_friction);
    to.add(place, "factor_life", setup.factors.life);
    to.add(place, "oil_housing_WpK", prepared.driving.oil_housing_WpK);
    to.add(place, "oil_steel_WpK", prepared.driving.oil_steel_WpK);
    if (bolted(prepared)) {
        to.add(place, "neighbour_WpK", prepared.driving.neighbour_WpK);
        Number& neighbour = to.add(place, "neighbour_degC", prepared.neighbour_degC);
        if (setup.housing.neighbour_temp_degC)
            neighbour.value_of.clear();
        else
            to.add(place, "neighbour_warmer_K", setup.housing.neighbour_warmer_K);
    }
    to.add(place, "steel_housing_WpK", prepared.driving.steel_housing_WpK);
    to.add(place, "wall_WpK", prepared.direct.oil_housing_WpK);
    to.add(place, "splash_WpK", prepared.direct.oil_steel_WpK);
    const auto bridges = [&](const char* path, const char* beside, const char* from,
                             const char* into) {
        std::vector<std::string> terms;
        if (*beside != 0) terms.emplace_back(beside);
        for (const BearingData& bearing : prepared.loads.bearings)
            terms.push_back(fmt::format(
                "[bearing.{0}.film_{1}_WpK] * [bearing.{0}.film_{2}_WpK] / [bearing.{0}.path_WpK]",
                bearing.name, from, into));
        to.number(std::string("shared.") + path).value_of = sum_of(terms);
    };
    bridges("oil_housing_WpK", "wall_WpK", "oil", "housing");
    bridges("oil_steel_WpK", "splash_WpK", "oil", "steel");
    bridges("steel_housing_WpK", "", "steel", "housing");
    for (const char* member : {"passing_kgpm3", "passing_JpkgK"}) to.step(place, member);
    for (const char* member : {"stream_m", "flat_m", "coat_m2KpW"}) to.step(place, member);
    to.steps_of(place);
}

void add_rest(const Gather& gather, const LegAnswer& leg) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const Collector::Place place{"rest", "rest", leg.name, flange_variant(prepared)};
    const Steady& rest = leg.at_rest;
    const LegLoads& loads = loads_of(gather, leg);
    // Without a balance the oil is at the ceiling; housing and steel are solved there too.
    to.members(place, rest.nodes);
    Number& oil = to.number("rest.oil_degC@" + leg.name);
    if (!rest.found) {
        oil.equation.clear();
        oil.value_of = "160";
        to.add(place, rest.short_by_W, quantity("rest", "short_by_W"));
        to.add(place, rest.short_by_WpK, quantity("rest", "short_by_WpK"));
    }
    const double at_degC = std::min(rest.nodes.oil_degC, oil_ceiling_degC);
    to.add(place, "at_degC", at_degC);
    to.add(place, "rho_kgpm3", oil_density_kgpm3(prepared.oil, at_degC));
    to.add(place, "cp_JpkgK", oil_specific_heat_JpkgK(prepared.oil, at_degC));
    to.add(place, "oil_nu_mm2ps", astm_d341::viscosity_mm2ps(prepared.oil.fresh, at_degC));
    to.members(place, rest.losses.ledger);
    to.members(place, rest.outside);
    to.add(place, "made_W", total_W(rest.losses.ledger));
    to.add(place, rest.cooler_W, quantity("rest", "cooler_W"));
    to.add(place, rest.exhaust_W, quantity("rest", "exhaust_W"));
    if (rest.neighbour_W) to.add(place, *rest.neighbour_W, quantity("rest", "neighbour_W"));
    const auto from_bearings = [&](const char* member, double BearingHeat::* of) {
        double sum_W = 0;
        std::vector<std::string> each;
        for (std::size_t b = 0; b < rest.bearing_heat.size(); ++b) {
            sum_W += rest.bearing_heat[b].*of;
            each.push_back(fmt::format("[bearing.{}.{}@{}]", prepared.loads.bearings[b].name,
                                       member, leg.name));
        }
        to.add(place, fmt::format("bearings_{}", member), sum_W).value_of = sum_of(each);
    };
    from_bearings("to_housing_W", &BearingHeat::to_housing_W);
    from_bearings("to_steel_W", &BearingHeat::to_steel_W);
    from_bearings("to_oil_W", &BearingHeat::to_oil_W);
    const LegInput& input = gather.setup.event.legs[static_cast<std::size_t>(leg.leg)];
    std::vector<std::string> speeds;
    std::vector<std::string> powers;
    std::vector<std::string> ways;
    for (std::size_t bin = 0; bin < loads.bins.size(); ++bin) {
        const std::string at = in_bin(leg.name, bin);
        speeds.push_back(fmt::format("[duty.share@{0}] * [duty.speed_rpm@{0}]", at));
        powers.push_back(fmt::format(
            "[duty.share@{0}] * max([duty.torque_Nm@{0}], 0) * [duty.speed_rpm@{0}] * pi / 30",
            at));
        ways.push_back(fmt::format("[duty.share@{0}] * [duty.road_speed_mps@{0}]", at));
    }
    to.add(place, "duration_s", input.duration_s).origin =
        to.origin_of("leg." + leg.name + ".duration");
    to.add(place, loads.mean_speed_rpm, quantity("leg_load", "mean_speed_rpm")).value_of =
        sum_of(speeds);
    to.add(place, loads.drive_power_W, quantity("leg_load", "drive_power_W")).value_of =
        sum_of(powers);
    to.add(place, loads.revolutions, quantity("leg_load", "revolutions"));
    Number& distance = to.add(place, loads.distance_m, quantity("leg_load", "distance_m"));
    distance.origin =
        input.distance_m > 0 ? to.origin_of("leg." + leg.name + ".distance") : std::string{};
    if (!input.calculated.empty() && distance.origin.empty())
        distance.origin =
            fmt::format("segment model: {} at the pace of its likely lap", input.course);
    else if (input.distance_m > 0 && distance.origin.empty())
        distance.value_of = fmt::format("duration_s * [duty.pace_mps@{}]", in_bin(leg.name, 0));
    else
        distance.value_of = "duration_s * (" + sum_of(ways) + ")";
    for (const char* member : {"mist_kgpm3", "air_mu_Pas", "oil_eta_mPas"}) to.step(place, member);
    to.steps_of(place);
}

namespace {

/// A factor of a measured case before a sum; "" for a case that was not measured.
std::string times(double factor, const std::string& sum) {
    return factor == 1 ? sum : fmt::format("{:.12g} * ({})", factor, sum);
}

}  // namespace

// Long: one source of heat after the other, each with its terms of every bin.
void add_ledger(const Gather& gather, const LegAnswer& leg) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const LegLoads& loads = loads_of(gather, leg);
    const Train& train = train_of(prepared.loads, loads.train);
    const Factors& factors = setup.factors;
    std::map<std::string, std::vector<std::string>> terms;
    const auto& gears = prepared.losses[static_cast<std::size_t>(leg.leg)].gears;
    for (std::size_t bin = 0; bin < loads.bins.size(); ++bin) {
        const std::string at = in_bin(leg.name, bin);
        const auto term = [&](const std::string& source, const std::string& address) {
            if (to.has(address + "@" + at))
                terms[source].push_back(fmt::format("[duty.share@{0}] * [{1}@{0}]", at, address));
        };
        for (const MeshPlace& mesh : train.meshes) {
            const std::string part = mesh_part(gather, loads.train, mesh);
            term("mesh_W", part + ".loss_W");
            term("pocketing_W", part + ".squeezed_W");
        }
        for (std::size_t s = 0; s < train.shafts.size(); ++s) {
            const std::string part =
                "gear." + of_set(prepared.loads, loads.train) + train.shafts[s].name;
            term("windage_W", part + ".air_W");
            const double v_mps =
                prepared.losses[static_cast<std::size_t>(leg.leg)].bins[bin].shaft_omega_radps[s] *
                gears[s].gear.R_m;
            const double factor = churning_factor(factors, v_mps);
            if (factor == 1)
                term("churning_W", part + ".churned_W");
            else if (to.has(part + ".churned_W@" + at))
                terms["churning_W"].push_back(fmt::format(
                    "{:.12g} * [duty.share@{}] * [{}.churned_W@{}]", factor, at, part, at));
        }
        term("thrown_W", "pump.throws_W");
        term("pump_W", "pump.power_W");
    }
    for (const BearingData& bearing : prepared.loads.bearings)
        if (to.has(fmt::format("bearing.{}.mean_loss_W@{}", bearing.name, leg.name)))
            terms["bearings_W"].push_back(
                fmt::format("[bearing.{}.mean_loss_W@{}]", bearing.name, leg.name));
    for (const SealInput& seal : setup.seals)
        terms["seals_W"].push_back(
            fmt::format("[seal.{}.torque_Nm] * abs([shaft.{}{}.speed_ratio]) * pi / 30 * "
                        "[rest.mean_speed_rpm@{}]",
                        seal.name, of_set(prepared.loads, loads.train), seal.shaft, leg.name));
    for (const LossRow& row : loss_rows) {
        const std::string source(row.name);
        // These two carry their factor in their terms.
        const bool in_terms =
            row.power_W == &LossLedger::bearings_W || row.power_W == &LossLedger::churning_W;
        const double by = in_terms ? 1 : factors.*row.factor;
        Number& number = to.number("rest." + source + "@" + leg.name);
        if (terms[source].empty())
            mark_as_zero(number, "nothing here makes it");
        else
            number.value_of = times(by, sum_of(terms[source]));
    }
    if (!prepared.cooler.fitted)
        mark_as_zero(to.number("rest.cooler_W@" + leg.name), "no cooler fitted");
    else if (!leg.at_rest.switches.pump || !setup.lubrication.pump)
        mark_as_zero(to.number("rest.cooler_W@" + leg.name), "the pump is off");
}

}  // namespace caseload::why_detail
