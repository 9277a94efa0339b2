// SPDX-License-Identifier: MIT
#include "ask/fast_tables.hpp"

#include "caseload/error.hpp"
#include "damage/film_rates.hpp"
#include "heat/at_oil.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <numeric>
#include <utility>

namespace caseload {
namespace {

constexpr double fine_step_K = 0.5;
constexpr double coarse_step_K = 5;
// Where additives help below kappa 1 a life rate bends sharply: between closer points.
constexpr double bent_step_K = 2.5;
constexpr double outside_step_K = 2;
constexpr double outside_reach_K = 200;
// Every so many points of the grids of outside and cooler are calculated, and all where they bend:
// near the air's own temperature, and over the thermostat's range.
constexpr int outside_stride = 4;
constexpr double outside_bend_K = 16;
constexpr int cooler_stride = 4;
constexpr double cooler_bend_K = 2;
// Points over the logarithm of the load factor, for what bends or climbs steeply with it.
constexpr double load_step = 0.02;
constexpr int load_steps = 23;
constexpr double least_rate_per_h = 1e-300;      // stands for none under a logarithm
const std::vector<int> drawn_classes{-1, 0, 1};  // of cleanliness

/// Losses of one leg at every temperature of a grid.
template <class Into>
void at_temperatures(const Grid& grid, const Prepared& prepared, std::size_t leg, bool pump,
                     const Into& into) {
    for (std::size_t i = 0; i < grid.y.size(); ++i)
        into(i, losses_at(*prepared.setup, prepared.loads, prepared.oil, prepared.losses[leg],
                          {.temp_degC = grid.x(i), .pump_runs = pump}));
}

/// Points of a grid at which something is calculated: where wanted and at both ends.
template <class Wanted>
std::vector<double> wanted_points(const Grid& grid, const Wanted& wanted) {
    std::vector<double> points;
    for (std::size_t i = 0; i < grid.y.size(); ++i)
        if (i == 0 || i + 1 == grid.y.size() || wanted(i)) points.push_back(grid.x(i));
    return points;
}

/// Values at every point of a grid, by a smooth curve through those that were calculated.
Row on_grid(const Grid& grid, const std::vector<double>& x, Row y) {
    const Curve curve(x, std::move(y));
    Row row;
    row.reserve(grid.y.size());
    for (std::size_t i = 0; i < grid.y.size(); ++i) row.push_back(curve(grid.x(i)));
    return row;
}

/// Film temperatures of a bearing while its oil gets warmer step by step: near where the last three
/// lead.
class FilmsOnTheWay {
public:
    BearingRun at(const Oil& oil, const PreparedLosses::BearingTerm& term, double oil_degC) {
        const double rise_K = known_ == 0   ? 0
                              : known_ == 1 ? last_K_[0]
                              : known_ == 2 ? 2 * last_K_[0] - last_K_[1]
                                            : 3 * (last_K_[0] - last_K_[1]) + last_K_[2];
        const BearingRun run = run_bearing_near(oil, term, oil_degC, oil_degC + rise_K);
        last_K_ = {run.film_degC - oil_degC, last_K_[0], last_K_[1]};
        ++known_;
        return run;
    }

private:
    std::array<double, 3> last_K_{};
    int known_ = 0;
};

}  // namespace

FastTables::FastTables(Setup given, FastUse asked, const ForEach& for_each)
    : use(asked), setup(std::move(given)) {
    if (setup.measured || use == FastUse::temperatures) {
        nodes.friction = FactorNodes<FastNodes::frictions>{
            {std::log(FastNodes::least_friction), std::log(FastNodes::most_friction)}};
        nodes.air_share = FactorNodes<FastNodes::air_shares>{
            {std::log(FastNodes::least_air_share), std::log(FastNodes::most_air_share)}};
    }
    setup.factors = {};
    const Prepared nominal = prepare(setup);
    capacities = nominal.capacities;
    driving = nominal.driving;
    start_degC = nominal.start_degC;
    case_air_degC = nominal.case_air_degC;
    for (const BearingData& bearing : nominal.loads.bearings) bearings.push_back(bearing.name);
    legs.resize(setup.event.legs.size());
    note_runs(nominal);
    grids();
    film();
    tabulate_losses(nominal);
    if (use == FastUse::everything) tabulate_teeth(nominal);
    outside_grid(nominal.loads);
    cooler_grid();
    // Nodes write to places of their own.
    for_each(FastNodes::loads + 2 * FastNodes::airs, [&](std::size_t i) {
        if (i < FastNodes::loads)
            tabulate_loaded(i);
        else if (i < FastNodes::loads + FastNodes::airs)
            tabulate_outside(nominal.loads, i - FastNodes::loads);
        else
            tabulate_cooler(nominal.loads, i - FastNodes::loads - FastNodes::airs);
    });
}

FastTables FastTables::with_core(const CoolerInput& cooler) const {
    if (cooler.thermostat_opens_degC != setup.cooler.thermostat_opens_degC)
        throw Error(Error::Kind::domain, "another core with another thermostat");
    FastTables other = *this;
    other.setup.cooler = cooler;
    other.cooler_grid();
    const Loads loads = calculate_loads(other.setup);
    for (std::size_t air = 0; air < FastNodes::airs; ++air) other.tabulate_cooler(loads, air);
    return other;
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

bool FastTables::additives_may_end() const {
    if (!setup.oil.ep_additive) return false;
    Setup cleanest = setup;
    cleanest.factors.cleanliness = -1;
    const Prepared prepared = prepare(cleanest);
    for (std::size_t leg = 0; leg < legs.size(); ++leg)
        for (std::size_t bin = 0; bin < prepared.losses[leg].bins.size(); ++bin)
            for (std::size_t b = 0; b < bearings.size(); ++b)
                if (legs[leg].driven && additives_end_degC(prepared, {leg, bin, b})) return true;
    return false;
}

void FastTables::grids() {
    double coldest = std::floor(std::min({setup.event.ambient_degC, case_air_degC, start_degC}) +
                                std::min(nodes.air[0], 0.0)) -
                     2;
    // The thermostat bends the cooler's curve: a point of the grid stands there.
    if (setup.cooler.thermostat_opens_degC) {
        const double opens_degC = *setup.cooler.thermostat_opens_degC;
        coldest = opens_degC - std::ceil((opens_degC - coldest) / fine_step_K) * fine_step_K;
    }
    const double span_K = oil_ceiling_degC - coldest;
    fine = {coldest, fine_step_K,
            Row(static_cast<std::size_t>(std::ceil(span_K / fine_step_K)) + 3)};
    const bool bent =
        (use == FastUse::everything || use == FastUse::same_temperatures) && additives_may_end();
    const double step_K = bent ? bent_step_K : coarse_step_K;
    damage_stride = bent ? 1 : 2;
    const auto pieces = 2 * static_cast<std::size_t>(std::ceil(span_K / step_K / 2));
    coarse = {coldest, span_K / static_cast<double>(pieces), Row(pieces + 1)};
    damage = {coldest, static_cast<double>(damage_stride) * coarse.step,
              Row(pieces / damage_stride + 1)};
    refine_losses.emplace(Refine::Grids{coarse, fine}, oil_ceiling_degC);
    refine_damage.emplace(Refine::Grids{damage, fine}, oil_ceiling_degC);
}

void FastTables::film() {
    Setup thicker = setup;
    thicker.factors.oil_film = 2;
    const double whole_KpW = 1 / driving.oil_housing_WpK;
    const double half_KpW = 1 / prepare(thicker).driving.oil_housing_WpK;
    film_resistance_KpW = 2 * (whole_KpW - half_KpW);
    wall_resistance_KpW = whole_KpW - film_resistance_KpW;
}

bool FastTables::pump_may_stand(std::size_t leg) const {
    const auto& pump = setup.lubrication.pump;
    return !pump || pump->on_above_degC || (legs[leg].stop && !setup.event.legs[leg].pump_on);
}

void FastTables::tabulate_losses(const Prepared& nominal) {
    const std::size_t n = coarse.y.size();
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        if (!legs[leg].driven) continue;
        for (const bool pump : {false, true}) {
            if (!pump && !pump_may_stand(leg)) continue;
            LossTables& t = legs[leg].losses[pump ? 1 : 0].emplace();
            for (Row* row : {&t.mesh, &t.windage, &t.pocketing, &t.thrown, &t.seals, &t.pump})
                row->resize(n);
            at_temperatures(coarse, nominal, leg, pump, [&t](std::size_t i, const LossesAt& l) {
                t.mesh[i] = l.ledger.mesh_W;
                t.windage[i] = l.ledger.windage_W;
                t.pocketing[i] = l.ledger.pocketing_W;
                t.thrown[i] = l.ledger.thrown_W;
                t.seals[i] = l.ledger.seals_W;
                t.pump[i] = l.ledger.pump_W;
            });
        }
    }
    mesh_ratios(nominal);
    tabulate_churning(nominal);
    if (use == FastUse::everything) find_steps(nominal);
    for (LegTables& leg : legs) {
        if (!leg.driven || leg.stop) continue;
        leg.bearings_W = LoadedTable(n);
        if (use != FastUse::everything) continue;
        for (auto& by_bearing : leg.ln_rate)
            by_bearing.assign(bearings.size(), LoadedTable(damage.y.size()));
    }
}

void FastTables::tabulate_teeth(const Prepared& nominal) {
    teeth.resize(gear_damage(setup, nominal.loads).size());
    for (ToothGrids& gear : teeth) {
        gear.flank = {-load_step * load_steps, load_step, {}};
        gear.root = gear.flank;
    }
    for (int i = -load_steps; i <= load_steps; ++i) {
        const std::vector<GearDamage> gears =
            gear_damage(setup, nominal.loads, std::exp(load_step * i));
        for (std::size_t g = 0; g < gears.size(); ++g) {
            const ToothSide side = worst(gears[g]);
            teeth[g].flank.y.push_back(side.flank_share);
            teeth[g].root.y.push_back(side.root_share);
        }
    }
}

void FastTables::mesh_ratios(const Prepared& nominal) {
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        if (!legs[leg].driven || legs[leg].stop) continue;
        const auto mesh_W = [&](double load) {
            PreparedLosses scaled = nominal.losses[leg];
            for (auto& bin : scaled.bins) {
                bin.bearings.clear();
                for (auto& mesh : bin.meshes) {
                    mesh.power_W *= load;
                    mesh.F_bt_Npmm *= load;
                }
            }
            return losses_at(setup, nominal.loads, nominal.oil, scaled, {start_degC, true})
                .ledger.mesh_W;
        };
        const double at_one_W = mesh_W(1);
        Grid& ratio = legs[leg].mesh_ratio;
        ratio = {-load_step * load_steps, load_step, {}};
        for (int i = -load_steps; i <= load_steps; ++i)
            ratio.y.push_back(at_one_W > 0 ? mesh_W(std::exp(load_step * i)) / at_one_W : 1);
    }
}

