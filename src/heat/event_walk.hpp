// SPDX-License-Identifier: MIT
// The rules of an event, written once: heat of the exhaust, what is switched on, when a leg ends.
// The caller steps the temperatures from one moment to the next.
#pragma once

#include "heat/at_oil.hpp"

#include <cmath>

namespace caseload {

/// Exhaust heat into the housing: that of the driving, or what a stop leaves of it.
struct ExhaustNow {
    double driving_W = 0;
    double kept = 1;  ///< share that stays, 1 while driving; the rest decays
    double stopped_at_s = 0;

    [[nodiscard]] double at_W(double t_s) const {
        if (kept == 1) return driving_W;
        return driving_W * (kept + (1 - kept) * std::exp(-(t_s - stopped_at_s) / exhaust_decay_s));
    }
};

/// Temperature of what the case is bolted to: it keeps that of the driving for a while in a stop,
/// then cools towards the ambient.
struct NeighbourNow {
    double driving_degC = 0;
    double ambient_degC = 0;
    double cools_from_s = 0;  ///< beyond the leg's end while driving

    [[nodiscard]] double at_degC(double t_s) const {
        if (t_s <= cools_from_s) return driving_degC;
        return ambient_degC +
               (driving_degC - ambient_degC) * std::exp(-(t_s - cools_from_s) / neighbour_decay_s);
    }
};

/// Share of the exhaust's heat that stays in a leg.
inline double exhaust_kept(const LegInput& leg) {
    if (leg.kind != LegKind::stop) return 1;
    return leg.engine == Engine::idle ? exhaust_idle_share : 0;
}

/// A part of a leg in which nothing switches.
struct LegStretch {
    bool stop = false;
    double end_s = 0;  ///< of the leg
    Switches on{};
    ExhaustNow exhaust{};
    NeighbourNow neighbour{};

    [[nodiscard]] BesideAt beside(double t_s) const {
        return {exhaust.at_W(t_s), neighbour.at_degC(t_s)};
    }
};

/// State of an event beside its temperatures. A stop at the beginning starts with this exhaust.
struct EventMoment {
    double t_s = 0;
    double exhaust_W = 0;
    double stopped_at_s = 0;
    Latches latches{};
};

/// What the case is bolted to, while driving, and the ambient.
struct BoltedTo {
    double driving_degC = 0;
    double ambient_degC = 0;
};
inline BoltedTo bolted_to(const Prepared& prepared) {
    return {prepared.neighbour_degC, prepared.ambient_degC};
}

/// One for a whole event: the exhaust of a leg lasts over the stops after it. The setup must
/// outlive it; its legs are not read.
class EventWalk {
public:
    EventWalk(const Setup& setup, const Switches& allowed, const BoltedTo& neighbour = {},
              const EventMoment& from = {})
        : now(from),
          setup_(&setup),
          allowed_(allowed),
          neighbour_(neighbour),
          may_switch_(may_switch(setup)) {}

    EventMoment now;

    /// Through one leg. `oil_degC()` is the oil's temperature now; `step(stretch)` goes on from
    /// `now` to the leg's end or to where a switch moves, and returns that time.
    template <class Oil, class Step>
    void leg(const LegInput& input, double exhaust_driving_W, const Oil& oil_degC,
             const Step& step) {
        begin(input, exhaust_driving_W);
        while (goes_on()) now.t_s = step(stretch(oil_degC()));
    }

    /// The same bit by bit. Begins a leg, which must stay until the next one begins.
    void begin(const LegInput& input, double exhaust_driving_W) {
        leg_ = &input;
        end_s_ = now.t_s + input.duration_s;
        if (input.kind == LegKind::stop) return;
        now.exhaust_W = exhaust_driving_W;
        now.stopped_at_s = end_s_;
    }
    /// Whether the leg begun is not over yet.
    [[nodiscard]] bool goes_on() const { return now.t_s < end_s_; }
    /// What is on from now, the switches moved to where they are at this oil temperature.
    LegStretch stretch(double oil_degC) {
        if (may_switch_) now.latches = latches_at(*setup_, now.latches, oil_degC);
        return {leg_->kind == LegKind::stop,
                end_s_,
                in_leg(*setup_, *leg_, allowed_, now.latches),
                {now.exhaust_W, exhaust_kept(*leg_), now.stopped_at_s},
                {neighbour_.driving_degC, neighbour_.ambient_degC,
                 now.stopped_at_s + neighbour_keeps_s}};
    }

    [[nodiscard]] bool may_move() const { return may_switch_; }
    /// Whether a switch moves at this oil temperature.
    [[nodiscard]] bool moves(double oil_degC) const {
        return !(latches_at(*setup_, now.latches, oil_degC) == now.latches);
    }

private:
    const Setup* setup_;
    Switches allowed_;
    BoltedTo neighbour_;
    bool may_switch_;
    const LegInput* leg_ = nullptr;
    double end_s_ = 0;
};

}  // namespace caseload
