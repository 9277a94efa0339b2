// SPDX-License-Identifier: MIT
#include "caseload/ask/sets.hpp"

#include "caseload/ask/on_ground.hpp"
#include "caseload/figures.hpp"
#include "caseload/formulas/prop_shaft.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace caseload {
namespace {

// As the check of the prop shaft: common practice.
constexpr double whirl_stop = 0.90;
// Ratios of quick-change sets lie well within this; 20 to 30 % either way is usual, common
// practice, no published source.
constexpr double offered_most = 1.6;
constexpr int fewest_teeth = 17;

std::string teeth_words(const std::vector<int>& teeth) {
    return fmt::format("{}", fmt::join(teeth, "/"));
}

double tallest_gear(const VehicleInput& vehicle) {
    return vehicle.gearbox.empty()
               ? 0
               : *std::min_element(vehicle.gearbox.begin(), vehicle.gearbox.end());
}

bool speeds_known(const VehicleInput& vehicle) {
    return vehicle.engine_limit_rpm && !vehicle.gearbox.empty() && vehicle.rolling_radius_m > 0;
}

/// Mean and fastest point of the driving, from the loads.
struct Pace {
    double input_rpm = 0;
    double prop_rpm = 0;
    double fast_mps = 0;
    double fast_input_rpm = 0;
    double fast_prop_rpm = 0;
};

Pace pace_of(const Setup& setup, const Loads& loads) {
    Pace pace;
    double driving_s = 0;
    for (const int run : setup.event.run) {
        const auto leg = static_cast<std::size_t>(run);
        const double duration_s = setup.event.legs[leg].duration_s;
        if (loads.legs[leg].bins.empty()) continue;
        driving_s += duration_s;
        for (const BinLoads& bin : loads.legs[leg].bins) {
            const double share_s = duration_s * bin.bin.share;
            pace.input_rpm += share_s * bin.bin.speed_rpm;
            pace.prop_rpm += share_s * bin.shaft_speed_rpm.back();
            pace.fast_mps = std::max(pace.fast_mps, bin.bin.road_speed_mps);
            pace.fast_input_rpm = std::max(pace.fast_input_rpm, bin.bin.speed_rpm);
            pace.fast_prop_rpm = std::max(pace.fast_prop_rpm, bin.shaft_speed_rpm.back());
        }
    }
    if (driving_s > 0) {
        pace.input_rpm /= driving_s;
        pace.prop_rpm /= driving_s;
    }
    return pace;
}

std::string first_problem(const Error& error) {
    if (error.problems().empty()) return error.what();
    const Problem& problem = error.problems().front();
    return problem.hint.empty() ? problem.text : problem.text + "; " + problem.hint;
}

std::string geometry_stop(const Notes& notes) {
    for (const Note& note : notes)
        if (note.id == "gears.stop") return note.text;
    return {};
}

class SetsRun {
public:
    SetsRun(const Document& document, const SetsOptions& options)
        : document_(document), options_(options), base_(document.complete()), ground_(base_) {}

    SetsAnswer run() {
        const Setup& setup = base_.setup;
        answer_.speeds_known = speeds_known(setup.vehicle);
        if (options_.top_road_speed_mps && !answer_.speeds_known)
            refuse_input(
                "--top-speed needs vehicle.engine_limit, vehicle.gearbox and "
                "vehicle.tyre in the setup",
                "add for example engine_limit = \"7600 rpm\" and gearbox = [2.48, "
                "1.48, 1.0] under [vehicle]");
        fitted_ratio_ = place_train(setup).ratio;
        std::vector<Owned> all;
        for (const auto& [name, set] : setup.sets)
            if (set.in_trailer) all.push_back({name, set.teeth, set.teeth == setup.gears.teeth});
        const bool listed =
            std::any_of(all.begin(), all.end(), [](const Owned& set) { return set.fitted; });
        if (!listed) all.push_back({teeth_words(setup.gears.teeth), setup.gears.teeth, true});
        answer_.sets.resize(all.size());
        for_each_answer(all.size(), options_.band, [&](std::size_t i, const BandOptions& draws) {
            answer_.sets[i] = calculated(all[i], draws);
        });
        std::stable_sort(answer_.sets.begin(), answer_.sets.end(),
                         [](const SetResult& a, const SetResult& b) { return a.ratio > b.ratio; });
        if (options_.offer || options_.top_road_speed_mps) find_offers();
        refuse_unreached();
        choose();
        if (!options_.offer) answer_.offers.clear();
        near_first();
        return std::move(answer_);
    }

private:
    struct Owned {
        std::string name;
        std::vector<int> teeth;
        bool fitted;
    };

