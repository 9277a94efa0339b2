// SPDX-License-Identifier: MIT
// The tables of the fast case against the direct chain, draw by draw. Long: one kind at a time.
#include "ask/fast_case.hpp"

#include "caseload/ask/measured.hpp"
#include "caseload/input.hpp"
#include "caseload/units.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <thread>
#include <vector>

namespace caseload::fast_case_tests {

namespace {

ReadSetup read_example(const std::filesystem::path& path) {
    const auto text = [](const std::filesystem::path& file) {
        std::ifstream in(file, std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(in), {});
    };
    return read_setup(text(path), path.filename().string(), [&](const std::string& name) {
        return std::optional<std::string>(text(path.parent_path() / name));
    });
}

/// As draws keep them: facing pairs as tight as where the likely case settles.
Setup as_tight_as_likely(const Setup& setup) {
    Setup held = setup;
    held.pair_over_mm = prepare(setup).pair_over_mm;
    return held;
}

struct Asked {
    bool cooler = false;
    double damage_share = 0.01;  ///< by which damage may differ
};

/// Pace and dirt as they are likely: varied, they are less close, see the test of assumed entries.
Factors at_likely_pace(Factors factors) {
    factors.dirt = 1;
    factors.pace_rank.reset();
    factors.play = Factors{}.play;
    return factors;
}

/// Largest differences so far.
struct Worst {
    double oil_K = 0;
    double life_share = 0;
};

Worst worst;

void compare(const Setup& setup, const FastCase& fast, const Factors& factors, const Asked& asked) {
    const auto& [cooler, damage_share] = asked;
    Setup drawn = as_tight_as_likely(setup);
    drawn.factors = factors;
    const Prepared prepared = prepare(drawn);
    const Switches switches{.cooler = cooler, .pump = true, .fan = true};
    const EventHeat direct = event_heat(prepared, switches);
    const Damage damage = event_damage(prepared, direct);
    const DrawResult quick = fast.run(factors, cooler);
    // Temperatures above the ceiling are not told; both say "above".
    if (direct.peak_oil_degC > oil_ceiling_degC) {
        CHECK(quick.peak_oil_degC > oil_ceiling_degC - 0.05);
        return;
    }
    // 0.05 K: a hundredth of what the best measured factor leaves open.
    CHECK(std::fabs(quick.peak_oil_degC - direct.peak_oil_degC) < 0.05);
    worst.oil_K = std::max(worst.oil_K, std::fabs(quick.peak_oil_degC - direct.peak_oil_degC));
    for (const RunPeak& run : direct.runs)
        CHECK(quick.leg_peak_degC[static_cast<std::size_t>(run.leg)] > run.peak_oil_degC - 0.05);
    CHECK(quick.oil_dose == rel(damage.oil_dose, damage_share));
    for (std::size_t b = 0; b < damage.bearings.size(); ++b) {
        CAPTURE(damage.bearings[b].name);
        // A share of 1e-5 an event decides nothing; there a grid's bend may be off by twice as
        // much.
        const double share = damage.bearings[b].life_share;
        CHECK(quick.life_share[b] == rel(share, share < 1e-5 ? 2 * damage_share : damage_share));
        worst.life_share = std::max(worst.life_share, std::fabs(quick.life_share[b] / share - 1));
    }
}

}  // namespace

TEST_CASE("fast case: the tables agree with the direct chain to 0.05 K and 1 % of damage") {
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(CASELOAD_ROOT) + "/docs/examples")) {
        if (entry.path().extension() != ".toml") continue;
        const ReadSetup read = read_example(entry.path());
        CAPTURE(read.setup.name);
        const FastCase fast(read.setup);
        compare(read.setup, fast, {}, {true});
        compare(read.setup, fast, {}, {false});
        const auto points = sobol_points(63);
        for (std::size_t i = 0; i < points.size(); i += 6) {
            CAPTURE(i);
            const Factors factors = at_likely_pace(drawn_factors(points[i], ranges_of(read.setup)));
            compare(read.setup, fast, factors, {true});
            compare(read.setup, fast, factors, {false});
        }
        MESSAGE(read.setup.name, ": worst so far ", worst.oil_K, " K, life ", worst.life_share);
    }
}

