// SPDX-License-Identifier: MIT
// Long: one question; what is tried at each position shares the answer now and its tables.
#include "caseload/ask/bearings.hpp"

#include "ask/fast_case.hpp"
#include "ask/play_classes.hpp"
#include "caseload/ask/measured.hpp"
#include "caseload/ask/pairs.hpp"
#include "caseload/figures.hpp"
#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/formulas/bearing_kind.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/load_zone.hpp"
#include "caseload/heat_curves.hpp"
#include "caseload/intervals.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace caseload {
namespace {

// Ring and rolling elements fill about three quarters of the ring between bore and outside.
// Judgement; for choosing only.
constexpr double filled = 0.75;
constexpr double steel_kgpm3 = 7830;
constexpr double same_oil_K = 0.5;  // less than this is no hotter

double mass_kg(const BearingChoice& choice) {
    const double D_m = m_from_mm(choice.outside_mm);
    const double d_m = m_from_mm(choice.bore_mm);
    return filled * steel_kgpm3 * pi / 4 * (D_m * D_m - d_m * d_m) * m_from_mm(choice.width_mm);
}

/// The chain's likely values with one setup.
struct Chain {
    Prepared prepared;
    EventHeat event;
    Damage damage;
    Checked checked;
    double friction_W = 0;  ///< of all bearings, hottest leg settled
};

Chain run_chain(const Setup& setup) {
    Chain chain;
    chain.prepared = prepare(setup);
    CaseCurves curves(chain.prepared);
    chain.event = event_heat(curves, {});
    chain.damage = event_damage(chain.prepared, chain.event);
    chain.checked = check_case(chain.prepared, chain.event, chain.damage);
    double hottest_degC = -oil_ceiling_degC;
    for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
        if (setup.event.legs[leg].kind != LegKind::drive) continue;
        const Steady rest = steady(curves, leg, {});
        if (rest.nodes.oil_degC <= hottest_degC) continue;
        hottest_degC = rest.nodes.oil_degC;
        chain.friction_W = rest.losses.ledger.bearings_W;
    }
    return chain;
}

class BearingsRun {
public:
    BearingsRun(const Document& document, const BearingsOptions& options)
        : options_(options),
          band_(options.band),
          setup_(document.complete().setup),
          now_(run_chain(setup_)) {
        now_.prepared.setup = &setup_;
        const FactorDraws factors_of(setup_);
        for (const auto& point : sobol_points(band_.draws)) draws_.push_back(factors_of(point));
        if (!band_.shared) band_.shared = shared_tables();
        draws_now_ = drawn(setup_, band_);
    }

    BearingsAnswer run() {
        BearingsAnswer answer;
        std::vector<std::string> names;
        std::vector<std::size_t> asked;
        for (const BearingInput& bearing : setup_.bearings) {
            names.push_back(bearing.name);
            if (options_.position.empty() || bearing.name == options_.position)
                asked.push_back(names.size() - 1);
        }
        if (asked.empty()) refuse_position(names);
        std::vector<std::vector<Tried>> others;
        for (const std::size_t index : asked) others.push_back(candidates(index));
        try_all(others);
        const std::vector<std::vector<PlayClass>> classes = play_of(asked);
        answer.positions.resize(asked.size());
        for_each_answer(asked.size(), band_, [&](std::size_t i, const BandOptions& draws) {
            answer.positions[i] = position(asked[i], others[i], draws);
            add_play(asked[i], classes[i], answer.positions[i]);
        });
        refuse_candidates();
        decide(answer);
        return answer;
    }

private:
    void decide(BearingsAnswer& answer) const {
        const Intervals due =
            intervals(setup_, wear_of(setup_, now_.event, now_.damage, now_.checked));
        answer.planned_events = setup_.rules.open_case_events;
        answer.fatigue_events = due.fatigue_events;
        answer.opens_earlier = !due.fatigue_beyond && due.fatigue_events < answer.planned_events;
        answer.weakest = due.decided_by;
        const auto any = [&](const auto& is) {
            return std::any_of(answer.positions.begin(), answer.positions.end(),
                               [&](const BearingPosition& one) { return is(one.choices.front()); });
        };
        if (any([](const BearingChoice& now) { return now.verdict == "stop"; }))
            answer.decision = "change";
        else if (answer.opens_earlier)
            answer.decision = "open_earlier";
        else
            answer.decision = any([](const BearingChoice& now) { return !now.fails.empty(); })
                                  ? "unsure"
                                  : "keep";
    }

