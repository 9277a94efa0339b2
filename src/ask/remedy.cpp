// SPDX-License-Identifier: MIT
#include "caseload/ask/remedy.hpp"

#include "ask/pace.hpp"
#include "caseload/ask/cooler.hpp"
#include "caseload/ask/failure.hpp"
#include "caseload/ask/pairs.hpp"
#include "caseload/ask/verdict.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace caseload {
namespace {

// Steps a driver can be given and keep to. Judgement.
constexpr double tried_pace_step = 0.05;
// Gained by a start in the cool of the morning. Judgement.
constexpr double colder_air_K = 10;

std::string core_words(const CoreResult& core) {
    return fmt::format("a core of {:g}x{:g}x{:g} mm ({}, {} duct, {})", core.width_mm,
                       core.height_mm, core.depth_mm, core.construction, core.duct,
                       core.fan_face_speed_mps > 0
                           ? fmt::format("fan of {:g} m/s at the face", core.fan_face_speed_mps)
                           : "no fan");
}

class Trying {
public:
    Trying(const Document& document, const Setup& setup, const Assessment& likely, const Band& band,
           const BandOptions& options)
        : document_(document),
          setup_(setup),
          options_(options),
          pairs_(likely.fitted.checked.pairs),
          too_hot_(band.oil_word == "stop") {}

    std::vector<Attempt> run() {
        const bool done = looser_pair() || cooler_on() || core() || pace() || colder_air();
        static_cast<void>(done);
        return std::move(tried_);
    }

private:
    struct Judged {
        Assessment likely;
        Band band;
    };
    [[nodiscard]] Judged judged(const Setup& setup) const {
        Assessment likely = verdict_answer(setup);
        Band sure = verdict_band(setup, likely, options_);
        return {std::move(likely), std::move(sure)};
    }

    /// Its verdict is no longer stop, and the likely oil stays at or below the watch limit if the
    /// oil was what stopped it.
    [[nodiscard]] bool runs(const Band& band) const {
        return band.verdict != "stop" &&
               (!too_hot_ || band.fitted.peak_oil_degC.p50 <= setup_.limits.oil_watch_degC);
    }
    [[nodiscard]] bool holds(const Band& band) const {
        return runs(band) && (!too_hot_ || band.fitted.holds_share >= holding_share);
    }

    bool add(Attempt attempt, const Setup& setup, const Judged& with, bool enough) {
        attempt.runs = enough;
        attempt.verdict = with.band.verdict;
        attempt.reason = verdict_reason(setup, with.likely, with.band);
        attempt.oil_degC = with.band.fitted.peak_oil_degC;
        tried_.push_back(std::move(attempt));
        return enough;
    }

    /// The setup with its own core on; none where it enters no core or has no pump.
    [[nodiscard]] std::optional<Setup> own_core_on() const {
        if (setup_.cooler.fit) return std::nullopt;
        const Change fit{"cooler.fit", "true"};
        try {
            return document_.complete({&fit, 1}).setup;
        } catch (const Error&) {
            return std::nullopt;
        }
    }

    /// Facing pairs that heat the oil by their preload, set as they should be.
    bool looser_pair() {
        Setup looser = setup_;
        std::string words;
        for (const PairState& pair : pairs_) {
            if (!set_too_tight(pair)) continue;
            ShaftInput& shaft = looser.shafts.at(pair.shaft);
            shaft.preload_N.reset();
            shaft.turning_torque_Nm.reset();
            shaft.end_play_mm = pair.set_end_play_mm;
            words += (words.empty() ? "" : ", ") + looser_words(pair);
        }
        if (words.empty()) return false;
        const Judged with = judged(looser);
        return add({.what = "pair", .words = words}, looser, with, runs(with.band));
    }

    bool cooler_on() {
        const std::optional<Setup> on = own_core_on();
        if (!on) return false;
        const Judged with = judged(*on);
        return add({.what = "cooler_on", .words = "the entered cooler on"}, *on, with,
                   runs(with.band));
    }