TEST_CASE(
    "fast case: with every assumed entry varied a draw is within 0.5 K of the chain, dipped 1.5 "
    "K") {
    double worst_K = 0;
    for (const std::string name : {"light.toml", "heavy.toml", "idler.toml", "dip.toml"}) {
        CAPTURE(name);
        const Setup setup = examples::setup(name);
        const Setup as_tight = as_tight_as_likely(setup);
        const FastCase fast(setup);
        const auto points = sobol_points(63);
        for (std::size_t i = 0; i < points.size(); i += 4) {
            CAPTURE(i);
            const Factors factors = drawn_factors(points[i], ranges_of(setup));
            REQUIRE(factors.pace_rank);
            Setup drawn = as_tight;
            drawn.factors = factors;
            const Prepared prepared = prepare(drawn);
            for (const bool cooler : {true, false}) {
                const EventHeat direct =
                    event_heat(prepared, {.cooler = cooler, .pump = true, .fan = true});
                if (direct.peak_oil_degC > oil_ceiling_degC) continue;
                const Damage damage = event_damage(prepared, direct);
                const DrawResult quick = fast.run(factors, cooler);
                worst_K = std::max(worst_K, std::fabs(quick.peak_oil_degC - direct.peak_oil_degC));
                // Churning also changes its regime, between the ranges of slow and fast.
                const bool dips = setup.lubrication.method == Method::dip;
                CHECK(std::fabs(quick.peak_oil_degC - direct.peak_oil_degC) < (dips ? 1.5 : 0.5));
                // A life goes with the speed, and by 5 % a kelvin.
                for (std::size_t b = 0; b < damage.bearings.size(); ++b)
                    if (damage.bearings[b].life_share > 1e-5)
                        CHECK(quick.life_share[b] ==
                              rel(damage.bearings[b].life_share, dips ? 0.1 : 0.06));
            }
        }
    }
    MESSAGE("worst ", worst_K, " K");
}

TEST_CASE("fast case: a pair that feeds itself spreads further than draws of its likely preload") {
    // Idler 0.05 mm too long cold, loop gain 0.09. The method names the spreads.
    const Setup setup = examples::setup("idler.toml", {{"shaft.idler.end_play", "\"-0.05 mm\""}});
    double gain = 0;
    for (const PairState& pair : prepare(setup).pairs) gain = std::max(gain, pair.loop_gain);
    CHECK(gain == rel(0.093, 0.02));
    const FastCase fast(setup);
    std::vector<double> own_degC;
    std::vector<double> likely_degC;
    for (const auto& point : sobol_points(63)) {
        const Factors factors = drawn_factors(point, ranges_of(setup));
        Setup drawn = setup;
        drawn.factors = factors;
        own_degC.push_back(
            event_heat(prepare(drawn), {.cooler = true, .pump = true, .fan = true}).peak_oil_degC);
        likely_degC.push_back(fast.run(factors, true).peak_oil_degC);
    }
    const auto spread_K = [](std::vector<double>& peaks_degC) {
        std::sort(peaks_degC.begin(), peaks_degC.end());
        return peaks_degC[57] - peaks_degC[6];
    };
    const double own_K = spread_K(own_degC);
    const double likely_K = spread_K(likely_degC);
    CAPTURE(own_K);
    CAPTURE(likely_K);
    CHECK(own_K / likely_K == rel(1 / (1 - gain), 0.05));
}

TEST_CASE("fast case: play anywhere in its class is within 3 % of a life of the chain") {
    for (const std::string name : {"light.toml", "idler.toml", "dip.toml"}) {
        CAPTURE(name);
        const Setup setup = examples::setup(name);
        const FastCase fast(setup);
        for (const double play : {0.0, 0.2, 0.7, 1.0}) {
            CAPTURE(play);
            Factors factors;
            factors.play = play;
            compare(setup, fast, factors, {false, 0.03});
            factors.load = 1.2;
            compare(setup, fast, factors, {false, 0.06});
        }
    }
}

