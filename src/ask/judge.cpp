// SPDX-License-Identifier: MIT
#include "ask/judge.hpp"

#include "ask/drawn_paths.hpp"
#include "ask/flanks_over_range.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <utility>

namespace caseload {
namespace {

/// A class below one is reached where this share of the draws reaches that one.
constexpr double may_share = 1 - holding_share;

/// A check over the draws: its class, and what it is judged by.
struct Reached {
    Severity severity = Severity::fine;
    double limit = 0;
    double share = 0;
};

Reached over_range(const CheckRow& row, double of_part, const std::vector<double>& values) {
    Reached worst;
    if (values.empty()) return worst;
    for (const Severity severity :
         {Severity::stop, Severity::watch, Severity::look, Severity::shown}) {
        const ClassLimit at = class_limit(row, severity);
        if (!at.is) continue;
        const double limit = at.at(of_part);
        const double share = static_cast<double>(std::count_if(
                                 values.begin(), values.end(),
                                 [&](double value) { return past(row, value, limit); })) /
                             static_cast<double>(values.size());
        if (share < may_share) continue;
        const Severity here = share >= likely_share
                                  ? severity
                                  : static_cast<Severity>(static_cast<int>(severity) - 1);
        // Of two ways to one class the likely one says more.
        if (here > worst.severity || (here == worst.severity && share >= likely_share))
            worst = {here, limit, share};
    }
    return worst;
}

/// Values of the checks, draw by draw. Those whose values cannot come near a class are left out.
class OverRange {
public:
    OverRange(const Setup& setup, const Assessment& likely, const JudgedDraws& draws, bool all)
        : setup_(setup),
          fitted_(likely.fitted),
          draws_(draws.draws),
          lives_(draws.lives),
          all_(all),
          flanks_(setup, likely.fitted, draws.draws) {
        for (const DrawResult& draw : draws_) {
            most_load_ = std::max(most_load_, draw.load / setup.factors.load);
            most_friction_ =
                std::max(most_friction_, draw.bearing_friction / setup.factors.bearing_friction);
            for (const RunPeak& run : fitted_.event.runs)
                hotter_K_ =
                    std::max(hotter_K_, draw.leg_peak_degC[static_cast<std::size_t>(run.leg)] -
                                            run.peak_oil_degC);
        }
    }

    [[nodiscard]] std::vector<double> values(const Check& check) {
        switch (check.id) {
            case CheckId::bearing_life:
                return lives_ ? of([b = bearing(check)](const DrawResult& draw) {
                    return draw.life_share[b];
                })
                              : std::vector<double>{};
            case CheckId::gear_flank:
                return of([g = gear(check)](const DrawResult& draw) {
                    return draw.teeth[g].flank_share;
                });
            case CheckId::gear_root:
                return of(
                    [g = gear(check)](const DrawResult& draw) { return draw.teeth[g].root_share; });
            case CheckId::spline_wear:
                // Contact stress goes with the torque.
                return of([wear = check.value, load = setup_.factors.load](const DrawResult& draw) {
                    return wear * wear_by_load(draw.load / load);
                });
            case CheckId::seal_sump:
                return of(sump_degC);
            case CheckId::seal_lip:
                return of([rise_K = lip_rise()](const DrawResult& draw) {
                    return sump_degC(draw) + rise_K;
                });
            case CheckId::bearing_ring:
            case CheckId::bearing_cage:
                return rings(bearing(check),
                             check_row(check.id).watch.at(part_limit(setup_, check)));
            case CheckId::gears_scuffing:
                return all_ || flanks_.may_scuff({hotter_K_, most_load_}) ? flanks_.S_B()
                                                                          : std::vector<double>{};
            case CheckId::gears_film:
                return all_ || flanks_.may_be_thin({hotter_K_, most_load_}, film_limit(check))
                           ? flanks_.film_ratio()
                           : std::vector<double>{};
            default:
                return {};
        }
    }

private:
    template <class F>
    [[nodiscard]] std::vector<double> of(const F& value) const {
        std::vector<double> values;
        values.reserve(draws_.size());
        for (const DrawResult& draw : draws_) values.push_back(value(draw));
        return values;
    }
    static double sump_degC(const DrawResult& draw) {
        return std::max(draw.peak_oil_degC, draw.peak_housing_degC);
    }
    [[nodiscard]] std::size_t bearing(const Check& check) const {
        std::size_t b = 0;
        while (check.about != "bearing." + setup_.bearings[b].name) ++b;
        return b;
    }
    [[nodiscard]] std::size_t gear(const Check& check) const {
        std::size_t g = 0;
        while (check.about != gear_address(fitted_.checked.gears[g])) ++g;
        return g;
    }
    [[nodiscard]] double film_limit(const Check& check) const { return part_limit(setup_, check); }
    /// As much as the lip is hotter in the likely case: less than when it turns where the hottest
    /// moment is in a stop.
    [[nodiscard]] double lip_rise() const {
        const HottestAtSeals hottest =
            hottest_at_seals(setup_, fitted_.event.samples.front().nodes.oil_degC, fitted_.event);
        return hottest.lip_degC - hottest.sump_degC;
    }

