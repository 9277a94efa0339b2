// SPDX-License-Identifier: MIT
// The heat networks of four legs at once, each of another draw.
#pragma once

#include "ask/fast_leg.hpp"
#include "heat/event_walk.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace caseload {

/// What flows at one state, as temperature rates, and by how much more a grid point on.
struct FlowsAt {
    Three own_Kps{};  ///< by heat made in a node, less the cooler's
    Three own_rise_Kps{};
    /// How what bearings lose changes with each node, a kelvin.
    std::array<Three, 3> films_by_state{};
    Four outside_Kps{};
    Four outside_rise_Kps{};
    Four decaying_Kps{};  ///< of the part of the exhaust heat that decays
    Four neighbour_degC{};
    Four neighbour_Kps{};  ///< how fast it cools
};

/// The networks of four legs, each of another draw.
class FourLegs {
public:
    explicit FourLegs(const FastTables& tables)
        : fine_(tables.fine),
          outside_(tables.outside),
          films_(tables.films.size()),
          neighbour_(tables.setup.housing.neighbour_WpK > 0 ||
                     tables.setup.unknown.neighbour_path) {}

    void enter(std::size_t k, DrawnLeg& leg, const LegStretch& stretch) {
        const ExhaustNow& exhaust = stretch.exhaust;
        now_[k] = &leg;
        air_degC_.set(k, leg.air_degC);
        per_housing_KpJ_.set(k, leg.per_housing_KpJ);
        oil_to_housing_ps_.set(k, leg.oil_to_housing_ps);
        oil_to_steel_ps_.set(k, leg.oil_to_steel_ps);
        housing_to_oil_ps_.set(k, leg.housing_to_oil_ps);
        housing_to_steel_ps_.set(k, leg.housing_to_steel_ps);
        steel_to_oil_ps_.set(k, leg.steel_to_oil_ps);
        steel_to_housing_ps_.set(k, leg.steel_to_housing_ps);
        exhaust_Kps_.set(k, exhaust.driving_W * exhaust.kept * leg.per_housing_KpJ);
        decaying_Kps_.set(k, exhaust.driving_W * (1 - exhaust.kept) * leg.per_housing_KpJ);
        decays_from_s_.set(k, exhaust.stopped_at_s);
        neighbour_ps_.set(k, leg.neighbour_ps);
        neighbour_degC_.set(k, stretch.neighbour.driving_degC);
        ambient_degC_.set(k, stretch.neighbour.ambient_degC);
        cools_from_s_.set(k, stretch.neighbour.cools_from_s);
        turns_.set(k, !leg.films().empty());
        for (std::size_t group = 0; group < leg.films().size(); ++group) {
            films_[group].housing.set(k, leg.films()[group].housing);
            films_[group].steel.set(k, leg.films()[group].steel);
        }
        decays_ = ((decaying_Kps_ < 0.0) | (decaying_Kps_ > 0.0)).any();
    }
    // Inlined, it calculates only what is used of it: the middle of a step wants no slopes.
    template <bool slopes = true>
    [[gnu::always_inline]] inline void flows(const Four& t_s, const Three& y, FlowsAt& at) {
        const GridPlaces::FourPlaces oil = fine_.of(y[0]);
        Four own_Kps[at_once];
        Four rise_Kps[at_once];
        for (std::size_t k = 0; k < at_once; ++k) {
            const Four* low = now_[k]->own_Kps(oil.i[k]);
            rise_Kps[k] = low[1] - low[0];
            own_Kps[k] = low[0] + oil.part[k] * rise_Kps[k];
        }
        turn<slopes>(y, own_Kps, at);
        columns(own_Kps, at.own_Kps[0], at.own_Kps[1], at.own_Kps[2]);
        columns(rise_Kps, at.own_rise_Kps[0], at.own_rise_Kps[1], at.own_rise_Kps[2]);
        const GridPlaces::FourPlaces above = outside_.of(y[1] - air_degC_);
        const double* outside_W[at_once];
        for (std::size_t k = 0; k < at_once; ++k) outside_W[k] = now_[k]->outside_W(above.i[k]);
        const Four here_W(outside_W[0][0], outside_W[1][0], outside_W[2][0], outside_W[3][0]);
        const Four next_W(outside_W[0][1], outside_W[1][1], outside_W[2][1], outside_W[3][1]);
        at.outside_rise_Kps = (next_W - here_W) * per_housing_KpJ_;
        at.outside_Kps = here_W * per_housing_KpJ_ + above.part * at.outside_rise_Kps;
        at.decaying_Kps = Four{};
        if (decays_)
            at.decaying_Kps = decaying_Kps_ * fast_exp((decays_from_s_ - t_s) / exhaust_decay_s);
        if (neighbour_) cool_neighbour(t_s, at);
    }
    [[nodiscard, gnu::always_inline]] inline Three value(const Three& y, const FlowsAt& at) const {
        const Four oil_housing_K = y[0] - y[1];
        const Four oil_steel_K = y[0] - y[2];
        const Four steel_housing_K = y[2] - y[1];
        Three all{
            at.own_Kps[0] - oil_to_housing_ps_ * oil_housing_K - oil_to_steel_ps_ * oil_steel_K,
            at.own_Kps[1] + housing_to_oil_ps_ * oil_housing_K +
                housing_to_steel_ps_ * steel_housing_K - at.outside_Kps + exhaust_Kps_ +
                at.decaying_Kps,
            at.own_Kps[2] + steel_to_oil_ps_ * oil_steel_K -
                steel_to_housing_ps_ * steel_housing_K};
        if (neighbour_) all[1] += neighbour_ps_ * (at.neighbour_degC - y[1]);
        return all;
    }
    /// Where `f` is the value.
    [[nodiscard, gnu::always_inline]] inline SlopeAt slope(const Three& f,
                                                           const FlowsAt& at) const {
        const double per_K = fine_.points_per_x();
        SlopeAt all{f,
                    {{{at.own_rise_Kps[0] * per_K - (oil_to_housing_ps_ + oil_to_steel_ps_),
                       oil_to_housing_ps_, oil_to_steel_ps_},
                      {at.own_rise_Kps[1] * per_K + housing_to_oil_ps_,
                       -(housing_to_oil_ps_ + housing_to_steel_ps_) -
                           at.outside_rise_Kps * outside_.points_per_x(),
                       housing_to_steel_ps_},
                      {at.own_rise_Kps[2] * per_K + steel_to_oil_ps_, steel_to_housing_ps_,
                       -(steel_to_oil_ps_ + steel_to_housing_ps_)}}},
                    -at.decaying_Kps / exhaust_decay_s};
        for (std::size_t i = 0; i < f.size(); ++i)
            for (std::size_t j = 0; j < f.size(); ++j)
                all.by_state[i][j] += at.films_by_state[i][j];
        if (neighbour_) {
            all.by_state[1][1] += -neighbour_ps_;
            all.housing_by_time += neighbour_ps_ * at.neighbour_Kps;
        }
        return all;
    }
    [[nodiscard]] const GridPlaces& fine() const { return fine_; }

private:
    /// Adds what bearings lose at the temperatures of their films.
    template <bool slopes>
    [[gnu::always_inline]] inline void turn(const Three& y, Four (&own_Kps)[at_once], FlowsAt& at) {
        if (slopes) at.films_by_state = {};
        const Four housing_K = y[1] - y[0];
        const Four steel_K = y[2] - y[0];
        for (std::size_t group = 0; group < films_.size(); ++group) {
            const Mixed& mixed = films_[group];
            const GridPlaces::FourPlaces film =
                fine_.of(y[0] + mixed.housing * housing_K + mixed.steel * steel_K);
            Four rise_Kps[at_once];
            for (std::size_t k = 0; k < at_once; ++k) {
                if (!turns_[k]) continue;
                const Four* low = now_[k]->film_Kps(group, film.i[k]);
                rise_Kps[k] = low[1] - low[0];
                own_Kps[k] += low[0] + film.part[k] * rise_Kps[k];
            }
            if (!slopes) continue;
            Three by_film_ps;
            columns(rise_Kps, by_film_ps[0], by_film_ps[1], by_film_ps[2]);
            for (std::size_t i = 0; i < y.size(); ++i) {
                by_film_ps[i] = by_film_ps[i] * fine_.points_per_x();
                const Four by_housing = by_film_ps[i] * mixed.housing;
                const Four by_steel = by_film_ps[i] * mixed.steel;
                at.films_by_state[i][0] += by_film_ps[i] - by_housing - by_steel;
                at.films_by_state[i][1] += by_housing;
                at.films_by_state[i][2] += by_steel;
            }
        }
    }
    [[gnu::always_inline]] inline void cool_neighbour(const Four& t_s, FlowsAt& at) const {
        const Four since_s = t_s - cools_from_s_;
        const FourMask cools = since_s > 0.0;
        const Four excess_K = (neighbour_degC_ - ambient_degC_) *
                              fast_exp(where(cools, -since_s / neighbour_decay_s, Four{}));
        at.neighbour_degC = where(cools, ambient_degC_ + excess_K, neighbour_degC_);
        at.neighbour_Kps = where(cools, -excess_K / neighbour_decay_s, Four{});
    }

    GridPlaces fine_;
    GridPlaces outside_;
    std::array<DrawnLeg*, at_once> now_{};
    Four air_degC_{};
    Four per_housing_KpJ_{};
    // Temperature rates by a kelvin between two nodes.
    Four oil_to_housing_ps_{};
    Four oil_to_steel_ps_{};
    Four housing_to_oil_ps_{};
    Four housing_to_steel_ps_{};
    Four steel_to_oil_ps_{};
    Four steel_to_housing_ps_{};
    Four exhaust_Kps_{};
    Four decaying_Kps_{};
    Four decays_from_s_{};
    bool decays_ = false;
    /// Of a group of bearings: shares by which the temperature of their films is mixed.
    struct Mixed {
        Four housing;
        Four steel;
    };
    std::vector<Mixed> films_;
    FourMask turns_{};
    bool neighbour_;  ///< bolted to something that gives or takes heat
    Four neighbour_ps_{};
    Four neighbour_degC_{};
    Four ambient_degC_{};
    Four cools_from_s_{};
};

}  // namespace caseload
