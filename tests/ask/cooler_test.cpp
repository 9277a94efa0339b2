// SPDX-License-Identifier: MIT
#include "caseload/ask/cooler.hpp"

#include "caseload/units.hpp"
#include "examples.hpp"
#include "program.hpp"
#include "support.hpp"

#include <cmath>
#include <string>

namespace caseload::cooler_tests {

namespace {

Document hot(const std::string& more = "") {
    return Document("caseload = 1\nbase = \"heavy.toml\"\nevent.ambient = \"44 degC\"\n" + more,
                    "hot.toml", examples::text);
}

CoolerOptions quick_cooler() {
    CoolerOptions options;
    options.box_mm = {200, 160, 45};
    options.band.draws = 63;
    return options;
}

Steady rest_without(const Setup& with, const std::string& leg) {
    Setup bare = with;
    bare.cooler.fit = false;
    const Prepared prepared = prepare(bare);
    for (std::size_t i = 0; i < bare.event.legs.size(); ++i)
        if (bare.event.legs[i].name == leg) return steady(prepared, i, {});
    FAIL("no leg " << leg);
    return {};
}

}  // namespace

TEST_CASE("cooler: nothing is left over at the temperature a leg rests at") {
    const Setup setup = hot().complete().setup;
    const Steady rest = rest_without(setup, "loop");
    REQUIRE(rest.found);
    CoolerOptions options = quick_cooler();
    options.limit_degC = rest.nodes.oil_degC;
    const CoolerAnswer answer = size_cooler(hot(), options);
    REQUIRE(answer.needs.front().leg == "loop");
    CHECK(std::fabs(answer.needs.front().to_carry_W) < 1e-6);
    // Below it the need is what the ledger says: made less what leaves, by other functions.
    options.limit_degC = 110;
    const CoolerAnswer cooler = size_cooler(hot(), options);
    CHECK(cooler.needs.front().to_carry_W > 100);
    CHECK(cooler.needs.front().per_inlet_kelvin ==
          rel(cooler.needs.front().to_carry_W / (110 - 44 - setup.cooler.air_warmer_by_K), 1e-9));
}

TEST_CASE("cooler: heat per kelvin a core must carry, by hand") {
    // 5 kW made, 12 W/K of the case, air 45 degC: 64.9 W/K at 110 degC, 78.9 at 100.
    CHECK(per_inlet_kelvin_WpK({5000, 12 * 65.0, 110, 45}) == rel(64.9, 0.05 / 64.9));
    CHECK(per_inlet_kelvin_WpK({5000, 12 * 55.0, 100, 45}) == rel(78.9, 0.05 / 78.9));
    CHECK_THROWS_AS(per_inlet_kelvin_WpK({5000, 0, 45, 45}), Error);
}

TEST_CASE("cooler: a stop's need is what the driving left, and falls with the limit raised") {
    CoolerOptions options = quick_cooler();
    const auto stop_W = [&](double limit_degC) {
        options.limit_degC = limit_degC;
        for (const CoolingNeed& need : size_cooler(hot(), options).needs)
            if (need.stop) return need.to_carry_W;
        return -1e9;
    };
    const double low_W = stop_W(90);
    CHECK(low_W > 0);
    CHECK(stop_W(120) < low_W);
}

TEST_CASE("cooler: the smallest core holds and the next smaller one does not") {
    CoolerOptions options = quick_cooler();
    options.limit_degC = 105;
    const CoolerAnswer answer = size_cooler(hot(), options);
    REQUIRE(answer.pick >= 0);
    const CoreResult& core = answer.found[static_cast<std::size_t>(answer.pick)];
    CHECK(core.holds);
    CHECK(std::fmod(core.width_mm, 10) == 0);
    // One centimetre less of the longer side, the same way, by the whole program.
    Setup smaller = hot().complete().setup;
    smaller.limits.oil_watch_degC = 105;
    smaller.cooler.width_mm = core.width_mm - 10;
    smaller.cooler.height_mm = std::ceil(160.0 * (core.width_mm - 10) / 200 / 10 - 1e-9) * 10;
    smaller.cooler.depth_mm = 45;
    smaller.cooler.rating_estimated = true;
    const CoreEstimate estimate = estimated_core({.width_mm = smaller.cooler.width_mm,
                                                  .height_mm = smaller.cooler.height_mm,
                                                  .depth_mm = 45,
                                                  .construction = core.construction,
                                                  .rating = std::nullopt});
    smaller.cooler.rating = estimate.at;
    smaller.cooler.conductance_WpK = estimate.conductance_WpK;
    smaller.cooler.face_speed_share = core.duct == "sealed" ? 0.20 : 0.15;
    smaller.cooler.fan_face_speed_mps = core.fan_face_speed_mps;
    const Band sure = band(smaller, assess(smaller), {.draws = 63, .for_each = one_by_one});
    CHECK(sure.fitted.holds_share < 0.9);
}

TEST_CASE("cooler: an estimated conductance is in proportion to the face") {
    const CoreInput one{.width_mm = 200,
                        .height_mm = 100,
                        .depth_mm = 45,
                        .construction = "plate-fin",
                        .rating = std::nullopt};
    CoreInput two = one;
    two.width_mm = 400;
    CHECK(estimated_core(two).conductance_WpK ==
          rel(2 * estimated_core(one).conductance_WpK, 1e-12));
    // 4000 W/(K m2), judgement of tables/presets.toml.
    CHECK(estimated_core(one).conductance_WpK == rel(4000 * 0.02, 1e-12));
}

TEST_CASE("cooler: the chart of face over ambient rises, and its points rest at the limit") {
    const CoolerAnswer answer = size_cooler(hot(), quick_cooler());
    double last_m2 = 0;
    int solved = 0;
    for (const AreaAtAmbient& point : answer.chart) {
        if (!point.found || point.face_area_m2 == 0) continue;
        CHECK(point.face_area_m2 > last_m2);
        last_m2 = point.face_area_m2;
        ++solved;
        Setup setup = hot().complete().setup;
        setup.event.ambient_degC = point.ambient_degC;
        const double scale = std::sqrt(point.face_area_m2 / (0.2 * 0.16));
        setup.cooler.width_mm = 200 * scale;
        setup.cooler.height_mm = 160 * scale;
        setup.cooler.depth_mm = 45;
        setup.cooler.rating_estimated = true;
        setup.cooler.fan_face_speed_mps = 0;
        const CoreEstimate estimate = estimated_core({.width_mm = setup.cooler.width_mm,
                                                      .height_mm = setup.cooler.height_mm,
                                                      .depth_mm = 45,
                                                      .construction = "plate-fin",
                                                      .rating = std::nullopt});
        setup.cooler.rating = estimate.at;
        setup.cooler.conductance_WpK = estimate.conductance_WpK;
        const Prepared prepared = prepare(setup);
        double hottest_degC = 0;
        for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg)
            if (setup.event.legs[leg].kind == LegKind::drive)
                hottest_degC = std::max(hottest_degC, steady(prepared, leg, {}).nodes.oil_degC);
        // 0.1 mm of the longer side moves the oil by less than half a kelvin.
        CHECK(within(hottest_degC, answer.limit_degC, 0.5));
    }
    CHECK(solved >= 2);
}

TEST_CASE("cooler: the command, its first line and its errors") {
    const std::string folder = std::string(CASELOAD_ROOT) + "/docs/examples/";
    const Run run = run_program_as_user("cooler " + folder + "trailer.toml --draws 63");
    CHECK(run.code == 0);
    CHECK(run.out.find("  FIT  ") != std::string::npos);
    CHECK(run.out.find("Of your own, heater (180x140x30 mm) holds.") != std::string::npos);
    const Run large = run_program_as_user(
        "cooler " + folder + "trailer.toml --core 400x180x45mm --box \"300x200x50 mm\"");
    CHECK(large.code == 2);
    CHECK(large.out.find("--core 400x180x45 mm does not go into the box of 300x200x50 mm") !=
          std::string::npos);
    CHECK(large.out.find("the largest that would is 300x180x45 mm") != std::string::npos);
    const Run no_pump = run_program_as_user("cooler " + folder + "dip.toml");
    CHECK(no_pump.code == 2);
    CHECK(no_pump.out.find("this case has no oil pump") != std::string::npos);
}

}  // namespace caseload::cooler_tests