    [[nodiscard]] SetResult calculated(const Owned& owned, const BandOptions& draws) const {
        SetResult set;
        set.name = owned.name;
        set.teeth = owned.teeth;
        set.fitted = owned.fitted;
        set.ratio = static_cast<double>(owned.teeth.back()) / owned.teeth.front();
        const Change change{"gears.fitted", fmt::format("[{}]", fmt::join(owned.teeth, ", "))};
        try {
            const ReadSetup read = document_.complete(ground_.with({change}));
            const Assessment likely = assess(read.setup);
            speeds(read.setup, likely.loads, set);
            set.cannot = geometry_stop(likely.notes);
            results(read.setup, likely, draws, set);
        } catch (const Error& error) {
            set.cannot = first_problem(error);
            speeds_alone(set);
        }
        if (set.cannot.empty()) set.cannot = too_fast(set);
        return set;
    }

    struct Ratios {
        double drop;
        double gear;  ///< of the gearbox
    };
    [[nodiscard]] Gearing gearing(const Ratios& ratios) const {
        const VehicleInput& vehicle = base_.setup.vehicle;
        return {vehicle.rolling_radius_m, vehicle.axle_ratio, ratios.drop, ratios.gear};
    }

    void speeds_alone(SetResult& set) const {
        const VehicleInput& vehicle = base_.setup.vehicle;
        if (answer_.speeds_known)
            for (const double gear : vehicle.gearbox)
                set.top_road_speed_mps.push_back(
                    road_speed_mps(gearing({set.ratio, gear}), *vehicle.engine_limit_rpm));
        if (vehicle.axle_ratio > 0) set.other_axle = vehicle.axle_ratio * fitted_ratio_ / set.ratio;
    }

    void speeds(const Setup& setup, const Loads& loads, SetResult& set) const {
        speeds_alone(set);
        const VehicleInput& vehicle = setup.vehicle;
        const Pace pace = pace_of(setup, loads);
        set.pace_input_rpm = pace.input_rpm;
        set.pace_prop_rpm = pace.prop_rpm;
        set.fast_road_speed_mps = options_.top_road_speed_mps.value_or(pace.fast_mps);
        set.fast_input_rpm = pace.fast_input_rpm;
        set.fast_prop_rpm = pace.fast_prop_rpm;
        if (options_.top_road_speed_mps) {
            set.fast_prop_rpm = prop_rpm(gearing({set.ratio, 1}), *options_.top_road_speed_mps);
            set.fast_input_rpm = set.fast_prop_rpm * set.ratio;
        }
        set.fast_engine_rpm = set.fast_input_rpm * tallest_gear(vehicle);
        // The course's own points are speeds of the road; a whole turn more is rounding.
        if (answer_.speeds_known)
            set.engine_reaches = set.fast_engine_rpm <= *vehicle.engine_limit_rpm + 1;
        if (vehicle.prop_shaft)
            set.whirl_share =
                set.fast_prop_rpm /
                (prop_shaft::ends_share *
                 prop_shaft::critical_speed_rpm({.length_mm = vehicle.prop_shaft->length_mm,
                                                 .outside_mm = vehicle.prop_shaft->outside_mm,
                                                 .wall_mm = vehicle.prop_shaft->wall_mm}));
        if (set.other_axle > 0 && vehicle.axle_ratio > 0) {
            set.other_prop_rpm = set.fast_prop_rpm * set.other_axle / vehicle.axle_ratio;
            set.other_pinion_torque = vehicle.axle_ratio / set.other_axle;
        }
    }