void FastTables::tabulate_churning(const Prepared& nominal) {
    if (setup.lubrication.method != Method::dip) return;
    for (std::size_t k = 0; k < FastNodes::churnings; ++k) {
        Setup faster = setup;
        faster.factors.churning_fast = std::exp(nodes.churning_ratio[k]);
        for (std::size_t leg = 0; leg < legs.size(); ++leg) {
            PreparedLosses churned = nominal.losses[leg];
            for (auto& bin : churned.bins) {
                bin.bearings.clear();
                bin.meshes.clear();
            }
            for (auto& table : legs[leg].losses) {
                if (!table) continue;
                Row& row = table->churning.at(k);
                for (std::size_t i = 0; i < coarse.y.size(); ++i)
                    row.push_back(
                        losses_at(faster, nominal.loads, nominal.oil, churned, {coarse.x(i), true})
                            .ledger.churning_W);
            }
        }
    }
}

// What depends on load and bearing friction: bearings, and the life they use.
void FastTables::tabulate_loaded(std::size_t load) {
    Setup loaded = setup;
    loaded.factors.load = std::exp(nodes.load[load]);
    const Prepared prepared = prepare(loaded);
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        LegTables& tables = legs[leg];
        if (!tables.driven || tables.stop) continue;
        // Where and how much a film wears a bearing has nothing to do with its friction.
        std::vector<std::vector<FilmRates>> rates;  // [bin][bearing]
        if (use == FastUse::everything)
            for (std::size_t bin = 0; bin < prepared.losses[leg].bins.size(); ++bin) {
                rates.emplace_back();
                for (std::size_t b = 0; b < bearings.size(); ++b)
                    rates.back().emplace_back(prepared, BearingPlace{leg, bin, b}, drawn_classes);
            }
        for (std::size_t f = 0; f < FastNodes::frictions; ++f) {
            PreparedLosses losses = prepared.losses[leg];
            for (auto& bin : losses.bins)
                for (auto& term : bin.bearings) term.friction = std::exp(nodes.friction[f]);
            const std::size_t node = load * FastNodes::frictions + f;
            if (use == FastUse::everything) place_steps(prepared.oil, losses, {leg, node});
            std::vector<std::vector<FilmsOnTheWay>> films(losses.bins.size());
            for (auto& of_bin : films) of_bin.resize(bearings.size());
            for (std::size_t i = 0; i < coarse.y.size(); ++i) {
                const bool with_rates = use == FastUse::everything && i % damage_stride == 0;
                std::vector<std::vector<double>> films_degC(losses.bins.size());
                double sum_W = 0;
                for (std::size_t bin = 0; bin < losses.bins.size(); ++bin)
                    for (std::size_t b = 0; b < bearings.size(); ++b) {
                        const BearingRun run = films[bin][b].at(
                            prepared.oil, losses.bins[bin].bearings[b], coarse.x(i));
                        sum_W += losses.bins[bin].share * run.loss_W;
                        films_degC[bin].push_back(run.film_degC);
                    }
                tables.bearings_W.at(node, i) = sum_W;
                if (with_rates)
                    rates_at(prepared.loads.legs[leg].bins, rates, films_degC,
                             {leg, node, i / damage_stride});
            }
        }
    }
}