TEST_CASE("fast case: a case bolted to a neighbour meets the direct chain in long stops too") {
    const std::filesystem::path folder = std::filesystem::path(CASELOAD_ROOT) / "tests/reference";
    const ReadSetup read = read_example(folder / "bolted.toml");
    REQUIRE(read.setup.housing.neighbour_WpK > 0);
    // Switches may go a moment apart, which moves a peak by more than the tables do.
    Setup warm = read.setup;
    warm.lubrication.pump->on_above_degC.reset();
    warm.cooler.fan_on_above_degC.reset();
    Setup cold = warm;
    cold.housing.neighbour_WpK = 20;
    cold.housing.neighbour_temp_degC = 10;
    for (const Setup& setup : {warm, cold}) {
        CAPTURE(setup.housing.neighbour_WpK);
        const FastCase fast(setup);
        const auto points = sobol_points(31);
        for (std::size_t i = 0; i < points.size(); i += 5) {
            CAPTURE(i);
            const Factors factors = at_likely_pace(drawn_factors(points[i], ranges_of(setup)));
            compare(setup, fast, factors, {true});
            compare(setup, fast, factors, {false});
        }
    }
}

TEST_CASE(
    "fast case: seats of unknown fit that let less or more heat through agree with the chain") {
    for (const std::string name : {"light.toml", "idler.toml", "dip.toml"}) {
        CAPTURE(name);
        const Setup setup = examples::setup(name);
        const FastCase fast(setup);
        for (const double seat_heat : {1.0 / 3, 0.6, 2.0}) {
            CAPTURE(seat_heat);
            Factors factors;
            factors.seat_heat = seat_heat;
            factors.bearing_friction = 1.3;
            compare(setup, fast, factors, {false, 0.02});
        }
    }
}

namespace {

/// Life shares of an event by the formulas at every sample, without tables.
std::vector<double> shares_without_tables(const Prepared& prepared, const EventHeat& heat) {
    std::vector<double> shares(prepared.loads.bearings.size(), 0.0);
    for (std::size_t i = 1; i < heat.samples.size(); ++i) {
        const Sample& from = heat.samples[i - 1];
        const Sample& to = heat.samples[i];
        const auto leg =
            static_cast<std::size_t>(prepared.setup->event.run[static_cast<std::size_t>(to.run)]);
        const Nodes middle{(from.nodes.oil_degC + to.nodes.oil_degC) / 2,
                           (from.nodes.housing_degC + to.nodes.housing_degC) / 2,
                           (from.nodes.steel_degC + to.nodes.steel_degC) / 2};
        const auto& bins = prepared.loads.legs[leg].bins;
        for (std::size_t b = 0; b < shares.size(); ++b)
            for (std::size_t bin = 0; bin < bins.size(); ++bin)
                shares[b] +=
                    h_from_s(to.t_s - from.t_s) * bins[bin].bin.share *
                    bearing_condition(prepared, {leg, bin, b},
                                      unheated_degC(prepared.bearing_paths[b], middle), nullptr)
                        .rate_per_h;
    }
    return shares;
}

/// Temperatures at which additives stop helping, between two.
int steps_between(const Prepared& prepared, double low_degC, double high_degC) {
    int steps = 0;
    for (std::size_t leg = 0; leg < prepared.loads.legs.size(); ++leg)
        for (std::size_t bin = 0; bin < prepared.loads.legs[leg].bins.size(); ++bin)
            for (std::size_t b = 0; b < prepared.loads.bearings.size(); ++b) {
                const auto film_degC = additives_end_degC(prepared, {leg, bin, b});
                if (!film_degC) continue;
                const double degC = unheated_behind_film_degC(
                    prepared.oil, prepared.losses[leg].bins[bin].bearings[b], *film_degC);
                steps += degC > low_degC && degC < high_degC ? 1 : 0;
            }
    return steps;
}

}  // namespace