    void refuse_position(const std::vector<std::string>& names) const {
        std::string all;
        for (const std::string& name : names) all += (all.empty() ? "" : ", ") + name;
        throw Error(
            Error::Kind::input,
            {Problem{{},
                     fmt::format("--position {}: there is no such bearing", options_.position),
                     "positions are " + all}});
    }

    /// A candidate must go on a shaft somewhere.
    void refuse_candidates() const {
        for (const auto& [name, candidate] : setup_.candidates) {
            const BearingInput* nearest = nullptr;
            const double bore_mm = candidate.bore_mm;
            for (const BearingInput& bearing : setup_.bearings) {
                const auto off_mm = [bore_mm](const BearingInput& one) {
                    return std::fabs(one.bore_mm - bore_mm);
                };
                if (nearest == nullptr || off_mm(bearing) < off_mm(*nearest)) nearest = &bearing;
            }
            if (nearest == nullptr || nearest->bore_mm == candidate.bore_mm) continue;
            refuse_input(fmt::format("candidate.{} has a bore of {:g} mm and fits no shaft", name,
                                     candidate.bore_mm),
                         fmt::format("the nearest shaft is at {} with {:g} mm", nearest->name,
                                     nearest->bore_mm));
        }
    }

    /// Whether a standard size may be offered in place of what is there.
    [[nodiscard]] bool goes(const BearingInput& there, const bearing_estimate::Size& size) const {
        if (size.bore_mm != there.bore_mm ||
            size.outside_mm > options_.outside_mm.value_or(there.outside_mm) ||
            size.width_mm > options_.width_mm.value_or(there.width_mm))
            return false;
        if (size.outside_mm == there.outside_mm && size.width_mm == there.width_mm) return false;
        return options_.thinner ||
               (size.outside_mm >= there.outside_mm && size.width_mm >= there.width_mm);
    }

    struct Tried {
        std::size_t index;  ///< of the position
        BearingInput bearing;
        std::string name;
        BearingChoice choice;
    };

    /// What could go where this bearing is: standard sizes, then those of the setup.
    [[nodiscard]] std::vector<Tried> candidates(std::size_t index) const {
        const BearingInput& there = setup_.bearings[index];
        std::vector<Tried> others;
        for (const auto& size : bearing_estimate::standard_sizes(there.kind)) {
            if (!goes(there, size)) continue;
            BearingInput other = there;
            other.outside_mm = size.outside_mm;
            other.width_mm = size.width_mm;
            assume_seat(other);
            other.dynamic_rating_N = other.static_rating_N = other.fatigue_limit_N = std::nullopt;
            others.push_back({index, other, "", {}});
        }
        for (const auto& [name, candidate] : setup_.candidates)
            if (candidate.bore_mm == there.bore_mm) {
                BearingInput other = there;
                other.kind = candidate.kind;
                other.outside_mm = candidate.outside_mm;
                other.width_mm = candidate.width_mm;
                other.contact_angle_deg = candidate.contact_angle_deg;
                other.dynamic_rating_N = candidate.dynamic_rating_N;
                other.static_rating_N = candidate.static_rating_N;
                other.fatigue_limit_N = candidate.fatigue_limit_N;
                assume_seat(other);
                others.push_back({index, other, name, {}});
            }
        return others;
    }

    /// Their likely values, of all positions side by side.
    void try_all(std::vector<std::vector<Tried>>& others) const {
        std::vector<Tried*> all;
        for (std::vector<Tried>& at_position : others)
            for (Tried& one : at_position) all.push_back(&one);
        options_.band.for_each(all.size(), [&](std::size_t i) {
            all[i]->choice = tried(all[i]->index, all[i]->bearing, all[i]->name);
        });
    }

