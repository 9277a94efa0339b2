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
#include <vector>

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

/// What a film is without loss, and how easily it gives heat.
struct FilmPath {
    double unheated_degC;
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
        const double off_K = (film_degC - path.unheated_degC - loss_W / path.path_WpK) /
                             (1 - slope_WpK / path.path_WpK);
        film_degC -= off_K;
        if (film_degC < path.unheated_degC) film_degC = path.unheated_degC;
        if (std::fabs(off_K) < last_film_step_K) return film_degC;
    }
    return std::nullopt;
}

/// The same by bracketing.
double film_by_bracket_degC(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                            const FilmPath& path) {
    const auto missing_K = [&](double film_degC) {
        return film_degC - path.unheated_degC -
               film_loss_W(oil, bearing, film_degC) / path.path_WpK;
    };
    // The loss falls with film temperature: film - unheated - loss(film)/path rises monotonically.
    // The bracket's upper end is the rise with the loss of the coldest film and 2 %: the idle
    // torque steps by 0.8 % at nu n = 2000.
    const double at_low_K = missing_K(path.unheated_degC);
    const double high_degC = path.unheated_degC - 1.02 * at_low_K;
    const auto close = [](double a, double b) { return b - a < film_tolerance_K; };
    std::uintmax_t iterations = film_iterations;
    const auto [low, high] =
        boost::math::tools::toms748_solve(missing_K, path.unheated_degC, high_degC, at_low_K,
                                          missing_K(high_degC), close, iterations);
    return (low + high) / 2;
}

}  // namespace

BearingRun run_bearing(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                       double unheated_degC) {
    return run_bearing_near(oil, bearing, unheated_degC, unheated_degC);
}

BearingRun run_bearing_near(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                            double unheated_degC, double near_degC) {
    if (bearing.n_rpm <= 0) return {0, unheated_degC, bearing.n_rpm};
    const FilmPath path{unheated_degC, bearing.path_WpK};
    const auto newton_degC =
        film_by_newton_degC(oil, bearing, path, std::max(near_degC, unheated_degC));
    const double film_degC = newton_degC ? *newton_degC : film_by_bracket_degC(oil, bearing, path);
    // What the film passes on is its loss.
    return {path.path_WpK * (film_degC - unheated_degC), film_degC, bearing.n_rpm};
}

double unheated_behind_film_degC(const Oil& oil, const PreparedLosses::BearingTerm& bearing,
                                 double film_degC) {
    return film_degC - film_loss_W(oil, bearing, film_degC) / bearing.path_WpK;
}

std::vector<double> mean_losses_W(const PreparedLosses& leg,
                                  const std::vector<std::vector<BearingRun>>& runs) {
    std::vector<double> mean_W(runs.empty() ? 0 : runs.front().size());
    for (std::size_t bin = 0; bin < runs.size(); ++bin)
        for (std::size_t b = 0; b < runs[bin].size(); ++b)
            mean_W[b] += leg.bins[bin].share * runs[bin][b].loss_W;
    return mean_W;
}

std::vector<std::vector<BearingRun>> bearing_runs(const Oil& oil, const PreparedLosses& leg,
                                                  const std::vector<BearingPaths>& paths,
                                                  const Nodes& nodes) {
    std::vector<double> unheated(paths.size());
    for (std::size_t b = 0; b < paths.size(); ++b) unheated[b] = unheated_degC(paths[b], nodes);
    std::vector<std::vector<BearingRun>> runs(leg.bins.size());
    for (std::size_t bin = 0; bin < runs.size(); ++bin) {
        runs[bin].reserve(paths.size());
        for (std::size_t b = 0; b < paths.size(); ++b)
            runs[bin].push_back(run_bearing(oil, leg.bins[bin].bearings[b], unheated[b]));
    }
    return runs;
}

}  // namespace caseload
