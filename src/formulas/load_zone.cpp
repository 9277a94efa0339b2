// SPDX-License-Identifier: MIT
#include "caseload/formulas/load_zone.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <math.h>  // NOLINT(modernize-deprecated-headers): Boost 1.74's interpolators call isnan unqualified

#include <boost/math/interpolators/makima.hpp>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace caseload::load_zone {

using element_stiffness::exponent;

namespace {

constexpr double least_eps = 1e-3;
constexpr double largest_eps = 2e3;
constexpr double no_play_eps = 0.5;

double zone_load_exponent(Contact contact) {
    return contact == Contact::ball ? 10.0 / 3 : 9.0 / 2;
}

double play_at(Contact contact, double eps, double J_r) {
    return (1 - 2 * eps) / eps / std::pow(J_r, 1 / exponent(contact));
}

/// (J / J_r) over the same without play.
struct Ratios {
    double turning;
    double standing;
    double moment;
};
Ratios ratios(const Means& here, const Means& no_play) {
    const auto over = [&](double Means::* mean) {
        return here.*mean / here.load / (no_play.*mean / no_play.load);
    };
    return {over(&Means::turning), over(&Means::standing), over(&Means::moment)};
}

double factor_of(Contact contact, const Ratios& r) {
    constexpr double g = 0.12;
    const bool ball = contact == Contact::ball;
    const double E = zone_load_exponent(contact);
    const double narrow = (1 - g) / (1 + g);
    const double u =
        std::pow(ball ? 1.044 * std::pow(narrow, 1.72) : 1.038 * std::pow(narrow, 143.0 / 108), E);
    const double power = ball ? 9.0 / 10 / 3 : 8.0 / 9 / 4;
    return std::pow((std::pow(r.turning, E) + u * std::pow(r.standing, E)) / (1 + u), power);
}

const Means& without_play(Contact contact) {
    static const Means ball = means(Contact::ball, no_play_eps);
    static const Means roller = means(Contact::roller, no_play_eps);
    return contact == Contact::ball ? ball : roller;
}

using Spline = boost::math::interpolators::makima<std::vector<double>>;
/// ln k and ln k_M over asinh(x), at values of eps from the largest down.
struct Table {
    double least_x;
    double largest_x;
    double factor_at_least;
    double moment_at_least;
    Spline ln_factor;
    Spline ln_moment;
};

Table make_table(Contact contact) {
    const Means& no_play = without_play(contact);
    std::vector<double> place;
    std::vector<double> ln_factor;
    std::vector<double> ln_moment;
    std::vector<double> x;
    const auto add = [&](double eps) {
        const Means here = means(contact, eps);
        x.push_back(play_at(contact, eps, here.load));
        place.push_back(std::asinh(x.back()));
        ln_factor.push_back(std::log(zone_factor(contact, here)));
        ln_moment.push_back(std::log(here.moment / here.load / (no_play.moment / no_play.load)));
    };
    // Points in the logarithm of eps, with one at no play and one where all elements carry.
    const auto add_from = [&](double from, double to, int pieces) {
        for (int i = 0; i < pieces; ++i) add(from * std::pow(to / from, double(i) / pieces));
    };
    add_from(largest_eps, 2, 55);
    add_from(2, 1, 24);
    add_from(1, no_play_eps, 12);
    add_from(no_play_eps, least_eps, 40);
    add(least_eps);
    const double least_x = x.front();
    const double largest_x = x.back();
    const double factor_at_least = std::exp(ln_factor.front());
    const double moment_at_least = std::exp(ln_moment.front());
    std::vector<double> same_place = place;
    return {least_x,
            largest_x,
            factor_at_least,
            moment_at_least,
            Spline(std::move(place), std::move(ln_factor)),
            Spline(std::move(same_place), std::move(ln_moment))};
}

const Table& table(Contact contact) {
    static const Table ball = make_table(Contact::ball);
    static const Table roller = make_table(Contact::roller);
    return contact == Contact::ball ? ball : roller;
}

double spread_evenly(Contact contact, double at_least, double x_over_least) {
    return at_least * std::pow(x_over_least, exponent(contact));
}

}  // namespace

