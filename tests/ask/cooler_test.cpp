// SPDX-License-Identifier: MIT
#include "caseload/ask/cooler.hpp"

#include "caseload/show/choices.hpp"
#include "examples.hpp"
#include "program.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

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

TEST_CASE("cooler: nine draws in ten that stay below the limit are enough") {
    const Document document = hot("cooler.core = \"200x160x45 mm\"\n");
    CoolerOptions options = quick_cooler();
    options.band.draws = 70;
    // The 90 of 70 sorted draws lies between the 63rd and the 64th.
    options.limit_degC = size_cooler(document, options).fitted->oil_degC.p90;
    const CoreResult core = size_cooler(document, options).fitted.value();
    CHECK(core.holds_share == rel(63.0 / 70, 1e-15));
    CHECK(core.holds);
    options.limit_degC = core.oil_degC.p50;
    CHECK_FALSE(size_cooler(document, options).fitted->holds);
}

TEST_CASE("cooler: heat to reject is 0 at the temperature a leg settles at") {
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

TEST_CASE(
    "cooler: a core exactly as large as the box is accepted, one slightly larger is refused") {
    CoolerOptions options = quick_cooler();
    options.box_mm = {200, 160, 45};
    options.core_mm = {200, 160, 45};
    const CoolerAnswer answer = size_cooler(hot(), options);
    REQUIRE(answer.own.size() == 1);
    CHECK(answer.own.front().remark.empty());
    for (std::size_t length = 0; length < 3; ++length) {
        options.core_mm = {100, 80, 40};
        (*options.core_mm)[length] = options.box_mm[length] + 0.001;
        CHECK_THROWS_WITH_AS(size_cooler(hot(), options),
                             doctest::Contains("does not go into the box"), Error);
    }
    // A core of the shop's own is calculated, and said to be larger in any of its lengths.
    options.core_mm.reset();
    const CoolerAnswer own = size_cooler(hot("core.fits.size = \"200x160x45 mm\"\n"
                                             "core.wide.size = \"201x80x40 mm\"\n"
                                             "core.high.size = \"100x161x40 mm\"\n"
                                             "core.deep.size = \"100x80x46 mm\"\n"),
                                         options);
    REQUIRE(own.own.size() == 4);
    for (const CoreResult& core : own.own) {
        CAPTURE(core.name);
        CHECK(core.remark.empty() == (core.name == "fits"));
    }
}

TEST_CASE("cooler: air through a found core follows the duct's row of presets.toml") {
    const Setup setup = hot().complete().setup;
    for (const std::string duct : {"sealed", "open"}) {
        const Setup word = hot("cooler.core = \"200x160x45 mm\"\ncooler.duct = \"" + duct + "\"\n")
                               .complete()
                               .setup;
        CoreResult found;
        found.width_mm = 200;
        found.height_mm = 160;
        found.depth_mm = 45;
        found.construction = "plate-fin";
        found.duct = duct;
        CHECK(with_found_core(setup, found).cooler.face_speed_share ==
              word.cooler.face_speed_share);
    }
}

TEST_CASE("cooler: heat per kelvin a core must carry, by hand") {
    // 5 kW made, 12 W/K of the case, air 45 degC: 64.9 W/K at 110 degC, 78.9 at 100.
    CHECK(per_inlet_kelvin_WpK({5000, 12 * 65.0, 110, 45}) == rel(64.9, 0.05 / 64.9));
    CHECK(per_inlet_kelvin_WpK({5000, 12 * 55.0, 100, 45}) == rel(78.9, 0.05 / 78.9));
    CHECK_THROWS_AS(per_inlet_kelvin_WpK({5000, 0, 45, 45}), Error);
}

namespace {

const CoolingNeed& need_of(const CoolerAnswer& answer, const std::string& leg) {
    for (const CoolingNeed& need : answer.needs)
        if (need.leg == leg) return need;
    FAIL("no leg " << leg);
    return answer.needs.front();
}

/// The most that flows into oil held at the limit in the stop after an endless drive leg, by the
/// event's own integration with oil that no heat warms.
double stop_by_event_W(const Setup& with, const std::string& stop, double limit_degC) {
    Setup setup = with;
    setup.cooler.fit = false;
    std::size_t pit = 0;
    while (setup.event.legs[pit].name != stop) ++pit;
    std::size_t before = 0;
    for (std::size_t i = 1; i < setup.event.run.size(); ++i)
        if (setup.event.run[i] == static_cast<int>(pit))
            before = static_cast<std::size_t>(setup.event.run[i - 1]);
    setup.event.run = {static_cast<int>(before), static_cast<int>(pit)};
    setup.event.legs[before].duration_s = 40 * 3600;
    Prepared prepared = prepare(setup);
    prepared.capacities.oil_JpK = 1e18;
    const EventHeat heat = event_heat(prepared, {}, {{limit_degC, limit_degC, limit_degC}, 0});
    const Conductances paths = in_stop(prepared);
    const double made_W =
        split(losses_at(setup, prepared.loads, prepared.oil, prepared.losses[pit],
                        {.temp_degC = limit_degC, .pump_runs = setup.event.legs[pit].pump_on})
                  .ledger)
            .oil_W;
    double most_W = -1e9;
    for (std::size_t i = 1; i < heat.samples.size(); ++i) {
        if (heat.samples[i].run != 1) continue;
        for (const Nodes& nodes : {heat.samples[i - 1].nodes, heat.samples[i].nodes}) {
            CHECK(within(nodes.oil_degC, limit_degC, 1e-6));
            most_W =
                std::max(most_W, made_W + paths.oil_steel_WpK * (nodes.steel_degC - limit_degC) +
                                     paths.oil_housing_WpK * (nodes.housing_degC - limit_degC));
        }
    }
    return most_W;
}

}  // namespace

TEST_CASE("cooler: a stop rejects the heat that the leg before left with the oil at the limit") {
    CoolerOptions options = quick_cooler();
    for (const double limit_degC : {90.0, 105.0, 121.0})
        for (const std::string exhaust : {"none", "near-bare"}) {
            options.limit_degC = limit_degC;
            const Document document = hot("housing.exhaust = \"" + exhaust + "\"\n");
            const CoolerAnswer answer = size_cooler(document, options);
            const double stop_W = need_of(answer, "fuel").to_carry_W;
            CAPTURE(limit_degC);
            CAPTURE(exhaust);
            CHECK(within(stop_W, stop_by_event_W(document.complete().setup, "fuel", limit_degC),
                         0.5));
            // Nothing turns in it: it takes less than the leg that heated the case.
            CHECK(stop_W < need_of(answer, "loop").to_carry_W);
        }
}

TEST_CASE("cooler: a stop rejects no heat where driving rejects none, however hot without cooler") {
    // Without a cooler this event ends far above the usual limit; at 158 degC its legs
    // hold by themselves.
    CoolerOptions options = quick_cooler();
    options.limit_degC = 158;
    const CoolerAnswer answer = size_cooler(hot("vehicle.mass = \"3600 kg\"\n"), options);
    REQUIRE(answer.without_degC.p50 > 140);
    REQUIRE(need_of(answer, "loop").to_carry_W <= 0);
    CHECK(need_of(answer, "fuel").to_carry_W <= 0);
    CHECK(need_of(answer, "fuel").per_inlet_kelvin == 0);
}

TEST_CASE("cooler: the fitted core comes first, with the verdict of the range") {
    CoolerOptions options = quick_cooler();
    for (const std::string size : {"280x150x45 mm", "60x40x20 mm"}) {
        const Document document = hot("cooler.core = \"" + size + "\"\n");
        const Setup setup = document.complete().setup;
        const CoolerAnswer answer = size_cooler(document, options);
        REQUIRE(answer.fitted.has_value());
        const Band sure = band(setup, assess(setup), options.band);
        CHECK(answer.fitted->holds_share == sure.fitted.holds_share);
        CHECK(answer.fitted->oil_degC.p50 == sure.fitted.peak_oil_degC.p50);
        CHECK(answer.fitted->duct == "sealed");
        const std::string first = test_files::lines(cooler_screen(setup, answer)).at(2);
        CHECK(first.rfind(fmt::format("  {}  {}, the core that is fitted, keeps the oil below 121 "
                                      "degC, ",
                                      answer.fitted->holds ? "KEEP" : "CHANGE", size),
                          0) == 0);
    }
    const CoolerAnswer bare = size_cooler(hot("cooler.fit = false\n"), options);
    CHECK_FALSE(bare.fitted.has_value());
    const Document too_small = hot("cooler.core = \"60x40x20 mm\"\nvehicle.mass = \"3900 kg\"\n");
    CHECK_FALSE(size_cooler(too_small, options).fitted->holds);
}

TEST_CASE("cooler: the smallest core keeps the limit, one a centimetre smaller does not") {
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

TEST_CASE("cooler: the face in the chart rises with ambient, and each point settles at the limit") {
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
    const std::vector<std::string> screen = test_files::lines(run.out);
    CHECK(screen.at(2).rfind("  KEEP  280x150x45 mm, the core that is fitted, ", 0) == 0);
    CHECK(run.out.find("The smallest that would: 70x50x50 mm, ") != std::string::npos);
    CHECK(run.out.find("  HEAT TO REJECT  with the oil at its limit (likely values)") !=
          std::string::npos);
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