    static void results(const Setup& setup, const Assessment& likely, const BandOptions& draws,
                        SetResult& set) {
        const Band sure = band(setup, likely, draws);
        set.verdict = sure.verdict;
        set.oil_fitted_degC = sure.fitted.peak_oil_degC;
        set.oil_without_degC = sure.without.peak_oil_degC;
        for (std::size_t b = 0; b < sure.fitted.life_share.size(); ++b)
            if (set.bearing.empty() || sure.fitted.life_share[b].p50 > set.bearing_share.p50) {
                set.bearing = likely.fitted.damage.bearings[b].name;
                set.bearing_share = sure.fitted.life_share[b];
            }
        for (const GearDamage& gear : likely.fitted.checked.gears) {
            const ToothSide used = worst(gear);
            const double share = std::max(used.flank_share, used.root_share);
            if (!set.gear.empty() && share <= set.tooth_share) continue;
            set.gear = gear.shaft;
            set.tooth_share = share;
        }
    }

    [[nodiscard]] std::string too_fast(const SetResult& set) const {
        if (!set.engine_reaches)
            return fmt::format(
                "the engine would turn {:.0f} r/min at {:.0f} km/h in the tallest "
                "gear; its limit is {:.0f}",
                set.fast_engine_rpm, kmph_from_mps(set.fast_road_speed_mps),
                *base_.setup.vehicle.engine_limit_rpm);
        if (set.whirl_share > whirl_stop)
            return fmt::format("the prop shaft would turn at {:.0f} % of its whirl speed",
                               100 * set.whirl_share);
        return {};
    }

    void find_offers() {
        const Setup& base = base_.setup;
        if (base.gears.train.size() != 2 || base.transfer_case.centre_distance_mm.empty()) return;
        const double sum = 2 * base.transfer_case.centre_distance_mm.front() / base.gears.module_mm;
        // Working depths leave about two teeth either side of the sum on the centre distance.
        for (int z_1 = fewest_teeth; z_1 < sum; ++z_1)
            for (int z_2 = std::max(fewest_teeth, static_cast<int>(sum) - z_1 - 3);
                 z_2 <= static_cast<int>(sum) - z_1 + 3; ++z_2)
                offer({z_1, z_2});
        std::stable_sort(answer_.offers.begin(), answer_.offers.end(),
                         [](const SetOffer& a, const SetOffer& b) { return a.ratio > b.ratio; });
    }

    void offer(const std::vector<int>& teeth) {
        const double ratio = static_cast<double>(teeth.back()) / teeth.front();
        if (ratio > offered_most || ratio < 1 / offered_most) return;
        for (const SetResult& set : answer_.sets)
            if (set.teeth == teeth ||
                (set.teeth.front() == teeth.back() && set.teeth.back() == teeth.front()))
                return;  // owned, perhaps the other way round
        SetOffer found{teeth, ratio, 0, {}};
        try {
            const Change change{"gears.fitted", fmt::format("[{}]", fmt::join(teeth, ", "))};
            const Train train = place_train(document_.complete(ground_.with({change})).setup);
            for (const iso_21771::Finding& finding : train.findings) {
                if (finding.severity == iso_21771::Finding::Severity::stop) return;
                if (finding.severity == iso_21771::Finding::Severity::watch && found.remark.empty())
                    found.remark = finding.text;
            }
        } catch (const Error&) {
            return;  // does not fit this case
        }
        if (answer_.speeds_known)
            found.top_road_speed_mps =
                road_speed_mps(gearing({ratio, tallest_gear(base_.setup.vehicle)}),
                               *base_.setup.vehicle.engine_limit_rpm);
        answer_.offers.push_back(std::move(found));
    }

    /// Offers nearest to the set to fit first.
    void near_first() {
        if (answer_.fit < 0) return;
        const double ratio = answer_.sets[static_cast<std::size_t>(answer_.fit)].ratio;
        std::stable_sort(answer_.offers.begin(), answer_.offers.end(),
                         [ratio](const SetOffer& a, const SetOffer& b) {
                             return std::fabs(a.ratio - ratio) < std::fabs(b.ratio - ratio);
                         });
    }