TEST_CASE(
    "fast case: lives over the step of the additives' rule agree with the chain without tables") {
    // Clean oil through an in-line filter: additives help below kappa 1 until e_C falls to 0.2.
    int steps = 0;
    double worst_tables = 0;
    double worst_fast = 0;
    for (const std::string code : {"-/15/12", "-/17/14"}) {
        // Slow bins, so that the films are thin where the oil is no more than warm.
        Setup setup = examples::with_bins(
            examples::setup("light.toml", {{"oil.filter", "\"in-line\""},
                                           {"oil.cleanliness", "\"" + code + "\""},
                                           {"cooler.fit", "false"},
                                           {"event.ambient", "\"40 degC\""}}),
            {{0.3, 900, 500, 5}, {0.3, 600, 900, 9}, {0.2, 1400, 300, 3}, {0.2, 400, 1500, 15}},
            4 * 3600);
        REQUIRE(setup.oil.ep_additive);
        for (double start_degC = 60; start_degC <= 130; start_degC += 3) {
            setup.event.oil_at_start_degC = start_degC;
            setup.event.oil_at_start_entered = true;
            const FastCase fast(setup);
            for (const double load : {0.85, 1.0, 1.2}) {
                Setup drawn = setup;
                drawn.factors.load = load;
                const Prepared prepared = prepare(drawn);
                const EventHeat heat =
                    event_heat(prepared, {.cooler = false, .pump = true, .fan = true});
                const double end_degC = heat.samples.back().nodes.oil_degC;
                CAPTURE(code);
                CAPTURE(load);
                CAPTURE(start_degC);
                CAPTURE(end_degC);
                REQUIRE(heat.peak_oil_degC < oil_ceiling_degC);
                steps += steps_between(prepared, std::min(start_degC, end_degC),
                                       std::max(start_degC, end_degC));
                const Damage damage = event_damage(prepared, heat);
                const DrawResult quick = fast.run(drawn.factors, false);
                const std::vector<double> shares = shares_without_tables(prepared, heat);
                for (std::size_t b = 0; b < shares.size(); ++b) {
                    worst_tables = std::max(
                        worst_tables, std::fabs(damage.bearings[b].life_share / shares[b] - 1));
                    worst_fast =
                        std::max(worst_fast, std::fabs(quick.life_share[b] / shares[b] - 1));
                    CHECK(damage.bearings[b].life_share == rel(shares[b], 0.002));
                    // No load is a node: across bends of the rate a little more.
                    CHECK(quick.life_share[b] == rel(shares[b], 0.015));
                }
            }
        }
    }
    MESSAGE("share beside the formulas: tables ", worst_tables, ", draws ", worst_fast, ", steps ",
            steps);
    CHECK(steps > 50);
}

TEST_CASE("fast case: churning between its two ranges agrees with the direct chain") {
    Setup setup = read_example(std::string(CASELOAD_ROOT) + "/docs/examples/dip.toml").setup;
    const Loads loads = calculate_loads(setup);
    double fastest_mps = 0;
    for (std::size_t l = 0; l < loads.legs.size(); ++l) {
        setup.event.legs[l].course_lines.clear();
        for (const BinLoads& bin : loads.legs[l].bins) {
            setup.event.legs[l].bins.push_back(bin.bin);
            setup.event.legs[l].bins.back().speed_rpm *= 1.5;
            fastest_mps = std::max(fastest_mps, 1.5 * radps_from_rpm(bin.bin.speed_rpm) * 0.0875);
        }
    }
    CHECK(fastest_mps > 25);
    const FastCase fast(setup);
    for (const double u : {0.02, 0.3, 0.7, 0.98}) {
        CAPTURE(u);
        std::array<double, band_factors> point{};
        point.fill(0.5);
        point[4] = u;
        compare(setup, fast, drawn_factors(point, 0), {false});
    }
    // A measured case may lie farther out.
    Factors measured;
    measured.churning = 2.4;
    measured.churning_fast = 4.5;
    compare(setup, fast, measured, {false});
}