    bool core() {
        if (!setup_.lubrication.pump) return false;
        CoolerOptions options;
        options.band = options_;
        const CoolerAnswer sizes = size_cooler(document_, options);
        if (sizes.found.empty()) return false;  // the oil needs none
        const bool found = sizes.pick >= 0;
        const CoreResult& core = sizes.found[static_cast<std::size_t>(std::max(sizes.pick, 0))];
        const Setup fitted = with_found_core(setup_, core);
        const Judged with = judged(fitted);
        Attempt attempt{.what = "core", .words = core_words(core)};
        if (!found)
            attempt.words = fmt::format("a core of up to {:g}x{:g}x{:g} mm", core.width_mm,
                                        core.height_mm, core.depth_mm);
        return add(std::move(attempt), fitted, with, found && holds(with.band));
    }

    [[nodiscard]] Setup slower(double share) const {
        Setup setup = setup_;
        for (LegInput& leg : setup.event.legs)
            if (leg.kind == LegKind::drive) slow_down(leg, share);
        return setup;
    }

    bool pace() {
        const auto& legs = setup_.event.legs;
        if (std::none_of(legs.begin(), legs.end(),
                         [](const LegInput& leg) { return leg.kind == LegKind::drive; }))
            return false;
        const int steps = static_cast<int>(std::lround((1 - least_pace_share) / tried_pace_step));
        for (int step = 1; step <= steps; ++step) {
            const double share = 1 - step * tried_pace_step;
            const Setup setup = slower(share);
            const bool last = step == steps;
            if (!last) {
                // What the middle of the inputs does not do, 9 chances in 10 do not.
                const Assessment first = verdict_answer(setup);
                const bool too_hot =
                    too_hot_ && first.fitted.event.peak_oil_degC > setup_.limits.oil_watch_degC;
                if (!first.stopped_by.empty() || too_hot) continue;
            }
            const Judged with = judged(setup);
            const bool enough = holds(with.band);
            if (!last && !enough) continue;
            Attempt attempt{.what = "pace", .pace_share = share};
            attempt.words =
                enough ? pace_words(share, setup)
                       : fmt::format("a slower pace, down to {:.0f} %", 100 * least_pace_share);
            return add(std::move(attempt), setup, with, enough);
        }
        return false;
    }

    [[nodiscard]] std::string pace_words(double share, const Setup& slower) const {
        std::string words = fmt::format("{:.0f} % of the pace on every leg", 100 * share);
        const Assessment likely = first_answer(slower);
        const LegAnswer* hottest = hottest_leg(setup_, likely.fitted);
        if (hottest == nullptr) return words;
        const LegInput& leg = setup_.event.legs[static_cast<std::size_t>(hottest->leg)];
        if (leg.course_pace_mps > 0)
            words += fmt::format(" ({} at {:.0f} km/h)", leg.name,
                                 kmph_from_mps(share * leg.course_pace_mps));
        return words;
    }

    bool colder_air() {
        Setup colder = setup_;
        colder.event.ambient_degC -= colder_air_K;
        const Judged with = judged(colder);
        return add({.what = "colder_air",
                    .words = fmt::format("air {:g} K cooler ({:.0f} degC)", colder_air_K,
                                         colder.event.ambient_degC)},
                   colder, with, runs(with.band));
    }

    const Document& document_;
    const Setup& setup_;
    const BandOptions& options_;
    const std::vector<PairState>& pairs_;
    bool too_hot_;  ///< the oil is a reason for stop, whatever the checks say
    std::vector<Attempt> tried_;
};

}  // namespace

const Attempt* first_that_runs(const Remedy& remedy) {
    return remedy.tried.empty() || !remedy.tried.back().runs ? nullptr : &remedy.tried.back();
}

Remedy remedy(const Document& document, const Setup& setup, const Assessment& likely,
              const Band& band, const BandOptions& options) {
    if (band.verdict != "stop") return {};
    return {verdict_reason(setup, likely, band),
            Trying(document, setup, likely, band, options).run()};
}

}  // namespace caseload
