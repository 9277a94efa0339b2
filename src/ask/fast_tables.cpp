// SPDX-License-Identifier: MIT
#include "ask/fast_tables.hpp"

#include "ask/shared_tables.hpp"
#include "caseload/error.hpp"
#include "heat/at_oil.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload {
namespace {

constexpr double fine_step_K = 0.5;
constexpr double coarse_step_K = 5;
// Where additives help below kappa 1 a life rate bends sharply: between closer points.
constexpr double bent_step_K = 2.5;
constexpr double outside_step_K = 2;
constexpr double outside_reach_K = 200;

template <class Tables>
std::shared_ptr<Tables> tables_of(typename Tables::Inputs inputs, SharedTables* shared) {
    if (shared != nullptr) return shared->of(std::move(inputs));
    return std::make_shared<Tables>(std::move(inputs));
}

/// A case in the air of each node.
class InAirs {
public:
    InAirs(const Setup& setup, const FastNodes& nodes, const Loads& loads) {
        for (std::size_t air = 0; air < FastNodes::airs; ++air) {
            setups_[air] = setup;
            setups_[air].factors.air_K = nodes.air[air];
            prepared_[air] = prepare(setups_[air], loads);
            all_[air] = &prepared_[air];
        }
    }
    InAirs(const InAirs&) = delete;
    InAirs& operator=(const InAirs&) = delete;
    [[nodiscard]] const std::array<const Prepared*, FastNodes::airs>& all() const { return all_; }

private:
    std::array<Setup, FastNodes::airs> setups_;
    std::array<Prepared, FastNodes::airs> prepared_;
    std::array<const Prepared*, FastNodes::airs> all_{};
};

}  // namespace

std::shared_ptr<SharedTables> shared_tables() {
    return std::make_shared<SharedTables>();
}

FastTables::FastTables(Setup given, const FastOptions& options)
    : use(options.use), setup(std::move(given)) {
    if (setup.measured || use == FastUse::temperatures) {
        nodes.friction = FactorNodes<FastNodes::frictions>{
            {std::log(FastNodes::least_friction), std::log(FastNodes::most_friction)}};
        nodes.air_share = FactorNodes<FastNodes::air_shares>{
            {std::log(FastNodes::least_air_share), std::log(FastNodes::most_air_share)}};
    }
    setup.factors = {};
    const double load_reach = std::max(FastNodes::least_load_reach,
                                       FastNodes::load_sds * ranges_of(setup).load_sd.value_or(0));
    nodes.load = FactorNodes<FastNodes::loads>{{-load_reach, load_reach}};
    legs.resize(setup.event.legs.size());
    reach_paces();
    const Prepared nominal = prepare(setup);
    // Facing pairs stay as tight as in the likely case: their loop would need its own temperatures.
    setup.pair_over_mm = nominal.pair_over_mm;
    // Those beside the likely one, where a pace is varied.
    std::vector<Setup> paced_setups;
    std::vector<Prepared> paced;
    if (paced_leg) {
        const std::size_t all =
            legs[*paced_leg].pace->calculated ? FastNodes::paces : PaceTables::varied;
        for (std::size_t other = 0; other + 1 < all; ++other)
            paced_setups.push_back(at_pace(PaceTables::beside(other)));
        for (const Setup& one : paced_setups) paced.push_back(prepare(one));
    }
    capacities = nominal.capacities;
    direct = nominal.direct;
    bearing_paths = DrawnPaths(setup, nominal.loads, nominal.oil);
    plays = ranges_of(setup).play && use != FastUse::temperatures;
    if (const auto dirt = ranges_of(setup).dirt)
        coat_area_m2 = box_film::area_m2(surroundings(nominal, 0).box);
    start_degC = nominal.start_degC;
    case_air_degC = nominal.case_air_degC;
    for (const BearingData& bearing : nominal.loads.bearings) bearings.push_back(bearing.name);
    note_runs(nominal);
    note_paces(nominal, paced);
    note_duties(nominal, paced);
    grids(nominal);
    film(nominal.loads);
    tabulate_losses(nominal, paced);
    if (use == FastUse::everything || use == FastUse::same_temperatures)
        tabulate_teeth(nominal, paced);
    take_loaded(nominal, paced, options.shared);
    const InAirs in_airs(setup, nodes, nominal.loads);
    std::vector<OutsideTables::Leg> outside_legs;
    for (const LegTables& leg : legs) outside_legs.push_back({leg.driven, leg.stop, {}});
    outside_tables = tables_of<OutsideTables>(
        OutsideTables::inputs_of(outside, nodes, in_airs.all(), std::move(outside_legs)),
        options.shared);
    cooler_tables = tables_of<CoolerTables>(CoolerTables::inputs_of(fine, nodes, nominal, in_run()),
                                            options.shared);
    make(options.for_each);
    group_films();
    if (life_tables)
        life_tables->make_to(damage_points_to(options.lives_to_degC), options.for_each);
}