TEST_CASE("fast case: both sides of a draw at once are the same bytes as one after the other") {
    const ReadSetup read = read_example(std::string(CASELOAD_ROOT) + "/docs/examples/light.toml");
    const FastCase fast(read.setup);
    const auto points = sobol_points(7);
    for (const auto& point : points) {
        const Factors factors = at_likely_pace(drawn_factors(point, ranges_of(read.setup)));
        const std::vector<DrawResult> both =
            fast.run({{&factors, true}, {&factors, false}, {&factors, true, nullptr, false}});
        for (const auto& [got, cooler] : {std::pair{both[0], true}, std::pair{both[1], false}}) {
            const DrawResult alone = fast.run(factors, cooler);
            CHECK(got.peak_oil_degC == alone.peak_oil_degC);
            CHECK(got.peak_housing_degC == alone.peak_housing_degC);
            CHECK(got.oil_dose == alone.oil_dose);
            CHECK(got.life_share == alone.life_share);
            CHECK(got.leg_peak_degC == alone.leg_peak_degC);
        }
        CHECK(both[1].peak_oil_degC > both[0].peak_oil_degC + 1);
        // Asked without lives: the same temperatures, and nothing is used up.
        CHECK(both[2].peak_oil_degC == both[0].peak_oil_degC);
        CHECK(both[2].leg_peak_degC == both[0].leg_peak_degC);
        CHECK(both[2].oil_dose == 0);
        CHECK(both[2].life_share == std::vector<double>(both[0].life_share.size()));
        CHECK(both[0].oil_dose > 0);
    }
}

TEST_CASE("fast case: sides by fours are the same bytes as alone, on every processor") {
    // One without switches, one whose pump and fan go on and off, one without a cooler.
    for (const std::string name : {"/docs/examples/light.toml", "/tests/reference/switched.toml",
                                   "/docs/examples/dip.toml"}) {
        CAPTURE(name);
        const Setup setup = read_example(std::string(CASELOAD_ROOT) + name).setup;
        const FastCase fast(setup);
        const FactorDraws drawn(setup);
        const auto points = sobol_points(15);
        std::vector<Factors> factors;
        for (const auto& point : points) factors.push_back(drawn(point));
        const OilTrace asked_at{{0, 60, 1800, 5000}, {}};
        // Both sides of a draw, and at the end fewer than four.
        std::vector<FastCase::AskedSide> asked;
        for (const Factors& draw : factors)
            for (const bool cooler : {true, false}) asked.push_back({&draw, cooler});
        std::vector<OilTrace> wide_traces(asked.size(), asked_at);
        std::vector<OilTrace> plain_traces(asked.size(), asked_at);
        for (std::size_t i = 0; i < asked.size(); ++i) asked[i].trace = &wide_traces[i];
        const std::vector<DrawResult> wide = fast.run(asked);
        for (std::size_t i = 0; i < asked.size(); ++i) asked[i].trace = &plain_traces[i];
        const std::vector<DrawResult> plain = fast.run(asked, one_by_one, FastCase::Vectors::plain);
        REQUIRE(wide.size() == asked.size());
        const auto same = [](const DrawResult& a, const DrawResult& b) {
            CHECK(a.peak_oil_degC == b.peak_oil_degC);
            CHECK(a.peak_housing_degC == b.peak_housing_degC);
            CHECK(a.leg_peak_degC == b.leg_peak_degC);
            CHECK(a.life_share == b.life_share);
            CHECK(a.oil_dose == b.oil_dose);
            CHECK(a.reading_oil_degC == b.reading_oil_degC);
            CHECK(a.reading_housing_degC == b.reading_housing_degC);
        };
        for (std::size_t i = 0; i < asked.size(); ++i) {
            CAPTURE(i);
            OilTrace trace = asked_at;
            const DrawResult alone = fast.run(*asked[i].factors, asked[i].cooler, &trace);
            same(wide[i], alone);
            same(plain[i], alone);
            CHECK(trace.oil_degC.size() == asked_at.at_s.size());
            CHECK(wide_traces[i].oil_degC == trace.oil_degC);
            CHECK(plain_traces[i].oil_degC == trace.oil_degC);
        }
        CHECK(wide.front().peak_oil_degC != wide.back().peak_oil_degC);
    }
    if (!has_wide_vectors()) MESSAGE("this processor or compiler has no wider vectors");
}