    /// The speed asked for must be within reach of a set in the trailer.
    void refuse_unreached() const {
        if (!options_.top_road_speed_mps) return;
        const double asked_mps = *options_.top_road_speed_mps;
        const SetResult* nearest = nullptr;
        double best_mps = 0;
        for (const SetResult& set : answer_.sets) {
            const double top_mps =
                *std::max_element(set.top_road_speed_mps.begin(), set.top_road_speed_mps.end());
            if (top_mps >= asked_mps - 1e-9) return;
            if (nearest == nullptr || top_mps > best_mps) {
                nearest = &set;
                best_mps = top_mps;
            }
        }
        std::string hint =
            "no pair of teeth that fits this centre distance reaches it either: "
            "slower axle gears or larger tyres";
        for (const SetOffer& one : answer_.offers)  // shortest gearing first
            if (one.top_road_speed_mps >= asked_mps) {
                hint = fmt::format("{} teeth would fit and reach {:.0f} km/h: see --offer",
                                   teeth_words(one.teeth), kmph_from_mps(one.top_road_speed_mps));
                break;
            }
        throw Error(
            Error::Kind::input,
            {Problem{{},
                     fmt::format("--top-speed {:.0f} km/h: no set in the trailer reaches "
                                 "it; the nearest is {} with {:.0f} km/h",
                                 kmph_from_mps(asked_mps), nearest->name, kmph_from_mps(best_mps)),
                     hint}});
    }

    void choose() {
        const std::map<std::string, int> order{{"fine", 0}, {"watch", 1}, {"stop", 2}};
        const auto rank = [&](const SetResult& set) { return order.at(set.verdict); };
        // Without engine speeds short gearing cannot be judged: what wears least then decides.
        const auto better = [&](const SetResult& a, const SetResult& b) {
            if (rank(a) != rank(b)) return rank(a) < rank(b);
            if (answer_.speeds_known) return a.ratio > b.ratio;
            return std::max(a.tooth_share, a.bearing_share.p50) <
                   std::max(b.tooth_share, b.bearing_share.p50);
        };
        std::vector<int> able;
        for (std::size_t i = 0; i < answer_.sets.size(); ++i)
            if (answer_.sets[i].cannot.empty()) able.push_back(static_cast<int>(i));
        const auto at = [&](int i) -> const SetResult& {
            return answer_.sets[static_cast<std::size_t>(i)];
        };
        std::stable_sort(able.begin(), able.end(),
                         [&](int a, int b) { return better(at(a), at(b)); });
        if (able.empty()) {
            answer_.why = "no set in the trailer can be fitted";
            return;
        }
        answer_.fit = able.front();
        const SetResult& fit = at(answer_.fit);
        answer_.why = answer_.speeds_known
                          ? fmt::format("the shortest gearing that reaches {:.0f} km/h",
                                        kmph_from_mps(fit.fast_road_speed_mps))
                          : "teeth and bearings last longest with it";
        if (rank(fit) > 0)
            answer_.why += fmt::format("; no set leaves the case better than {}", fit.verdict);
        explain_next(fit, able, rank);
    }

    template <class Rank>
    void explain_next(const SetResult& fit, const std::vector<int>& able, const Rank& rank) {
        // What people ask for is the next shorter gearing; else the runner-up.
        if (answer_.speeds_known && answer_.fit > 0 &&
            !answer_.sets[static_cast<std::size_t>(answer_.fit) - 1].cannot.empty()) {
            answer_.next = answer_.fit - 1;
            answer_.why_not_next = answer_.sets[static_cast<std::size_t>(answer_.next)].cannot;
            return;
        }
        if (able.size() < 2) return;
        answer_.next = able[1];
        const SetResult& next = answer_.sets[static_cast<std::size_t>(able[1])];
        if (rank(next) != rank(fit))
            answer_.why_not_next = fmt::format("it leaves the case at {}", next.verdict);
        else if (answer_.speeds_known)
            answer_.why_not_next = "longer gearing than the speed needs: the engine pulls less";
        else
            answer_.why_not_next = fmt::format(
                "it uses {} % of its teeth and {} % of its worst bearing an event",
                percent_figures(next.tooth_share), percent_figures(next.bearing_share.p50));
    }

    const Document& document_;
    const SetsOptions& options_;
    ReadSetup base_;
    OnGround ground_;
    double fitted_ratio_ = 1;
    SetsAnswer answer_;
};

}  // namespace

double road_speed_mps(const Gearing& gearing, double engine_rpm) {
    return radps_from_rpm(engine_rpm) / (gearing.gear * gearing.drop_ratio * gearing.axle_ratio) *
           gearing.rolling_radius_m;
}

double prop_rpm(const Gearing& gearing, double road_speed_mps) {
    return rpm_from_radps(road_speed_mps / gearing.rolling_radius_m) * gearing.axle_ratio;
}

SetsAnswer choose_set(const Document& document, const SetsOptions& options) {
    return SetsRun(document, options).run();
}

}  // namespace caseload