    /// Of each position asked for, its bearing with each class of clearance; all side by side.
    [[nodiscard]] std::vector<std::vector<PlayClass>> play_of(
        const std::vector<std::size_t>& asked) const {
        constexpr std::size_t classes = kind_rows<ClearanceClass>.size();
        std::vector<std::optional<PlayClass>> all(asked.size() * classes);
        options_.band.for_each(all.size(), [&](std::size_t i) {
            const std::size_t index = asked[i / classes];
            BearingInput other = setup_.bearings[index];
            if (!has_running_play(other)) return;
            other.clearance = kind_rows<ClearanceClass>[i % classes].kind;
            all[i] = with_play(index, other);
        });
        std::vector<std::vector<PlayClass>> of(asked.size());
        for (std::size_t i = 0; i < all.size(); ++i)
            if (all[i]) of[i / classes].push_back(*all[i]);
        return of;
    }

    [[nodiscard]] std::optional<PlayClass> with_play(std::size_t index,
                                                     const BearingInput& other) const {
        if (other.clearance == setup_.bearings[index].clearance) {
            auto now = play_class(now_.prepared, now_.damage, index);
            if (now) now->now = true;
            return now;
        }
        const Setup setup = with(index, other);
        const Prepared prepared = prepare(setup);
        CaseCurves curves(prepared);
        auto one = play_class(prepared, event_damage(prepared, event_heat(curves, {})), index);
        if (one && one->hot_mm < load_zone::least_play_mm) one.reset();
        return one;
    }

    void add_play(std::size_t index, const std::vector<PlayClass>& classes,
                  BearingPosition& to) const {
        to.play_classes = classes;
        to.best_play = compare_play(to.play_classes);
        to.choices.front().play = play_words(to, now_.damage.bearings[index]);
    }

    [[nodiscard]] BearingPosition position(std::size_t index, std::vector<Tried> others,
                                           const BandOptions& draws) const {
        const BearingInput& there = setup_.bearings[index];
        BearingPosition result;
        result.position = there.name;
        result.choices.push_back(judged(index, there, now_));
        BearingChoice& now = result.choices.front();
        now.now = true;
        now.pair = pair_words_of(there);
        if (!options_.thinner)
            for (Tried& one : others)
                if (one.name.empty() && one.choice.C_N > 0 && one.choice.C_N < now.C_N)
                    one.choice.fails.push_back(fmt::format(
                        "rating: C {:.0f} N, what is there has {:.0f} N", one.choice.C_N, now.C_N));
        const auto nearness = [&](const BearingChoice& choice) {
            return std::make_tuple(std::fabs(choice.outside_mm - there.outside_mm),
                                   std::fabs(choice.width_mm - there.width_mm), choice.mass_kg);
        };
        std::stable_sort(others.begin(), others.end(), [&](const Tried& a, const Tried& b) {
            return nearness(a.choice) < nearness(b.choice);
        });
        if (now.fails.empty()) {
            draw(index, draws_now_, now);
            if (now.fails.empty()) result.pick = 0;
        }
        const std::size_t watched_now = now.watches.size();
        for (Tried& one : others) {
            if (result.pick < 0 && one.choice.fails.empty() &&
                one.choice.watches.size() <= watched_now) {
                draw(index, drawn(with(index, one.bearing), draws), one.choice);
                if (one.choice.fails.empty()) result.pick = static_cast<int>(result.choices.size());
            }
            result.choices.push_back(std::move(one.choice));
        }
        return result;
    }

    [[nodiscard]] Setup with(std::size_t index, const BearingInput& bearing) const {
        Setup setup = setup_;
        setup.bearings[index] = bearing;
        return setup;
    }

    [[nodiscard]] std::vector<DrawResult> drawn(const Setup& setup,
                                                const BandOptions& options) const {
        std::vector<FastCase::AskedSide> asked;
        for (const Factors& factors : draws_) asked.push_back({&factors, true});
        return FastCase(setup, tables_for(FastUse::everything, options))
            .run(asked, options.for_each);
    }

