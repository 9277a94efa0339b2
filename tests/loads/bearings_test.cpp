// SPDX-License-Identifier: MIT
// Bearings of every kind through the chain; bins in any order; what is said about them.
#include "caseload/assess.hpp"
#include "caseload/error.hpp"
#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/input.hpp"
#include "examples.hpp"
#include "loads/parts.hpp"
#include "loads/setups.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>
#include <tuple>

namespace caseload::bearings_tests {

using namespace caseload::loads_test;

namespace {

Setup light() {
    return Document(examples::text("light.toml").value(), "light.toml", examples::text)
        .complete({})
        .setup;
}

/// The light example on other bearings, two bins a leg.
Setup on(Holding how) {
    Setup s = light();
    s.bearings.clear();
    for (const std::string& shaft : s.gears.train) hold(s, shaft, 20, 112, how);
    for (BearingInput& one : s.bearings) one.oil_reaching_Lpmin = 0.1;
    for (LegInput& leg : s.event.legs) {
        if (leg.kind != LegKind::drive) continue;
        leg.course_lines.clear();
        leg.bins = {{0.6, 300, 3000, 25}, {0.3, 900, 2000, 16}, {0.1, -150, 2500, 21}};
    }
    return s;
}

bool noted(const Notes& notes, const std::string& id) {
    return std::any_of(notes.begin(), notes.end(), [&](const Note& note) { return note.id == id; });
}

}  // namespace

TEST_CASE("bearings: every kind runs through the chain, spur and helical") {
    for (int how = 0; how < holdings; ++how)
        for (const bool helical : {false, true}) {
            CAPTURE(how);
            CAPTURE(helical);
            Setup s = on(static_cast<Holding>(how));
            if (helical) {
                s.gears.helix_angle_deg = 12;
                s.gears.hand_on_input = Hand::right;
                s.gears.teeth = {32, 41};
            }
            const Assessment answer = assess(s);
            CHECK(answer.fitted.legs.size() > 1);
            for (const LegAnswer& leg : answer.fitted.legs) {
                REQUIRE(leg.at_rest.found);
                CHECK(heat_in_W(leg.at_rest) == rel(heat_out_W(leg.at_rest), 1e-9));
            }
            for (std::size_t b = 0; b < s.bearings.size(); ++b) {
                const BearingDamage& damage = answer.fitted.damage.bearings[b];
                CAPTURE(damage.name);
                CHECK(std::isfinite(damage.life_share));
                // Spur gears push nothing along the input, and no slip joint does.
                const bool idle = !helical && damage.name == "input_thrust";
                CHECK((damage.P_largest_N > 0) != idle);
                CHECK((damage.basic_life_share > 0) != idle);
            }
        }
}

TEST_CASE("bearings: permuting or splitting bins changes nothing") {
    for (const Holding how : {Holding::ball_and_roller, Holding::tapered_out}) {
        const Setup s = on(how);
        Setup permuted = s;
        Setup split = s;
        for (std::size_t i = 0; i < s.event.legs.size(); ++i) {
            auto& bins = permuted.event.legs[i].bins;
            std::reverse(bins.begin(), bins.end());
            std::vector<Bin> halves;
            for (Bin bin : s.event.legs[i].bins) {
                bin.share /= 2;
                halves.push_back(bin);
                halves.insert(halves.begin(), bin);
            }
            split.event.legs[i].bins = halves;
        }
        const Assessment a = assess(s);
        // Sums in another order may accept another step of the event, which is good to 1e-4 K;
        // dose and life change by less than 10 % a kelvin.
        for (const Setup* other : {&permuted, &split}) {
            const Assessment b = assess(*other);
            for (std::size_t leg = 0; leg < a.fitted.legs.size(); ++leg)
                CHECK(within(a.fitted.legs[leg].at_rest.nodes.oil_degC,
                             b.fitted.legs[leg].at_rest.nodes.oil_degC, 1e-6));
            CHECK(within(a.fitted.event.peak_oil_degC, b.fitted.event.peak_oil_degC, 1e-4));
            CHECK(a.fitted.damage.oil_dose == rel(b.fitted.damage.oil_dose, 1e-5));
            for (std::size_t i = 0; i < s.bearings.size(); ++i) {
                const BearingDamage& one = a.fitted.damage.bearings[i];
                const BearingDamage& two = b.fitted.damage.bearings[i];
                CHECK(one.life_share == rel(two.life_share, 1e-5));
                CHECK(one.basic_life_share == rel(two.basic_life_share, 1e-12));
            }
        }
    }
}

TEST_CASE("bearings: a third one that carries no radial load takes the thrust alone") {
    const Setup s = on(Holding::rollers_and_thrust);
    const Loads loads = calculate_loads(s);
    for (std::size_t b = 0; b < loads.bearings.size(); ++b)
        for (const LegLoads& leg : loads.legs)
            for (const BinLoads& bin : leg.bins)
                for (const LoadState& state : bin.for_life) {
                    const bool thrust = !loads.bearings[b].radial;
                    if (thrust)
                        CHECK(state.bearings[b].F_r_N == 0);
                    else
                        CHECK(state.bearings[b].F_a_N == 0);
                }
    // Half the time the slip joints rest; while they move, all four signs alike.
    const auto& states = loads.legs[0].bins[0].for_life;
    double weight = 0;
    for (const LoadState& state : states) weight += state.weight;
    REQUIRE(states.size() == 5);
    CHECK(weight == rel(1, 1e-12));
    CHECK(states[0].weight == 0.5);
    // Slip force mu T / r of both joints: 0.12 x 1.25 x 300 Nm x 41/33 / 29 mm, together on the
    // output's thrust bearing or against each other.
    double most = 0;
    for (std::size_t b = 0; b < loads.bearings.size(); ++b)
        if (!loads.bearings[b].radial && s.bearings[b].shaft == "output")
            for (const LoadState& state : states) most = std::max(most, state.bearings[b].F_a_N);
    const double overload = s.event.legs[0].overload;
    CHECK(most == rel(0.12 * overload * 300 * 41 / 33 / 0.029, 1e-9));
}

TEST_CASE("bearings: an entered rating replaces its estimate, each rating alone") {
    Setup s = on(Holding::tapered_out);
    s.event.legs.clear();
    s.bearings[0].dynamic_rating_N = 123456;
    s.bearings[1].static_rating_N = 234567;
    s.bearings[2].fatigue_limit_N = 9999;
    s.bearings[3].f0 = 3.21;
    const Loads loads = calculate_loads(s);
    const auto size = bearing_estimate::estimate(BearingKind::tapered_roller, {70, 110, 25}, 16);
    CHECK(loads.bearings[0].C_N == 123456);
    CHECK(loads.bearings[0].C_0_N == size.C_0_N);
    CHECK(loads.bearings[1].C_N == size.C_N);
    CHECK(loads.bearings[1].C_0_N == 234567);
    CHECK(loads.bearings[1].C_u_N ==
          rel(iso_281::fatigue_limit_N(BearingKind::tapered_roller, {234567, 90}), 1e-12));
    CHECK(loads.bearings[2].C_u_N == 9999);
    CHECK(loads.bearings[3].f0 == 3.21);
    for (const BearingData& data : loads.bearings) CHECK(data.contact_angle_deg == 16);
    CHECK(std::count_if(loads.notes.begin(), loads.notes.end(), [](const Note& note) {
              return note.id == "bearing.rating_estimated";
          }) == 4);
    // Below 20 deg the factors of angular contact need the ISO 76 factor, ratings entered or not.
    Setup steep = on(Holding::angular);
    for (BearingInput& one : steep.bearings) {
        one.contact_angle_deg = 15;
        one.dynamic_rating_N = 80e3;
        one.static_rating_N = 70e3;
    }
    const Assessment answer = assess(steep);
    CHECK(answer.loads.bearings[0].f_0 > 10);
    CHECK(answer.fitted.damage.bearings[0].life_share > 0);
    CHECK_FALSE(noted(answer.loads.notes, "bearing.rating_estimated"));
}

TEST_CASE("bearings: estimated ratings, sizes in no table and small bores have their notes") {
    Setup s = on(Holding::spherical_and_roller);
    s.event.legs.clear();
    Loads loads = calculate_loads(s);
    CHECK(noted(loads.notes, "bearing.rating_spherical"));
    CHECK_FALSE(noted(loads.notes, "bearing.size_not_listed"));
    CHECK_FALSE(noted(loads.notes, "bearing.rating_small_bore"));
    s.bearings[0].width_mm = 21;
    s.bearings[1].bore_mm = 44;
    loads = calculate_loads(s);
    CHECK(noted(loads.notes, "bearing.size_not_listed"));
    CHECK(noted(loads.notes, "bearing.rating_small_bore"));
    // Bores from 50 to 120 mm are listed; outside nobody can tell.
    for (const double bore_mm : {49.6, 50.0, 120.0, 120.6}) {
        s = on(Holding::ball_and_roller);
        s.event.legs.clear();
        for (BearingInput& one : s.bearings) {
            one.bore_mm = bore_mm;
            one.outside_mm = 200;
        }
        CHECK(noted(calculate_loads(s).notes, "bearing.size_not_listed") ==
              (bore_mm == 50 || bore_mm == 120));
    }
    s = on(Holding::tapered_out);
    s.event.legs.clear();
    CHECK_FALSE(noted(calculate_loads(s).notes, "bearing.size_not_listed"));
}

TEST_CASE(
    "bearings: a four-point bearing with more radial load than a tenth of its static rating gets a "
    "note") {
    // A tenth of its static rating is the line.
    for (const bool above : {false, true}) {
        Setup s = on(Holding::four_point_and_roller);
        Loads loads = calculate_loads(s);
        double largest_N = 0;
        for (const LegLoads& leg : loads.legs)
            for (const BinLoads& bin : leg.bins)
                for (std::size_t b = 0; b < bin.nominal.size(); ++b)
                    if (loads.bearings[b].kind == BearingKind::four_point_ball)
                        largest_N = std::max(largest_N, bin.nominal[b].F_r_N);
        for (BearingInput& one : s.bearings)
            one.static_rating_N = 10 * largest_N * (above ? 0.999 : 1.001);
        loads = calculate_loads(s);
        CHECK(noted(loads.notes, "bearing.four_point_misused") == above);
        CHECK(noted(loads.notes, "bearing.four_point_ratio"));
    }
    // Two points carry from 1.27 N axial per N radial; handbook practice.
    for (const double axial_N : {1265.0, 1275.0}) {
        Loads loads;
        BearingData data;
        data.name = "thrust";
        data.kind = BearingKind::four_point_ball;
        data.C_0_N = 50e3;
        loads.bearings = {data};
        BinLoads bin;
        bin.bin.share = 0.25;
        bin.nominal = {{.F_r_N = 1000, .F_a_N = axial_N}};
        LegLoads leg;
        leg.bins = {bin, bin, bin, bin};
        leg.bins[0].nominal[0].F_a_N = 2000;
        loads.legs = {leg};
        note_four_point(loads);
        REQUIRE(loads.notes.size() == (axial_N < 1270 ? 1 : 0));
        if (axial_N < 1270)
            CHECK(loads.notes[0].text.find("75 % of the legs") != std::string::npos);
    }
    const Loads right = calculate_loads(on(Holding::rollers_and_thrust));
    CHECK_FALSE(noted(right.notes, "bearing.four_point_misused"));
    CHECK_FALSE(noted(right.notes, "bearing.four_point_ratio"));
}

TEST_CASE("bearings: a cylindrical roller bearing that is to hold the shaft is refused") {
    // Also where no reader has looked: a setup made in a program.
    Setup s = on(Holding::ball_and_roller);
    for (BearingInput& one : s.bearings) one.locating = one.kind == BearingKind::cylindrical_roller;
    CHECK_THROWS_WITH_AS(
        (void)assess(s),
        "bearing.input_front as the locating one is not calculated by this version", Error);
}

TEST_CASE("bearings: contact angles each kind is calculated with") {
    std::ifstream file(std::string(CASELOAD_ROOT) + "/tests/golden/idler.toml", std::ios::binary);
    const std::string text(std::istreambuf_iterator<char>(file), {});
    const Document document(text, "idler.toml", {});
    const auto reads = [&](const std::string& name, double angle_deg) {
        const std::vector<Change> change{
            {"bearing." + name + ".contact_angle", "\"" + std::to_string(angle_deg) + " deg\""}};
        try {
            (void)document.complete(change);
            return true;
        } catch (const Error&) {
            return false;
        }
    };
    for (const auto& [name, low, high] :
         {std::tuple{"input_1", 5.0, 45.0}, {"idler_1", 15.0, 45.0}, {"output_1", 5.0, 45.0}}) {
        const std::string position = name;
        CAPTURE(position);
        CHECK(reads(name, low * 1.005));
        CHECK_FALSE(reads(name, low * 0.995));
        CHECK(reads(name, high * 0.995));
        CHECK_FALSE(reads(name, high * 1.005));
    }
    std::ifstream other(std::string(CASELOAD_ROOT) + "/tests/golden/full.toml", std::ios::binary);
    const std::string full(std::istreambuf_iterator<char>(other), {});
    const Document two_gears(full, "full.toml", {});
    for (const double angle_deg : {19.9, 20.1, 44.9, 45.1}) {
        const std::vector<Change> change{
            {"bearing.output_thrust.contact_angle", "\"" + std::to_string(angle_deg) + " deg\""}};
        if (angle_deg > 20 && angle_deg < 45)
            CHECK_NOTHROW((void)two_gears.complete(change));
        else
            CHECK_THROWS_AS((void)two_gears.complete(change), Error);
    }
    const std::vector<Change> unused{{"bearing.input_rear.contact_angle", "\"20 deg\""}};
    CHECK(noted(two_gears.complete(unused).notes, "input.unused"));
}

TEST_CASE("bearings: input and output side by side need room past a folded idler") {
    std::ifstream file(std::string(CASELOAD_ROOT) + "/tests/golden/idler.toml", std::ios::binary);
    const std::string text(std::istreambuf_iterator<char>(file), {});
    const Document document(text, "idler.toml", {});
    const std::vector<Change> change{{"case.idler_angle", "\"62 deg\""},
                                     {"bearing.output_1.size", "\"50x230x23 mm\""}};
    // 2 x 152.4 sin(31 deg) = 157.0 mm; half of 90 and 230 mm is 160.
    const Error error = refused_by([&] { (void)document.complete(change); });
    bool said = false;
    for (const Problem& problem : error.problems())
        said = said || problem.text.find(
                           "bearings input_1 and output_1 side by side need 160 "
                           "mm between the shafts; there are 157 mm") == 0;
    CHECK(said);
}

}  // namespace caseload::bearings_tests