FastTables FastTables::with_core(const CoolerInput& core) const {
    if (core.thermostat_opens_degC != setup.cooler.thermostat_opens_degC)
        throw Error(Error::Kind::domain, "another core with another thermostat");
    FastTables other = *this;
    other.setup.cooler = core;
    other.cooler_tables = std::make_shared<CoolerTables>(
        CoolerTables::inputs_of(fine, nodes, prepare(other.setup), in_run()));
    other.make(one_by_one);
    return other;
}

void FastTables::make(const ForEach& for_each) const {
    make_parts({loaded_tables.get(), outside_tables.get(), cooler_tables.get()}, for_each);
}

std::size_t FastTables::damage_points_to(double oil_degC) const {
    if (oil_degC >= oil_ceiling_degC) return coarse.y.size();
    const double fine_points = std::max((oil_degC - fine.first) / fine.step, 0.0);
    return (*refine)[static_cast<std::size_t>(fine_points) + 1].first + 4;
}

std::vector<bool> FastTables::in_run() const {
    std::vector<bool> driven;
    for (const LegTables& leg : legs) driven.push_back(leg.driven);
    return driven;
}

void FastTables::take_loaded(const Prepared& nominal, const std::vector<Prepared>& paced,
                             SharedTables* shared) {
    LoadedTables::Inputs inputs;
    inputs.grids = *this;
    inputs.lives = use == FastUse::everything;
    for (const LegTables& leg : legs) inputs.loaded.push_back(leg.driven && !leg.stop);
    inputs.nodes = nodes;
    if (inputs.lives) inputs.nominal = loaded_basis(nominal);
    Setup other = setup;
    for (std::size_t load = 0; load < FastNodes::loads; ++load) {
        other.factors.load = std::exp(nodes.load[load]);
        inputs.at_load[load] = loaded_basis(prepare(other));
    }
    if (plays || !paced.empty()) inputs.others.push_back({0, loaded_basis(nominal)});
    for (std::size_t k = 0; k < paced.size(); ++k)
        inputs.others.push_back({k + 1, loaded_basis(paced[k])});
    if (plays) {
        other = setup;
        for (std::size_t end = 0; end < FastNodes::plays; ++end) {
            other.factors.play = end == 0 ? 0 : 1;
            inputs.others.push_back({FastNodes::paces + end, loaded_basis(prepare(other))});
        }
    }
    loaded_tables = tables_of<LoadedTables>(std::move(inputs), shared);
    if (use == FastUse::everything) life_tables = tables_of<LifeTables>(loaded_tables, shared);
}

void FastTables::group_films() {
    // Of two ends 25 K apart this share is a kelvin. What a film loses bends so little over that
    // that the mean of a group is as good as each alone (tests/ask).
    constexpr double alike_share = 0.03;
    const std::vector<BearingPaths>& paths = bearing_paths.at_one();
    const auto apart = [&](std::size_t a, std::size_t b) {
        const double of_a = 1 / bearing_heat::all_WpK(paths[a]);
        const double of_b = 1 / bearing_heat::all_WpK(paths[b]);
        return std::max(std::fabs(paths[a].housing_WpK * of_a - paths[b].housing_WpK * of_b),
                        std::fabs(paths[a].steel_WpK * of_a - paths[b].steel_WpK * of_b));
    };
    constexpr std::size_t middle =
        FastNodes::loads / 2 * FastNodes::frictions + FastNodes::frictions / 2;
    for (std::size_t b = 0; b < paths.size(); ++b) {
        auto group = std::find_if(films.begin(), films.end(), [&](const Alike& one) {
            return apart(one.bearings.front(), b) < alike_share;
        });
        if (group == films.end()) group = films.insert(films.end(), Alike{});
        double loss_W = 1e-9;  // of a bearing in no leg that is driven
        for (std::size_t leg = 0; leg < legs.size(); ++leg)
            if (legs[leg].driven && !legs[leg].stop)
                loss_W += std::exp(loaded_tables->leg_ln_W(leg)[b].at(middle, coarse.y.size() / 2));
        group->bearings.push_back(b);
        group->weights.push_back(loss_W);
    }
    for (Alike& group : films) {
        double sum_W = 0;
        for (const double loss_W : group.weights) sum_W += loss_W;
        for (double& weight : group.weights) weight /= sum_W;
    }
}