    /// In how many draws life and oil are good enough, compared with the same draw of the fitted
    /// bearing.
    void draw(std::size_t index, const std::vector<DrawResult>& results,
              BearingChoice& choice) const {
        std::size_t hold = 0;
        for (std::size_t i = 0; i < results.size(); ++i)
            if (life_holds(results[i].life_share[index]) &&
                oil_holds(results[i].peak_oil_degC, draws_now_[i].peak_oil_degC))
                ++hold;
        choice.holds_share = static_cast<double>(hold) / static_cast<double>(results.size());
        if (*choice.holds_share < holding_share)
            choice.fails.push_back(fmt::format(
                "not sure enough: life and oil hold, {:.0f} chances in 100; 90 are asked",
                std::floor(100 * *choice.holds_share)));
    }

    /// A check that is not fine, as the assessment judges it.
    static std::string words_of(const Check& check) {
        if (check.id == CheckId::bearing_life)
            return fmt::format("life: {} % used by one event", percent_figures(check.value));
        if (check.id == CheckId::bearing_dent)
            return fmt::format("dents: margin {}, at least {}", figures(check.value, 2),
                               figures(check.limit, 2));
        if (check.id == CheckId::bearing_speed)
            return fmt::format("cage speed n d_m {:.0f}; limit for this type {:.0f}", check.value,
                               check.limit);
        if (check.id == CheckId::bearing_least_load)
            return fmt::format(
                "too lightly loaded to roll for {:.0f} % of driving time, at most {:.0f} %",
                100 * check.value, 100 * check.limit);
        if (check.id == CheckId::bearing_rating_share)
            return fmt::format("load: {} of its dynamic rating, at most {}",
                               figures(check.value, 2), figures(check.limit, 2));
        if (words_for(check.id).key.starts_with("seat."))
            return fmt::format("seat: {}", check.consequence);
        const std::string unit = check.unit.empty() ? "" : " " + check.unit;
        return fmt::format("{} {}{}, {} {}{}", check.words, figures(check.value, 3), unit,
                           check.at_least ? "at least" : "at most", figures(check.limit, 3), unit);
    }

    [[nodiscard]] std::string pair_words_of(const BearingInput& there) const {
        for (const PairState& pair : now_.checked.pairs)
            if (pair.shaft == there.shaft)
                return fmt::format("pair: {} cold becomes {}; set {} cold",
                                   play_or_preload(pair.cold_end_play_mm), pair_when_hot(pair),
                                   pair_setting(pair));
        return {};
    }

    /// Whole events until the reliability aimed for is reached.
    [[nodiscard]] std::string events_words(double share) const {
        int events = 0;
        while (events < setup_.rules.open_case_events &&
               iso_281::survival((events + 1) * share) >= setup_.aims.rebuild_reliability)
            ++events;
        return events == 0 ? "not one" : fmt::format("{} event{}", events, events == 1 ? "" : "s");
    }

    [[nodiscard]] bool life_holds(double share) const {
        return iso_281::survival(setup_.rules.open_case_events * share) >=
               setup_.aims.rebuild_reliability;
    }
    [[nodiscard]] bool oil_holds(double peak_degC, double peak_now_degC) const {
        return peak_degC <= setup_.limits.oil_watch_degC || peak_degC <= peak_now_degC + same_oil_K;
    }

    [[nodiscard]] BearingChoice tried(std::size_t index, const BearingInput& other,
                                      const std::string& name) const {
        const Setup setup = with(index, other);
        BearingChoice choice;
        try {
            if (other.outside_mm != setup_.bearings[index].outside_mm && other.has_seat)
                refuse_seat(other);
            refuse_half_pair(index, other);
            choice = judged(index, other, run_chain(setup));
        } catch (const Error& error) {
            choice = described(other);
            choice.verdict = "stop";
            choice.fails.emplace_back(error.problems().empty() ? error.what()
                                                               : error.problems().front().text);
        }
        choice.name = name;
        return choice;
    }

    /// One of two that face each other keeps its thick end.
    void refuse_half_pair(std::size_t index, const BearingInput& other) const {
        if (use_of(setup_.bearings[index].kind).thick_end && !use_of(other.kind).thick_end)
            throw Error(Error::Kind::domain,
                        "faces another bearing: only a tapered roller or angular contact ball "
                        "bearing does that; change both and make one locating");
    }