TEST_CASE("fast case: with another core it is the same bytes as made with that core") {
    const Setup setup =
        read_example(std::string(CASELOAD_ROOT) + "/docs/examples/light.toml").setup;
    Setup bare = setup;
    bare.cooler.fit = false;
    Setup smaller = setup;
    smaller.cooler.width_mm /= 2;
    smaller.cooler.fan_face_speed_mps = 4;
    const FastCase anew(smaller);
    const FastCase core = FastCase(bare, FastUse::drawn_temperatures).with_core(smaller.cooler);
    for (const auto& point : sobol_points(7)) {
        const Factors factors = at_likely_pace(drawn_factors(point, ranges_of(setup)));
        for (const bool cooler : {true, false}) {
            const DrawResult expected = anew.run(factors, cooler);
            CHECK(core.run(factors, cooler).peak_oil_degC == expected.peak_oil_degC);
            CHECK(core.run(factors, cooler).leg_peak_degC == expected.leg_peak_degC);
        }
    }
    smaller.cooler.thermostat_opens_degC = setup.cooler.thermostat_opens_degC.value_or(80) + 5;
    CHECK_THROWS_AS((void)core.with_core(smaller.cooler), Error);
}

TEST_CASE(
    "fast case: tables of a measured case agree with the direct chain at their ends to 0.05 K and "
    "3.5 %") {
    const std::string folder = std::string(CASELOAD_ROOT) + "/docs/examples/";
    for (const std::string name : {"light.toml", "dip.toml"}) {
        Setup setup = read_example(folder + name).setup;
        CAPTURE(name);
        setup.measured.emplace();
        const FastCase fast(setup);
        for (const double friction : {FastNodes::least_friction, FastNodes::most_friction})
            for (const double air : {FastNodes::least_air_share, FastNodes::most_air_share}) {
                CAPTURE(friction);
                CAPTURE(air);
                Factors factors;
                factors.bearing_friction = friction;
                factors.air_share = air;
                compare(setup, fast, factors, {true, 0.035});
                compare(setup, fast, factors, {false, 0.035});
            }
    }
}

TEST_CASE("fast case: heat to the outside at its nodes is the direct chain's to 1e-8") {
    for (const std::string name : {"light.toml", "dip.toml"})
        for (const bool measured : {false, true}) {
            CAPTURE(name);
            CAPTURE(measured);
            Setup setup = read_example(std::string(CASELOAD_ROOT) + "/docs/examples/" + name).setup;
            if (measured) setup.measured.emplace();
            const FastTables tables(setup);
            double worst = 0;
            for (std::size_t air = 0; air < FastNodes::airs; ++air)
                for (std::size_t s = 0; s < FastNodes::air_shares; ++s) {
                    OutsideTable::Weights one{};
                    one[air * FastNodes::air_shares + s] = 1;
                    Setup at = setup;
                    at.factors.air_K = tables.nodes.air[air];
                    at.factors.air_share = std::exp(tables.nodes.air_share[s]);
                    const Prepared prepared = prepare(at);
                    for (std::size_t leg = 0; leg < tables.legs.size(); ++leg) {
                        const Row row = tables.outside_tables->leg(leg).blend(one);
                        // Every eighth point of the grid is calculated, none interpolated.
                        for (std::size_t i = 0; i < tables.outside.y.size(); i += 8) {
                            const OutsideParts out = outside_parts(
                                prepared, leg, prepared.case_air_degC + tables.outside.x(i));
                            const double direct_W = out.convection_W + out.radiation_W;
                            worst = std::max(worst, std::fabs(row[i] - direct_W) /
                                                        std::max(std::fabs(direct_W), 1.0));
                        }
                    }
                }
            MESSAGE(name, ": ", worst);
            CHECK(worst < 1e-8);
        }
}