void FastTables::note_runs(const Prepared& nominal) {
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        legs[leg].stop = setup.event.legs[leg].kind == LegKind::stop;
        legs[leg].drive_power_W = nominal.loads.legs[leg].drive_power_W;
    }
    double longest_s = 0;
    for (std::size_t i = 0; i < setup.event.run.size(); ++i) {
        const auto leg = static_cast<std::size_t>(setup.event.run[i]);
        legs[leg].driven = true;
        const double duration_s = setup.event.legs[leg].duration_s;
        if (legs[leg].stop || duration_s < longest_s) continue;
        longest_s = duration_s;
        longest_run = i;
    }
}

double FastTables::mist_place(double mist) const {
    // Air, as a share of the oil's density; windage goes with the density to this power.
    constexpr double air_share = 1.25e-3;
    constexpr double power = 0.8;
    return std::pow(mist * setup.lubrication.mist_oil_fraction + air_share, power);
}

bool FastTables::additives_may_end(const Loads& loads) const {
    if (!setup.oil.ep_additive) return false;
    Setup cleanest = setup;
    cleanest.factors.cleanliness = -1;
    const Prepared prepared = prepare(cleanest, loads);
    for (std::size_t leg = 0; leg < legs.size(); ++leg)
        for (std::size_t bin = 0; bin < prepared.losses[leg].bins.size(); ++bin)
            for (std::size_t b = 0; b < bearings.size(); ++b)
                if (legs[leg].driven && additives_end_degC(prepared, {leg, bin, b})) return true;
    return false;
}

void FastTables::grids(const Prepared& nominal) {
    double coldest = std::floor(std::min(coldest_beside_degC(nominal), start_degC) +
                                std::min(nodes.air[0], 0.0)) -
                     2;
    // The thermostat bends the cooler's curve: the grid has a point there.
    if (setup.cooler.thermostat_opens_degC) {
        const double opens_degC = *setup.cooler.thermostat_opens_degC;
        coldest = opens_degC - std::ceil((opens_degC - coldest) / fine_step_K) * fine_step_K;
    }
    const double span_K = oil_ceiling_degC - coldest;
    fine = {coldest, fine_step_K,
            Row(static_cast<std::size_t>(std::ceil(span_K / fine_step_K)) + 3)};
    const bool bent = (use == FastUse::everything || use == FastUse::same_temperatures) &&
                      additives_may_end(nominal.loads);
    const double step_K = bent ? bent_step_K : coarse_step_K;
    const auto pieces = 2 * static_cast<std::size_t>(std::ceil(span_K / step_K / 2));
    coarse = {coldest, span_K / static_cast<double>(pieces), Row(pieces + 1)};
    // One point is the air's own temperature, where convection changes direction.
    const double below_K = std::ceil((case_air_degC - coldest) / outside_step_K) * outside_step_K;
    outside = {-below_K, outside_step_K,
               Row(static_cast<std::size_t>((below_K + outside_reach_K) / outside_step_K) + 1)};
    refine.emplace(Refine::Grids{coarse, fine}, oil_ceiling_degC);
}

void FastTables::film(const Loads& loads) {
    Setup thicker = setup;
    thicker.factors.oil_film = 2;
    const double whole_KpW = 1 / direct.oil_housing_WpK;
    const double half_KpW = 1 / prepare(thicker, loads).direct.oil_housing_WpK;
    film_resistance_KpW = 2 * (whole_KpW - half_KpW);
    wall_resistance_KpW = whole_KpW - film_resistance_KpW;
}

}  // namespace caseload