// Bins whose step may lie where the oil is followed. A bearing's film is as hot as at its step
// where the oil is colder by its loss there over its path: less with less friction and load, at
// most the film's own temperature.
void FastTables::find_steps(const Prepared& nominal) {
    const double most =
        std::exp(nodes.friction[FastNodes::frictions - 1] + nodes.load[FastNodes::loads - 1]);
    Setup classed = setup;
    for (std::size_t c = 0; c < FastNodes::classes; ++c) {
        classed.factors.cleanliness = static_cast<int>(c) - 1;
        const Prepared prepared = prepare(classed, nominal.loads);
        for (std::size_t leg = 0; leg < legs.size(); ++leg) {
            legs[leg].steps[c].assign(bearings.size(), {});
            if (!legs[leg].driven) continue;
            for (std::size_t bin = 0; bin < prepared.losses[leg].bins.size(); ++bin)
                for (std::size_t b = 0; b < bearings.size(); ++b) {
                    const auto film_degC = additives_end_degC(prepared, {leg, bin, b});
                    if (!film_degC || *film_degC < damage.first) continue;
                    const double rise_K =
                        *film_degC -
                        oil_behind_film_degC(
                            prepared.oil, prepared.losses[leg].bins[bin].bearings[b], *film_degC);
                    if (*film_degC - most * rise_K > oil_ceiling_degC) continue;
                    legs[leg].steps[c][b].push_back(
                        {bin, *film_degC, {}, LoadedTable(damage.y.size())});
                }
        }
    }
}

