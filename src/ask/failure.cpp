// SPDX-License-Identifier: MIT
#include "caseload/ask/failure.hpp"

#include "ask/pace.hpp"
#include "caseload/error.hpp"
#include "heat/at_oil.hpp"
#include "heat/event_walk.hpp"
#include "heat/leg_drives.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

constexpr double driven_on_s = 12 * 3600;

std::string loss_words(const std::string& what) {
    if (what == "front_shaft") return "without the front shaft";
    if (what == "half_core") return "with half the core";
    return "without the " + what;
}

[[noreturn]] void refuse(const std::string& what, const std::string& lacks) {
    refuse_input(fmt::format("--without {}: the setup has no {}", what, lacks),
                 "--without takes pump, fan, front_shaft or half_core");
}

/// The setup once it has failed, and what is switched off in it.
struct Failed {
    Setup setup;
    Switches allowed;
    bool dry = false;
};

Failed failed_setup(const Setup& setup, const std::string& what) {
    Failed failed{setup, {}, false};
    if (what == "pump") {
        if (!setup.lubrication.pump) refuse(what, "pump");
        failed.allowed = {.cooler = false, .pump = false, .fan = false};
        if (setup.lubrication.method != Method::scavenged) return failed;
        const OilAtBottom oil = oil_at_bottom(setup, place_train(setup));
        failed.dry = oil.tip_depth_mm <= 0;
        if (!failed.dry) failed.setup = with_pump_dead(setup, oil.tip_depth_mm);
    } else if (what == "fan") {
        if (!setup.cooler.fit || setup.cooler.fan_face_speed_mps <= 0) refuse(what, "fan");
        failed.allowed.fan = false;
    } else if (what == "half_core") {
        if (!setup.cooler.fit) refuse(what, "cooler");
        // Half the face carries half the rated heat.
        failed.setup.cooler.width_mm /= 2;
        failed.setup.cooler.rating.heat_W /= 2;
        failed.setup.cooler.conductance_WpK /= 2;
    } else if (what == "front_shaft") {
        if (std::none_of(setup.joints.begin(), setup.joints.end(),
                         [](const JointInput& joint) { return joint.end == End::front; }))
            refuse(what, "driven front shaft");
        for (LegInput& leg : failed.setup.event.legs)
            if (leg.kind == LegKind::drive) leg.front_drive = false;
    } else {
        refuse_input(fmt::format("--without {}: not known", what),
                     "--without takes pump, fan, front_shaft or half_core");
    }
    return failed;
}

/// The network of the failed setup, driven on from where it failed.
class DrivenOn {
public:
    DrivenOn(const Failed& failed, std::size_t leg)
        : setup_(failed.setup), allowed_(failed.allowed), leg_(leg), prepared_(prepare(setup_)) {}

    /// Seconds until the oil is at this temperature; -1: not while it is driven on.
    [[nodiscard]] double seconds_to(double limit_degC, Nodes nodes) const {
        if (nodes.oil_degC >= limit_degC) return 0;
        LegInput on = setup_.event.legs[leg_];
        on.duration_s = driven_on_s;
        EventWalk walk(setup_, allowed_, bolted_to(prepared_));
        double passed_s = -1;
        const auto step = [&](const LegStretch& stretch) {
            const LegCurves curves = leg_curves(prepared_, leg_, stretch.on);
            LegDrives by_curves(prepared_, curves);
            const auto drives = [&](double t_s, const Nodes& n) {
                return by_curves.at({n, stretch.beside(t_s), prepared_.driving});
            };
            const double t_s = integrate(
                prepared_.capacities, nodes, {walk.now.t_s, stretch.end_s, 60}, drives,
                [](double, const Nodes&) {},
                [&](const Nodes& n) { return n.oil_degC >= limit_degC || walk.moves(n.oil_degC); });
            if (nodes.oil_degC < limit_degC - 1e-3) return t_s;
            passed_s = t_s;
            return stretch.end_s;
        };
        walk.leg(on, exhaust_driving_W(prepared_, leg_), [&] { return nodes.oil_degC; }, step);
        return passed_s;
    }

private:
    Setup setup_;
    Switches allowed_;
    std::size_t leg_;
    Prepared prepared_;
};