TEST_CASE("fast case: tables made on several threads give the bytes of one") {
    const Setup setup =
        read_example(std::string(CASELOAD_ROOT) + "/docs/examples/light.toml").setup;
    const FastCase alone(setup);
    // Backwards, and from a thread each.
    const FastCase together(setup, FastUse::everything,
                            [](std::size_t n, const std::function<void(std::size_t)>& body) {
                                std::vector<std::thread> threads;
                                for (std::size_t i = n; i-- > 0;)
                                    threads.emplace_back([&body, i] { body(i); });
                                for (std::thread& thread : threads) thread.join();
                            });
    for (const auto& point : sobol_points(15)) {
        const Factors factors = at_likely_pace(drawn_factors(point, ranges_of(setup)));
        const DrawResult one = alone.run(factors, true);
        const DrawResult other = together.run(factors, true);
        CHECK(one.peak_oil_degC == other.peak_oil_degC);
        CHECK(one.life_share == other.life_share);
        CHECK(one.oil_dose == other.oil_dose);
    }
}

TEST_CASE("fast case: a pump going on and off for hours does not let a last digit grow") {
    // Else two compilers' pow and exp would tell different bands.
    Setup setup = read_setup(R"(
caseload = 1
base = "pattern:two-gear-215mm"
gears.fitted = [46, 40]
gears.face_width = "34.7 mm"
gears.finish = "superfinished"
case.drop_direction = "-93.3 deg"
case.input_turns = "clockwise"
oil = { grade = "75W-140 synthetic", fill = "0.83 L", state = "dirty" }
bearing.input_rear.oil = "jet"
seal.input.material = "ACM"
seal.output_rear.lips = 2
vehicle = { mass = "4675 kg", tyre = "37.3 in", axle_ratio = 7.55, engine_power = "387 kW" }
[event]
ambient = "41.7 degC"
altitude = "1839 m"
oil_at_start = "70.5 degC"
course = "forest"
duration = "5.87 h"
[lubrication]
drain = "fair"
[lubrication.pump]
flow = "10.95 L/min"
pressure = "16.62 bar"
efficiency = 0.874
on_above = "123.4 degC"
[housing]
size = "239x362x476 mm"
wall = "3.0 mm"
finish = "anodised"
place = "behind-skid-plate"
dirt = "clean"
exhaust = "none"
air_warmer_by = "38.3 K"
oil_film_coefficient = "32 W/m2K"
dirt_thickness = "22.59 mm"
[cooler]
fit = true
core = "268x197x79 mm"
construction = "tube-fin"
duct = "none"
fan_face_speed = "0.00 m/s"
air_warmer_by = "0.5 K"
bypass_opens = "271 kPa"
thermostat_opens = "84.1 degC"
)",
                             "switched.toml", {})
                      .setup;
    const FastCase fast(setup);
    setup.event.oil_at_start_degC += 1e-10;
    const FastCase moved(setup);
    const FactorDraws drawn(setup);
    for (const auto& point : sobol_points(63)) {
        const Factors factors = drawn(point);
        const DrawResult one = fast.run(factors, true);
        const DrawResult other = moved.run(factors, true);
        CHECK(one.peak_oil_degC == doctest::Approx(other.peak_oil_degC).epsilon(1e-8));
        CHECK(one.reading_oil_degC == doctest::Approx(other.reading_oil_degC).epsilon(1e-8));
    }
}

}  // namespace caseload::fast_case_tests