    /// What was assumed of a seat is assumed for the other ring too. The boss round a sleeve stays.
    static void assume_seat(BearingInput& bearing) {
        const bool sleeve = bearing.seat.carrier == Carrier::steel_retainer;
        if (!bearing.seat.boss_assumed || sleeve) return;
        bearing.seat.boss_outside_mm = bearing.seat.assumed
                                           ? assumed_boss_mm(bearing.outside_mm)
                                           : bearing.outside_mm + usual_boss_over_mm;
        bearing.has_seat = bearing.seat.boss_outside_mm.has_value();
    }

    /// A larger ring leaves the boss or retainer too thin for the seat that was described.
    static void refuse_seat(const BearingInput& bearing) {
        const auto& around_mm = bearing.seat.carrier == Carrier::steel_retainer
                                    ? bearing.seat.retainer_outside_mm
                                    : bearing.seat.boss_outside_mm;
        if (around_mm && *around_mm <= bearing.outside_mm)
            throw Error(Error::Kind::domain,
                        fmt::format("seat: a ring of {:g} mm does not go into {:g} mm around it",
                                    bearing.outside_mm, *around_mm));
    }

    static BearingChoice described(const BearingInput& bearing) {
        BearingChoice choice;
        choice.kind = bearing.kind;
        choice.bore_mm = bearing.bore_mm;
        choice.outside_mm = bearing.outside_mm;
        choice.width_mm = bearing.width_mm;
        choice.estimated = !bearing.dynamic_rating_N;
        choice.mass_kg = mass_kg(choice);
        return choice;
    }

    [[nodiscard]] BearingChoice judged(std::size_t index, const BearingInput& bearing,
                                       const Chain& chain) const {
        BearingChoice choice = described(bearing);
        choice.C_N = chain.prepared.loads.bearings[index].C_N;
        choice.life_share = chain.damage.bearings[index].life_share;
        choice.heat_added_W = chain.friction_W - now_.friction_W;
        choice.oil_peak_degC = chain.event.peak_oil_degC;
        const std::string about = "bearing." + bearing.name;
        choice.verdict = "fine";
        for (const Check& check : chain.checked.checks) {
            const bool of_pair =
                check.id == CheckId::pair_gain && check.about == "shaft." + bearing.shaft;
            if (check.about != about && check.about != about + ".seat" && !of_pair) continue;
            if (check.id == CheckId::bearing_dent) choice.dent_margin = check.value;
            if (check.id == CheckId::bearing_speed) {
                choice.cage_speed = check.value;
                // Of its kind, not of the class it is in.
                choice.speed_limit =
                    check.limit / (check.verdict == "watch" ? check_row(check.id).watch.factor : 1);
            }
            if (check.verdict == "stop") {
                choice.verdict = "stop";
                choice.fails.push_back(words_of(check));
            } else if (check.verdict == "watch") {
                if (choice.verdict == "fine") choice.verdict = "watch";
                choice.watches.push_back(words_of(check));
            }
        }
        if (!life_holds(choice.life_share) && choice.life_share <= 1)
            choice.fails.push_back(
                fmt::format("life: {} % used an event, enough for {} at {:g} reliability; the case "
                            "is opened after {:.0f}",
                            percent_figures(choice.life_share), events_words(choice.life_share),
                            setup_.aims.rebuild_reliability, setup_.rules.open_case_events));
        if (!oil_holds(choice.oil_peak_degC, now_.event.peak_oil_degC))
            choice.fails.push_back(fmt::format("oil: {:.0f} degC", choice.oil_peak_degC));
        return choice;
    }

    const BearingsOptions& options_;
    BandOptions band_;
    Setup setup_;
    Chain now_;
    std::vector<Factors> draws_;
    std::vector<DrawResult> draws_now_;
};

}  // namespace

BearingsAnswer choose_bearings(const Document& document, const BearingsOptions& options) {
    return BearingsRun(document, options).run();
}

}  // namespace caseload