void FastTables::place_steps(const Oil& oil, const PreparedLosses& losses, const NodePlace& place) {
    for (auto& by_bearing : legs[place.leg].steps)
        for (std::size_t b = 0; b < by_bearing.size(); ++b)
            for (LegTables::Step& step : by_bearing[b])
                step.oil_degC[place.node] =
                    oil_behind_film_degC(oil, losses.bins[step.bin].bearings[b], step.film_degC);
}

void FastTables::rates_at(const std::vector<BinLoads>& bins,
                          const std::vector<std::vector<FilmRates>>& rates,
                          const std::vector<std::vector<double>>& films_degC,
                          const RatePlace& place) {
    for (std::size_t b = 0; b < bearings.size(); ++b) {
        std::vector<FilmRates::Film> films;
        for (std::size_t bin = 0; bin < bins.size(); ++bin)
            films.push_back(rates[bin][b].at(films_degC[bin][b]));
        for (std::size_t c = 0; c < FastNodes::classes; ++c) {
            std::vector<LegTables::Step>& steps = legs[place.leg].steps[c][b];
            double rate_per_h = least_rate_per_h;
            auto step = steps.begin();
            for (std::size_t bin = 0; bin < bins.size(); ++bin) {
                const double share = bins[bin].bin.share;
                if (step == steps.end() || step->bin != bin) {
                    rate_per_h += share * rates[bin][b].by_rule_per_h(films[bin], c);
                    continue;
                }
                const FilmRates::Both both = rates[bin][b].both_per_h(films[bin], c);
                const double helped_per_h = share * both.helped_per_h;
                rate_per_h += helped_per_h;
                step->more.at(place.node, place.at) = share * both.not_helped_per_h - helped_per_h;
                ++step;
            }
            legs[place.leg].ln_rate[c][b].at(place.node, place.at) = std::log(rate_per_h);
            for (LegTables::Step& one : steps) one.more.at(place.node, place.at) /= rate_per_h;
        }
    }
}

