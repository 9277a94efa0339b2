// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_281_system.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_281.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

namespace caseload::iso_281 {
namespace {

double shortest(std::span<const double> lives) {
    if (lives.empty()) throw Error(Error::Kind::domain, "system life: no bearing");
    for (const double life : lives) require_positive(life, "life");
    return *std::min_element(lives.begin(), lives.end());
}

}  // namespace

double system_life(std::span<const double> lives, double slope) {
    require_positive(slope, "slope");
    const double unit = shortest(lives);
    double sum = 0;
    for (const double life : lives) sum += std::pow(life / unit, -slope);
    return unit * std::pow(sum, -1 / slope);
}

double system_life_three_parameter(std::span<const double> lives) {
    const double bound = shortest(lives);  // that bearing alone; more can only shorten it
    const auto above = [&](double time) {
        double all = 1;
        for (const double life : lives) all *= survival(time / life);
        return all - 0.9;
    };
    if (lives.size() == 1) return bound;
    std::uintmax_t iterations = 100;
    const auto [low, high] = boost::math::tools::toms748_solve(
        above, 0.05 * bound, bound, boost::math::tools::eps_tolerance<double>(46), iterations);
    if (iterations >= 100)
        throw Error(Error::Kind::convergence, "system life not found in 100 steps");
    return (low + high) / 2;
}

}  // namespace caseload::iso_281
