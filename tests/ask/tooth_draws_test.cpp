// SPDX-License-Identifier: MIT
// Teeth of the range: a table of the chain over the load, against the chain at each load.
#include "ask/fast_case.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::tooth_draws_tests {

TEST_CASE("range: teeth at a drawn load are those of the chain at it, to 1 % and a thousandth") {
    int compared = 0;
    double largest = 0;
    // Teeth narrow enough to use life; every kind of support.
    for (const auto& [file, support] :
         {std::pair{"light.toml", "\"straddled\""}, std::pair{"heavy.toml", "\"overhung\""},
          std::pair{"idler.toml", "\"hub\""}}) {
        const Setup setup =
            examples::setup(file, {{"gears.face_width", "\"17 mm\""}, {"gears.support", support}});
        const Loads loads = calculate_loads(setup);
        const FastCase fast(setup);
        const auto points = sobol_points(63);
        for (std::size_t i = 0; i < points.size(); i += 4) {
            const Factors factors = drawn_factors(points[i], helical_share(setup));
            const DrawResult quick = fast.run(factors, false);
            const std::vector<GearDamage> exact = gear_damage(setup, loads, factors.load);
            REQUIRE(quick.teeth.size() == exact.size());
            for (std::size_t g = 0; g < exact.size(); ++g) {
                const ToothSide sure = worst(exact[g]);
                const auto compare = [&](double quick_share, double share, double of_static) {
                    // At the first point of the life curve the share jumps, at the last by 1e-10 of
                    // the turns, here below a thousandth.
                    if (share < 1e-5 || std::fabs(of_static - 1) < 0.05) return;
                    ++compared;
                    const double off = std::max(std::fabs(quick_share - share) - 1e-3, 0.0);
                    largest = std::max(largest, off / share);
                };
                compare(quick.teeth[g].flank_share, sure.flank_share,
                        std::max(exact[g].bin_flank_share, exact[g].peak_flank_share));
                compare(quick.teeth[g].root_share, sure.root_share,
                        std::max(exact[g].bin_root_share, exact[g].peak_root_share));
            }
        }
    }
    CAPTURE(compared);
    CHECK(compared > 50);
    CHECK(largest < 0.01);
}

}  // namespace caseload::tooth_draws_tests
