// SPDX-License-Identifier: MIT
// The film of a bearing, and the loss that settles with its temperature.
#include "caseload/losses.hpp"

#include "caseload/formulas/palmgren.hpp"
#include "caseload/units.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>

namespace caseload {
namespace {

// Film temperature is found to this accuracy: its scatter is part of what a ledger may miss.
constexpr double film_tolerance_K = 1e-10;
constexpr std::uintmax_t film_iterations = 150;

double bearing_loss_W(const PreparedLosses::BearingTerm& bearing, double nu_mm2ps) {
    if (bearing.n_rpm <= 0) return 0;
    const double idle_Nmm = palmgren::idle_torque_Nmm(
        {.f0 = bearing.f0, .nu_mm2ps = nu_mm2ps, .n_rpm = bearing.n_rpm, .d_m_mm = bearing.d_m_mm});
    return bearing.friction * Nm_from_Nmm(idle_Nmm + bearing.load_torque_Nmm) *
           radps_from_rpm(bearing.n_rpm);
}

double film_loss_W(const Oil& oil, const PreparedLosses::BearingTerm& bearing, double film_degC) {
    return bearing_loss_W(
        bearing, astm_d341::viscosity_mm2ps(oil.fresh, std::min(film_degC, hottest_film_degC)));
}

struct FilmLoss {
    double loss_W;
    double slope_WpK;
};

/// The same and its slope over film temperature.
FilmLoss film_loss(const Oil& oil, const PreparedLosses::BearingTerm& bearing, double film_degC) {
    const bool followed = film_degC < hottest_film_degC;
    const auto [nu_mm2ps, nu_slope] =
        astm_d341::viscosity_and_slope(oil.fresh, followed ? film_degC : hottest_film_degC);
    const double loss_W = bearing_loss_W(bearing, nu_mm2ps);
    // Idle torque goes with nu^(2/3) where it hangs on nu at all.
    const double per_Nmm = bearing.friction * Nm_from_Nmm(1) * radps_from_rpm(bearing.n_rpm);
    const bool thick = nu_mm2ps * bearing.n_rpm >= palmgren::least_nu_n;
    const double idle_W = loss_W - per_Nmm * bearing.load_torque_Nmm;
    return {loss_W, followed && thick ? idle_W * 2 / 3 * nu_slope / nu_mm2ps : 0};
}

/// From the film to seat and oil.
double film_path_WpK(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                     double oil_temp_degC) {
    return bearing.seat_path_WpK + oil_density_kgpm3(oil, oil_temp_degC) *
                                       oil_specific_heat_JpkgK(oil, oil_temp_degC) *
                                       m3ps_from_Lpmin(bearing.oil_reaching_Lpmin);
}

/// Oil a film gives its heat to, and how easily.
struct FilmPath {
    double oil_degC;
    double path_WpK;
};

/// Film temperature by Newton's rule from one near it: as the loss falls ever less with
/// temperature, from the colder side without a turn. None where it does not settle.
std::optional<double> film_by_newton_degC(const Oil& oil,
                                          const PreparedLosses::BearingTerm& bearing,
                                          const FilmPath& path, double film_degC) {
    // What is left after a step is about a hundredth of its square: 1e-12 K.
    constexpr double last_film_step_K = 1e-5;
    constexpr int most_film_steps = 12;
    for (int step = 0; step < most_film_steps; ++step) {
        const auto [loss_W, slope_WpK] = film_loss(oil, bearing, film_degC);
        const double off_K =
            (film_degC - path.oil_degC - loss_W / path.path_WpK) / (1 - slope_WpK / path.path_WpK);
        film_degC -= off_K;
        if (film_degC < path.oil_degC) film_degC = path.oil_degC;
        if (std::fabs(off_K) < last_film_step_K) return film_degC;
    }
    return std::nullopt;
}

/// The same by bracketing.
double film_by_bracket_degC(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                            const FilmPath& path) {
    const auto missing_K = [&](double film_degC) {
        return film_degC - path.oil_degC - film_loss_W(oil, bearing, film_degC) / path.path_WpK;
    };
    // The loss falls with film temperature: film - oil - loss(film)/path rises monotonically.
    // The bracket's upper end is the rise with the loss of the coldest film and 2 %: the idle
    // torque steps by 0.8 % at nu n = 2000.
    const double at_low_K = missing_K(path.oil_degC);
    const double high_degC = path.oil_degC - 1.02 * at_low_K;
    const auto close = [](double a, double b) { return b - a < film_tolerance_K; };
    std::uintmax_t iterations = film_iterations;
    const auto [low, high] = boost::math::tools::toms748_solve(
        missing_K, path.oil_degC, high_degC, at_low_K, missing_K(high_degC), close, iterations);
    return (low + high) / 2;
}

}  // namespace

BearingRun run_bearing(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                       double oil_temp_degC) {
    return run_bearing_near(oil, bearing, oil_temp_degC, oil_temp_degC);
}

BearingRun run_bearing_near(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                            double oil_temp_degC, double near_degC) {
    if (bearing.n_rpm <= 0) return {0, oil_temp_degC, bearing.n_rpm};
    const FilmPath path{oil_temp_degC, film_path_WpK(oil, bearing, oil_temp_degC)};
    const auto newton_degC =
        film_by_newton_degC(oil, bearing, path, std::max(near_degC, oil_temp_degC));
    const double film_degC = newton_degC ? *newton_degC : film_by_bracket_degC(oil, bearing, path);
    // What the film passes on is its loss.
    return {path.path_WpK * (film_degC - oil_temp_degC), film_degC, bearing.n_rpm};
}

double oil_behind_film_degC(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                            double film_degC) {
    // The path hardly changes with the oil's temperature: a few rounds bring it to the last digits.
    constexpr int rounds = 12;
    constexpr double coldest_degC = -60;
    const double loss_W = film_loss_W(oil, bearing, film_degC);
    double oil_degC = film_degC;
    for (int round = 0; round < rounds; ++round)
        oil_degC =
            film_degC - loss_W / film_path_WpK(oil, bearing, std::max(oil_degC, coldest_degC));
    return oil_degC;
}

}  // namespace caseload