void FastTables::outside_grid(const Loads& loads) {
    // A point stands at the air's own temperature, where convection turns round.
    const double below_K =
        std::ceil((case_air_degC - fine.first) / outside_step_K) * outside_step_K;
    const auto points = static_cast<std::size_t>((below_K + outside_reach_K) / outside_step_K) + 1;
    outside = {-below_K, outside_step_K, Row(points)};
    // Speeds of the air in all bins at all nodes lie between a few speeds at which it is
    // calculated.
    std::vector<std::array<std::vector<double>, FastNodes::air_shares>> speeds_mps(legs.size());
    double slowest_mps = std::numeric_limits<double>::infinity();
    double fastest_mps = 0;
    Setup other = setup;
    for (std::size_t leg = 0; leg < legs.size(); ++leg) {
        if (!legs[leg].driven) continue;
        legs[leg].outside = OutsideTable(points);
        for (std::size_t s = 0; s < FastNodes::air_shares; ++s) {
            other.factors.air_share = std::exp(nodes.air_share[s]);
            for (const BinLoads& bin : loads.legs[leg].bins) {
                speeds_mps[leg][s].push_back(air_along_mps(other, bin.bin));
                slowest_mps = std::min(slowest_mps, speeds_mps[leg][s].back());
                fastest_mps = std::max(fastest_mps, speeds_mps[leg][s].back());
            }
        }
    }
    if (fastest_mps == 0) return;
    constexpr double least_span = 1.01;
    const AirSpeeds ln_speeds(
        {std::log(slowest_mps), std::log(std::max(fastest_mps, least_span * slowest_mps))});
    for (std::size_t k = 0; k < air_speeds; ++k) air_mps[k] = std::exp(ln_speeds[k]);
    for (std::size_t leg = 0; leg < legs.size(); ++leg)
        for (std::size_t s = 0; s < FastNodes::air_shares; ++s)
            for (std::size_t bin = 0; bin < speeds_mps[leg][s].size(); ++bin) {
                const auto w = ln_speeds.weights(std::log(speeds_mps[leg][s][bin]));
                for (std::size_t k = 0; k < air_speeds; ++k)
                    legs[leg].by_air_speed[s][k] += loads.legs[leg].bins[bin].bin.share * w[k];
            }
}