    /// Hottest film of a bearing. Its load torque grows with the load by the power that its
    /// friction factor and the load under it have together, at most.
    [[nodiscard]] std::vector<double> rings(std::size_t b, double limit_degC) {
        // Deep groove balls: 1 + 0.55. What play takes off the sum of the loads gets less with
        // load: k_M goes with its 0.04 at most.
        constexpr double load_power = 1.59;
        std::vector<double> hottest_degC(draws_.size(), -oil_ceiling_degC);
        bool any = false;
        const Prepared& prepared = flanks_.prepared();
        const double power = is_ball(prepared.loads.bearings[b].kind) ? load_power : 1.04;
        const std::vector<BearingPaths> paths = drawn_paths(b);
        double least_WpK = bearing_heat::all_WpK(paths.front());
        for (const BearingPaths& one : paths)
            least_WpK = std::min(least_WpK, bearing_heat::all_WpK(one));
        for (std::size_t leg = 0; leg < prepared.losses.size(); ++leg) {
            if (draws_.front().leg_peak_degC[leg] <= never_driven_degC) continue;
            const std::vector<double> unheated = unheated_of(leg, paths);
            const double most_degC = *std::max_element(unheated.begin(), unheated.end());
            for (const PreparedLosses::BinTerm& bin : prepared.losses[leg].bins) {
                PreparedLosses::BearingTerm term = bin.bearings[b];
                if (term.n_rpm <= 0) continue;
                const double torque_Nmm = term.load_torque_Nmm;
                // So cold that no draw's film is that hot.
                term.friction = most_friction_ * setup_.factors.bearing_friction;
                term.load_torque_Nmm = torque_Nmm * std::pow(most_load_, power);
                term.path_WpK = least_WpK;
                if (!all_ && most_degC < unheated_behind_film_degC(prepared.oil, term, limit_degC))
                    continue;
                any = true;
                for (std::size_t i = 0; i < draws_.size(); ++i) {
                    const DrawResult& draw = draws_[i];
                    term.friction = draw.bearing_friction;
                    term.load_torque_Nmm =
                        torque_Nmm * std::pow(draw.load / setup_.factors.load, power);
                    term.path_WpK = bearing_heat::all_WpK(paths[i]);
                    hottest_degC[i] = std::max(
                        hottest_degC[i], run_bearing(prepared.oil, term, unheated[i]).film_degC);
                }
            }
        }
        return any ? hottest_degC : std::vector<double>{};
    }
    /// Heat paths of a bearing, draw by draw.
    [[nodiscard]] std::vector<BearingPaths> drawn_paths(std::size_t b) {
        const Prepared& prepared = flanks_.prepared();
        const DrawnPaths drawn(setup_, prepared.loads, prepared.oil);
        std::vector<BearingPaths> paths;
        paths.reserve(draws_.size());
        for (const DrawResult& draw : draws_)
            paths.push_back(draw.seat_heat == setup_.factors.seat_heat
                                ? prepared.bearing_paths[b]
                                : drawn.at(b, draw.seat_heat));
        return paths;
    }
    /// A bearing's film without its loss where a leg is hottest, draw by draw.
    [[nodiscard]] std::vector<double> unheated_of(std::size_t leg,
                                                  const std::vector<BearingPaths>& paths) const {
        std::vector<double> unheated;
        unheated.reserve(draws_.size());
        for (std::size_t i = 0; i < draws_.size(); ++i)
            unheated.push_back(unheated_degC(
                paths[i], {draws_[i].leg_peak_degC[leg], draws_[i].leg_peak_housing_degC[leg],
                           draws_[i].leg_peak_steel_degC[leg]}));
        return unheated;
    }

    static constexpr double never_driven_degC = -300;

