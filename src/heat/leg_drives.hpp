// SPDX-License-Identifier: MIT
// Heat made and heat paths of a leg's network by its curves, at every step through time.
#pragma once

#include "heat/at_oil.hpp"
#include "heat/curve_made.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace caseload {

/// Curves through the same points, looked up at values near the last: they remember the piece they
/// were on. The same bits as a new look-up.
template <std::size_t N>
class CurvesFollowed {
public:
    explicit CurvesFollowed(const std::array<const Curve::Made*, N>& curves) : curves_(curves) {}

    [[gnu::always_inline]] inline std::array<double, N> operator()(double x) {
        // At a point itself either piece may serve; they differ in a last digit.
        if (!(low_ < x && x < high_)) return looked_up(x);
        std::array<double, N> y;
        const double t = x - low_;
        for (std::size_t k = 0; k < N; ++k)
            y[k] =
                at_low_[k] + t * (pieces_[k].slope + t * (pieces_[k].square + t * pieces_[k].cube));
        return y;
    }

private:
    [[gnu::noinline]] std::array<double, N> looked_up(double x) {
        const Curve::Made& first = *curves_[0];
        const Curve::Made::Place place = first.place(x);
        low_ = first.x[place.node];
        high_ = place.node + 1 < first.x.size() ? first.x[place.node + 1] : low_;
        std::array<double, N> y;
        for (std::size_t k = 0; k < N; ++k) {
            y[k] = curves_[k]->at(place);
            at_low_[k] = curves_[k]->y[place.node];
            pieces_[k] = curves_[k]->pieces[place.node];
        }
        return y;
    }

    std::array<const Curve::Made*, N> curves_;
    double low_ = 0;
    double high_ = 0;  ///< no higher than low_: on no piece
    std::array<double, N> at_low_{};
    std::array<Curve::Made::Piece, N> pieces_{};
};

/// For one event on one thread. The curves must outlive it.
class LegDrives {
public:
    LegDrives(const Prepared& prepared, const LegCurves& curves)
        : case_air_degC_(prepared.case_air_degC),
          cooler_air_degC_(prepared.cooler_air_degC),
          made_W_({curves.oil_W.made(), curves.steel_W.made(), curves.housing_W.made()}),
          outside_W_({curves.outside_W.made()}),
          cooler_W_({curves.cooler_W.made()}) {
        films_.reserve(curves.films_W.size());
        for (std::size_t group = 0; group < curves.films_W.size(); ++group) {
            films_.push_back({bearing_heat::shares(prepared.films[group].paths),
                              CurvesFollowed<1>({curves.films_W[group].made()})});
        }
    }

    [[nodiscard]] Drives at(const AtMoment& moment) {
        const Nodes& nodes = moment.nodes;
        const auto [oil_W, steel_W, housing_W] = made_W_(nodes.oil_degC);
        HeatSplit made{oil_W, steel_W, housing_W};
        for (Film& film : films_) {
            const double loss_W = film.loss_W(mixed_degC(film.shares, nodes))[0];
            made.oil_W += film.shares.oil * loss_W;
            made.steel_W += film.shares.steel * loss_W;
            made.housing_W += film.shares.housing * loss_W;
        }
        return {made,
                path_W(outside_W_, nodes.housing_degC, case_air_degC_),
                path_W(cooler_W_, nodes.oil_degC, cooler_air_degC_),
                moment.beside.exhaust_W,
                moment.paths,
                moment.beside.neighbour_degC};
    }

private:
    /// Beyond the hottest point tabulated in proportion to the difference to its air.
    static double path_W(CurvesFollowed<1>& curve, double temp_degC, double air_degC) {
        if (temp_degC <= hottest_path_degC) return curve(temp_degC)[0];
        return curve(hottest_path_degC)[0] * (temp_degC - air_degC) /
               (hottest_path_degC - air_degC);
    }

    /// Of a group of bearings.
    struct Film {
        bearing_heat::Shares shares;
        CurvesFollowed<1> loss_W;
    };

    double case_air_degC_;
    double cooler_air_degC_;
    CurvesFollowed<3> made_W_;
    CurvesFollowed<1> outside_W_;
    CurvesFollowed<1> cooler_W_;
    std::vector<Film> films_;
};

}  // namespace caseload