/// Settled oil less the limit when the leg is driven at a share of its pace.
double above_limit_K(const Failed& failed, std::size_t leg, double share) {
    Setup slower = failed.setup;
    slow_down(slower.event.legs[leg], share);
    const Prepared prepared = prepare(slower);
    const Steady rest = steady(prepared, leg, failed.allowed);
    return (rest.found ? rest.nodes.oil_degC : oil_ceiling_degC + 1) - slower.limits.oil_watch_degC;
}

std::string minutes(double s) {
    return fmt::format("{:.0f} min", std::floor(s / 60));
}

std::string decide(const Setup& setup, const Failure& found, bool stopped) {
    const std::string words = loss_words(found.what);
    if (stopped)
        return fmt::format("Do not run it, {} or not: a check says STOP, caseload assess which.",
                           words);
    const std::string watch = fmt::format("{:.4g} degC", setup.limits.oil_watch_degC);
    if (found.dry)
        return "Stop at once without the pump: its oil lies below the gears and nothing oils them.";
    if (found.watch_after_s < 0 && found.pace_share >= 1)
        return fmt::format("Drive on {}: the oil stays below {} at the full pace.", words, watch);
    const std::string slower =
        found.pace_share > 0 ? fmt::format("slow to {:.0f} % of the pace, where it stays below {}",
                                           std::floor(100 * found.pace_share), watch)
                             : fmt::format("no pace from 10 % on keeps it below {}", watch);
    if (found.stop_after_s >= 0)
        return fmt::format(
            "{} {}{}: the oil passes {:.4g} degC {}; {}.",
            found.pace_share > 0 ? "Slow down" : "Stop", words,
            found.stop_after_s < 60 ? " at once" : "", setup.limits.oil_stop_degC,
            found.stop_after_s <= 0 ? "at the failure" : "after " + minutes(found.stop_after_s),
            slower);
    return fmt::format(
        "Slow down {}: the oil passes {} {}; {}.", words, watch,
        found.watch_after_s <= 0 ? "at the failure" : "after " + minutes(found.watch_after_s),
        slower);
}

}  // namespace

Failure failure(const Setup& setup, const Assessment& likely, const std::string& what) {
    const Failed failed = failed_setup(setup, what);
    const EventHeat& event = likely.fitted.event;
    const RunPeak* hottest = nullptr;
    for (const RunPeak& run : event.runs)
        if (setup.event.legs[static_cast<std::size_t>(run.leg)].kind == LegKind::drive &&
            (hottest == nullptr || run.peak_oil_degC > hottest->peak_oil_degC))
            hottest = &run;
    Failure found;
    found.what = what;
    if (hottest == nullptr) refuse(what, "drive leg");
    const auto leg = static_cast<std::size_t>(hottest->leg);
    found.leg = setup.event.legs[leg].name;
    found.at_s = (hottest->start_s + hottest->end_s) / 2;
    const auto moment = std::min_element(
        event.samples.begin(), event.samples.end(), [&](const Sample& a, const Sample& b) {
            return std::fabs(a.t_s - found.at_s) < std::fabs(b.t_s - found.at_s);
        });
    found.oil_degC = moment->nodes.oil_degC;
    found.dry = failed.dry;
    found.entered_bins = setup.event.legs[leg].course_lines.empty();
    if (!found.dry) {
        const DrivenOn driven(failed, leg);
        found.watch_after_s = driven.seconds_to(setup.limits.oil_watch_degC, moment->nodes);
        found.stop_after_s = driven.seconds_to(setup.limits.oil_stop_degC, moment->nodes);
        found.pace_share =
            highest_pace([&](double share) { return above_limit_K(failed, leg, share); });
    }
    const auto& checks = likely.fitted.checked.checks;
    const bool stopped = !likely.stopped_by.empty() ||
                         std::any_of(checks.begin(), checks.end(),
                                     [](const Check& check) { return check.verdict == "stop"; });
    found.decision = decide(setup, found, stopped);
    return found;
}

}  // namespace caseload