    const Setup& setup_;
    const CoolerSide& fitted_;
    const std::vector<DrawResult>& draws_;
    bool lives_;
    bool all_;
    double most_load_ = 1;
    double most_friction_ = 1;
    double hotter_K_ = 0;
    FlanksOverRange flanks_;
};

JudgedCheck found(const Check& check) {
    JudgedCheck out;
    out.id = check.id;
    out.about = check.about;
    out.verdict = check.verdict;
    out.words = check.words;
    out.value = check.value;
    out.limit = check.limit;
    out.at_least = check.at_least;
    out.unit = check.unit;
    out.consequence = check.consequence;
    return out;
}

void sort_checks(const Setup& setup, const Assessment& likely, const JudgedDraws& draws, bool all,
                 Band& band) {
    OverRange range(setup, likely, draws, all);
    std::vector<JudgedCheck> judged;
    for (const Check& check : likely.fitted.checked.checks) {
        const CheckRow& row = check_row(check.id);
        if (row.over == JudgedOver::middle) {
            if (severity_of(check.verdict) != Severity::fine) judged.push_back(found(check));
            continue;
        }
        const std::vector<double> values = range.values(check);
        const Reached reached = over_range(row, part_limit(setup, check), values);
        if (reached.severity == Severity::fine) continue;
        JudgedCheck one = found(check);
        one.verdict = severity_word(reached.severity);
        one.words = without_value(check.words);
        one.over_range = true;
        one.value = percentiles(values).p50;
        one.limit = reached.limit;
        one.share = reached.share;
        one.consequence = reached.severity > Severity::shown ? row.consequence : "";
        judged.push_back(std::move(one));
    }
    std::stable_sort(judged.begin(), judged.end(), [](const JudgedCheck& a, const JudgedCheck& b) {
        return a.id != b.id ? a.id < b.id : a.share > b.share;
    });
    for (JudgedCheck& one : judged) {
        const Severity severity = severity_of(one.verdict);
        std::vector<JudgedCheck>& into = severity == Severity::stop    ? band.stop
                                         : severity == Severity::watch ? band.watch
                                         : severity == Severity::look  ? band.look
                                                                       : band.shown;
        into.push_back(std::move(one));
    }
}

Severity oil_severity(const BandSide& side) {
    if (side.fails_share >= likely_share) return Severity::stop;
    return side.holds_share < holding_share ? Severity::watch : Severity::fine;
}

std::string oil_decides(const LimitsInput& limits, const BandSide& side, Severity oil) {
    if (oil == Severity::stop)
        return side.fails_share >= holding_share ? "too_hot" : "likely_too_hot";
    if (oil == Severity::fine) return "holds";
    return side.peak_oil_degC.p50 > limits.oil_watch_degC ? "likely_above" : "may_pass";
}

}  // namespace

bool lives_may_count(const Assessment& likely) {
    // a_ISO is at least 0.1; load and scatter of life make 9 draws in 10 use less than 2.2 times
    // the middle. So these stay below 0.3 in more than 9 of 10.
    constexpr double least_basic_share = 0.01;
    return std::any_of(
        likely.fitted.damage.bearings.begin(), likely.fitted.damage.bearings.end(),
        [](const BearingDamage& bearing) { return bearing.basic_life_share > least_basic_share; });
}

void judge(const Setup& setup, const Assessment& likely, const JudgedDraws& draws, Band& band,
           bool all) {
    sort_checks(setup, likely, draws, all, band);
    const Severity oil = oil_severity(band.fitted);
    const Severity of_case = !likely.stopped_by.empty() || !band.stop.empty() ? Severity::stop
                             : !band.watch.empty()                            ? Severity::watch
                                                                              : Severity::fine;
    band.oil_word = severity_word(oil);
    band.case_word = severity_word(of_case);
    band.verdict = severity_word(std::max(oil, of_case));
    band.decides = of_case > oil || of_case == Severity::stop
                       ? "check"
                       : oil_decides(setup.limits, band.fitted, oil);
}

Severity severity_over_range(const Band& band, const Check& check) {
    const auto is = [&](const JudgedCheck& one) {
        return one.id == check.id && one.about == check.about;
    };
    for (const std::vector<JudgedCheck>* list : {&band.stop, &band.watch, &band.look, &band.shown})
        if (const auto at = std::find_if(list->begin(), list->end(), is); at != list->end())
            return severity_of(at->verdict);
    return Severity::fine;
}

}  // namespace caseload