Means means(Contact contact, double eps) {
    require_within(eps, {least_eps, largest_eps}, "eps");
    const bool ball = contact == Contact::ball;
    const double n = exponent(contact);
    const double s_turning = ball ? 3 : 4;
    const double s_standing = zone_load_exponent(contact);
    const double half_zone_rad = rad_from_deg(half_zone_deg(eps));
    Means sums{};
    const auto add = [&](double place, double weight) {
        // Towards the edge of the zone as 1 - t^2: what ends there in a broken power is then smooth
        // enough for the rule.
        const double t = (1 + place) / 2;
        const double psi = half_zone_rad * (1 - t * t);
        const double half_sine = std::sin(psi / 2);
        const double load = std::pow(std::max(1 - half_sine * half_sine / eps, 0.0), n);
        const double part = weight * t * half_zone_rad / pi;  // 2 t over an interval twice as long
        sums.load += part * load * (1 - 2 * half_sine * half_sine);
        sums.moment += part * load;
        const double cube = load * load * load;
        sums.turning += part * (ball ? cube : cube * load);
        sums.standing += part * std::pow(load, s_standing);
    };
    using Rule = boost::math::quadrature::gauss<double, 30>;
    for (std::size_t i = 0; i < Rule::abscissa().size(); ++i) {
        add(Rule::abscissa()[i], Rule::weights()[i]);
        add(-Rule::abscissa()[i], Rule::weights()[i]);
    }
    sums.turning = std::pow(sums.turning, 1 / s_turning);
    sums.standing = std::pow(sums.standing, 1 / s_standing);
    return sums;
}

double half_zone_deg(double eps) {
    require_positive(eps, "eps");
    return deg_from_rad(std::acos(std::max(1 - 2 * eps, -1.0)));
}

double play_number(Contact contact, const Played& played) {
    require_within(played.play_mm, {-5, 5}, "play_mm");
    require_positive(played.stiffness_N, "stiffness_N");
    require_positive(played.F_r_N, "F_r_N");
    require_positive(played.Z, "Z");
    return played.play_mm *
           std::pow(played.Z * played.stiffness_N / played.F_r_N, 1 / exponent(contact));
}

double zone_eps(Contact contact, double x) {
    const auto over = [&](double ln_eps) {
        const double eps = std::clamp(std::exp(ln_eps), least_eps, largest_eps);
        return std::asinh(play_at(contact, eps, means(contact, eps).load)) - std::asinh(x);
    };
    const double low = std::log(least_eps);
    const double high = std::log(largest_eps);
    const double at_low = over(low);
    const double at_high = over(high);
    if (at_low <= 0) return least_eps;
    if (at_high >= 0) return largest_eps;
    std::uintmax_t most_steps = 100;
    const auto ends = boost::math::tools::toms748_solve(
        over, low, high, at_low, at_high, boost::math::tools::eps_tolerance<double>(45),
        most_steps);
    return std::exp((ends.first + ends.second) / 2);
}

double zone_play_number(Contact contact, double eps) {
    return play_at(contact, eps, means(contact, eps).load);
}

double zone_factor(Contact contact, const Means& zone) {
    return factor_of(contact, ratios(zone, without_play(contact)));
}

double play_factor(Contact contact, double x) {
    if (x >= 0)
        return contact == Contact::ball ? std::pow(1 + 0.1328 * x, 0.2439)
                                        : std::pow(1 + 0.1049 * x, 0.2479);
    const Table& t = table(contact);
    if (x < t.least_x) return spread_evenly(contact, t.factor_at_least, x / t.least_x);
    return std::exp(t.ln_factor(std::asinh(x)));
}

double largest_play_factor(Contact contact, int Z) {
    require_positive(Z, "Z");
    return contact == Contact::ball ? 0.407 * std::pow(Z, 2.0 / 3) : 0.378 * std::pow(Z, 3.0 / 4);
}

double moment_factor(Contact contact, double x) {
    const Table& t = table(contact);
    if (x < t.least_x) return spread_evenly(contact, t.moment_at_least, x / t.least_x);
    return std::exp(t.ln_moment(std::asinh(std::min(x, t.largest_x))));
}

Factors factors(Contact contact, const Played& played) {
    if (played.F_r_N < least_load_N) return {};
    return {load_factor(contact, played), moment_factor(contact, play_number(contact, played))};
}

double load_factor(Contact contact, const Played& played) {
    if (played.F_r_N < least_load_N) return 1;
    const double x = play_number(contact, played);
    const double k = play_factor(contact, x);
    return x > 0 ? std::min(k, std::max(largest_play_factor(contact, played.Z), 1.0)) : k;
}

}  // namespace caseload::load_zone