void FastTables::tabulate_outside(const Loads& loads, std::size_t air) {
    Setup other = setup;
    other.factors.air_K = nodes.air[air];
    const Prepared prepared = prepare(other, loads);
    const std::vector<double> above_K = wanted_points(outside, [&](std::size_t i) {
        return std::fabs(outside.x(i)) <= outside_bend_K || i % outside_stride == 0;
    });
    const auto heat_W = [&](double speed_mps, double above_air_K) {
        const OutsideParts out =
            outside_in_air(prepared, speed_mps, prepared.case_air_degC + above_air_K);
        return out.convection_W + out.radiation_W;
    };
    const bool driven = air_mps[0] > 0;
    const bool standing = std::any_of(legs.begin(), legs.end(),
                                      [](const LegTables& leg) { return leg.driven && leg.stop; });
    std::vector<std::array<double, air_speeds>> by_speed_W(above_K.size());
    Row standing_W(above_K.size());
    for (std::size_t i = 0; i < above_K.size(); ++i) {
        for (std::size_t k = 0; driven && k < air_speeds; ++k)
            by_speed_W[i][k] = heat_W(air_mps[k], above_K[i]);
        if (standing) standing_W[i] = heat_W(0, above_K[i]);
    }
    for (LegTables& leg : legs) {
        if (!leg.driven) continue;
        for (std::size_t s = 0; s < FastNodes::air_shares; ++s) {
            Row row = standing_W;
            for (std::size_t i = 0; !leg.stop && i < row.size(); ++i)
                row[i] = std::inner_product(by_speed_W[i].begin(), by_speed_W[i].end(),
                                            leg.by_air_speed[s].begin(), 0.0);
            leg.outside.set(air * FastNodes::air_shares + s,
                            on_grid(outside, above_K, std::move(row)));
        }
    }
}

void FastTables::cooler_grid() {
    if (!setup.cooler.fit) return;
    for (LegTables& leg : legs)
        if (leg.driven) leg.cooler.fill(CoolerTable(fine.y.size()));
}

void FastTables::tabulate_cooler(const Loads& loads, std::size_t air) {
    if (!setup.cooler.fit) return;
    const std::vector<double> oil_degC = wanted_points(fine, [&](std::size_t i) {
        if (i % cooler_stride == 0) return true;
        const auto& opens_degC = setup.cooler.thermostat_opens_degC;
        return opens_degC && fine.x(i) >= *opens_degC - cooler_bend_K &&
               fine.x(i) <= *opens_degC + thermostat_range_K + cooler_bend_K;
    });
    for (std::size_t s = 0; s < FastNodes::face_speeds; ++s) {
        Setup other = setup;
        other.factors.air_K = nodes.air[air];
        other.factors.face_speed = std::exp(nodes.face[s]);
        const Prepared prepared = prepare(other, loads);
        // Bins of all legs, fan running or not, at the same air and oil flow are one.
        std::map<std::pair<double, double>, Row> heat_W;
        const auto heat_of = [&](const CoreBin& bin) -> const Row& {
            Row& row = heat_W[{bin.face_mps, bin.pump_Lpmin}];
            if (row.empty())
                for (const double at_degC : oil_degC)
                    row.push_back(core_heat_W(prepared, bin, at_degC));
            return row;
        };
        for (std::size_t leg = 0; leg < legs.size(); ++leg) {
            if (!legs[leg].driven) continue;
            for (const bool fan : {true, false}) {
                Row mean_W(oil_degC.size());
                for (const CoreBin& bin :
                     core_bins(prepared, leg, {.cooler = true, .pump = true, .fan = fan})) {
                    const Row& row = heat_of(bin);
                    for (std::size_t i = 0; i < row.size(); ++i) mean_W[i] += bin.share * row[i];
                }
                legs[leg].cooler[fan ? 1 : 0].set(air * FastNodes::face_speeds + s,
                                                  on_grid(fine, oil_degC, std::move(mean_W)));
            }
        }
    }
}

}  // namespace caseload
