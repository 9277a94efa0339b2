// SPDX-License-Identifier: MIT
// The train: places, findings, what cannot mesh; what a layout says; swaps.
#include "caseload/assess.hpp"
#include "caseload/error.hpp"
#include "caseload/input.hpp"
#include "caseload/loads.hpp"
#include "caseload/show/json.hpp"
#include "examples.hpp"
#include "loads/setups.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <string>
#include <tuple>
#include <vector>

namespace caseload::train_tests {

using namespace caseload::loads_test;

namespace {

ReadSetup read_example(const std::string& name, const std::vector<Change>& changes = {}) {
    return Document(examples::text(name).value(), name, examples::text).complete(changes);
}

std::string message_of(const Setup& setup) {
    const auto error = error_of([&] { (void)place_train(setup); });
    return error ? error->problems().front().text + " | " + error->problems().front().hint
                 : std::string();
}

bool has(const std::vector<iso_21771::Finding>& all, const std::string& id,
         iso_21771::Finding::Severity severity) {
    return std::any_of(all.begin(), all.end(), [&](const iso_21771::Finding& one) {
        return one.id == id && one.severity == severity;
    });
}

const Note* note_of(const Notes& notes, const std::string& id, const std::string& about) {
    for (const Note& note : notes)
        if (note.id == id && note.about == about) return &note;
    return nullptr;
}

using Severity = iso_21771::Finding::Severity;

}  // namespace

TEST_CASE("train: idler and output are placed by idler angle and drop direction") {
    for (const double angle_deg : {60.0, 130.0, 180.0, 250.0})
        for (const double drop_deg : {0.0, 30.0, -100.0})
            for (const bool clockwise : {true, false}) {
                Setup s = train_of({30, 36, 42}, 4);
                s.transfer_case.idler_angle_deg = angle_deg;
                s.transfer_case.drop_direction_deg = drop_deg;
                s.transfer_case.input_turns_clockwise = clockwise;
                const Train t = place_train(s);
                const ShaftPlace& in = t.shafts[0];
                const ShaftPlace& idler = t.shafts[1];
                const ShaftPlace& out = t.shafts[2];
                const auto apart = [](const ShaftPlace& a, const ShaftPlace& b) {
                    return std::hypot(a.y_mm - b.y_mm, a.z_mm - b.z_mm);
                };
                CHECK(apart(in, idler) == rel(132, 1e-12));
                CHECK(apart(idler, out) == rel(156, 1e-12));
                // Cosine rule across the idler.
                CHECK(apart(in, out) ==
                      rel(std::sqrt(132 * 132 + 156 * 156 -
                                    2 * 132 * 156 * std::cos(angle_deg * pi / 180)),
                          1e-12));
                // 0 straight below, positive to the right.
                CHECK(within(out.y_mm, apart(in, out) * std::sin(drop_deg * pi / 180), 1e-9));
                CHECK(within(out.z_mm, -apart(in, out) * std::cos(drop_deg * pi / 180), 1e-9));
                // From the line to the input on by the angle, the way the idler turns.
                const double to_in = std::atan2(in.z_mm - idler.z_mm, in.y_mm - idler.y_mm);
                const double to_out = std::atan2(out.z_mm - idler.z_mm, out.y_mm - idler.y_mm);
                const double turned = (idler.clockwise ? -1 : 1) * (to_out - to_in) * 180 / pi;
                CHECK(within(std::fmod(turned + 720, 360), std::fmod(angle_deg, 360), 1e-9));
                CHECK(idler.clockwise != clockwise);
                CHECK(out.clockwise == clockwise);
                CHECK(t.ratio == rel(42.0 / 30, 1e-12));
                CHECK(idler.torque_ratio == 0);
                CHECK(out.torque_ratio == rel(1.4, 1e-12));
            }
    Setup folded = train_of({30, 36, 30}, 4);
    folded.transfer_case.idler_angle_deg = 0;
    CHECK(message_of(folded).find("share one axis") != std::string::npos);
}

TEST_CASE("train: mass of steel and the weight on each shaft, by hand") {
    // Discs of the working pitch circles, 30, 36 and 42 teeth of 4 mm, 40 mm wide, of 7830 kg/m3;
    // shafts, hubs and bearings a fifth besides (judgement).
    Setup s = train_of({30, 36, 42}, 4);
    s.transfer_case.idler_angle_deg = 180;
    s.transfer_case.steel_mass_kg.reset();
    const Train t = place_train(s);
    const double discs_kg = pi / 4 * (0.120 * 0.120 + 0.144 * 0.144 + 0.168 * 0.168) * 0.040 * 7830;
    CHECK(t.steel_mass_kg == rel(1.2 * discs_kg, 1e-12));
    const std::array<double, 3> d_w_mm{120, 144, 168};
    for (std::size_t i = 0; i < 3; ++i) {
        const double disc_kg = pi / 4 * d_w_mm[i] * d_w_mm[i] * 1e-6 * 0.040 * 7830;
        CHECK(t.shafts[i].weight_N == rel(1.2 * disc_kg * 9.80665, 1e-12));
    }
    // An entered mass is shared in the same way.
    s.transfer_case.steel_mass_kg = 20;
    const Train entered = place_train(s);
    CHECK(entered.steel_mass_kg == 20);
    CHECK(entered.shafts[2].weight_N ==
          rel(20 * 9.80665 * 168 * 168 / (120 * 120 + 144 * 144 + 168 * 168), 1e-12));
}

TEST_CASE("train: teeth that cannot mesh get the sums that would, on either mesh") {
    Setup s = train_of({30, 36, 42}, 4);
    CHECK(message_of(s).empty());
    s.gears.teeth = {30, 32, 46};  // 62 on 132 mm; 78 on 156 mm
    CHECK(message_of(s) ==
          "gears.fitted 30/32: 62 teeth together do not mesh on 132 mm with module 4 mm | tooth "
          "sums that fit this centre distance: 64, 65, 66, 67, 68 (no profile shift at 66.0)");
    s.gears.teeth = {30, 36, 50};
    CHECK(message_of(s) ==
          "gears.fitted 36/50: 86 teeth together do not mesh on 156 mm with module 4 mm | tooth "
          "sums that fit this centre distance: 76, 77, 78, 79, 80 (no profile shift at 78.0)");
    Setup two = train_of({33, 41}, 5);
    two.gears.teeth = {33, 44};
    CHECK(message_of(two).find("72, 73, 74, 75, 76") != std::string::npos);
}

TEST_CASE("train: drop sets share one centre distance, either gear on either shaft") {
    // Sums beside 80 on 200 mm by profile shift, as the published shifts have it, shared evenly.
    Setup s = train_of({36, 44}, 5);
    for (const auto& [a, b, X] :
         {std::tuple{36, 44, 0.0}, {35, 44, 0.5229}, {36, 45, -0.4756}, {34, 44, 1.0892}}) {
        for (const bool swapped : {false, true}) {
            s.gears.teeth = swapped ? std::vector{b, a} : std::vector{a, b};
            const Train t = place_train(s);
            const iso_21771::Pair& p = t.meshes[0].pair;
            CHECK(within(p.x_sum, X, 5e-5));
            CHECK(within(p.x_1, p.x_2, 1e-12));
            CHECK(p.d_w1_mm + p.d_w2_mm == rel(400, 1e-12));
            CHECK(t.ratio == rel(swapped ? 1.0 * a / b : 1.0 * b / a, 1e-12));
        }
    }
}

TEST_CASE("train: each finding of each mesh comes once, with its severity") {
    Setup s = train_of({28, 36, 39}, 4, 15);
    Train t = place_train(s);
    REQUIRE(t.findings.size() == 2);
    CHECK(t.findings[0].text.find("28/36: the same teeth meet every 9 turns") == 0);
    CHECK(t.findings[1].text.find("36/39: the same teeth meet every 13 turns") == 0);
    CHECK(has(t.findings, "hunting_tooth", Severity::note));
    CHECK_FALSE(has(t.findings, "thrust_turns", Severity::note));  // input and output: one hand
    // Undercut of an idler of 14 teeth belongs to both meshes and is said once.
    t = place_train(train_of({40, 14, 43}, 4));
    CHECK(std::count_if(t.findings.begin(), t.findings.end(),
                        [](const auto& finding) { return finding.id == "undercut"; }) == 1);
    CHECK(has(t.findings, "undercut", Severity::watch));
    // Two helical gears that may change places.
    CHECK(has(place_train(train_of({33, 41}, 5, 15)).findings, "thrust_turns", Severity::note));
    CHECK_FALSE(has(place_train(train_of({33, 41}, 5)).findings, "thrust_turns", Severity::note));
}

TEST_CASE("train: steel between roots and bore, of shaft or rim") {
    // 33 teeth of 5 mm: roots at 152.5 mm, mean diameter 163.75 mm. Rims of 3.5, 2.7 and 0 modules
    // are bores of 117.5, 125.5 and 152.5 mm.
    Setup s = train_of({33, 41}, 5);
    const auto of = [&](double bore_mm, double ratio) {
        s.shafts["input"].bore_mm = bore_mm;
        s.gears.rim_bore_ratio = ratio;
        return place_train(s).findings;
    };
    const auto none = of(117.4, 0);
    CHECK(std::none_of(none.begin(), none.end(), [](const auto& one) { return one.id == "rim"; }));
    CHECK(has(of(117.6, 0), "rim", Severity::note));
    CHECK(has(of(125.4, 0), "rim", Severity::note));
    CHECK(has(of(125.6, 0), "rim", Severity::watch));
    CHECK(has(of(152.6, 0), "rim", Severity::stop));
    CHECK(has(of(0, 117.7 / 163.75), "rim", Severity::note));
    const auto both = of(0, 117.3 / 163.75);  // of 41 teeth too: mean 203.75, roots 192.5 mm
    CHECK(std::none_of(both.begin(), both.end(), [](const auto& one) { return one.id == "rim"; }));
    // A gear without steel stops the case.
    const ReadSetup read = read_example("light.toml", {{"shaft.input.bore", "\"160 mm\""}});
    const Assessment answer = assess(read.setup);
    CHECK(answer.stopped_by.find("Gears: the 33 tooth gear has ") == 0);
    CHECK(answer.stopped_by.back() == '.');
}

TEST_CASE("train: sense of turning of each shaft, and the loaded flank of the axle gears") {
    // A rear axle of the usual hand drives on its drive flank when its pinion turns clockwise at
    // its nose, seen from the front: counter-clockwise seen from behind. A front axle's pinion
    // shows its nose to the rear. Two gears turn the sense, three keep it.
    const auto flank = [](const std::string& name, const std::vector<Change>& changes,
                          const std::string& joint) {
        const Loads loads = calculate_loads(read_example(name, changes).setup);
        const Note* note = note_of(loads.notes, "train.axle_flank", "joint." + joint);
        REQUIRE(note != nullptr);
        return note->text.find("usual hand run on their drive flank") != std::string::npos;
    };
    const std::vector<Change> other{{"case.input_turns", "\"counter-clockwise\""}};
    CHECK(flank("light.toml", {}, "rear"));
    CHECK_FALSE(flank("light.toml", {}, "front"));
    CHECK_FALSE(flank("light.toml", other, "rear"));
    CHECK(flank("light.toml", other, "front"));
    CHECK_FALSE(flank("idler.toml", {}, "rear"));
    CHECK(flank("idler.toml", {}, "front"));
    const Loads loads = calculate_loads(read_example("idler.toml").setup);
    CHECK(note_of(loads.notes, "train.senses", "gears.train")->text ==
          "driving forward, looking forward from behind: input clockwise, idler "
          "counter-clockwise, output clockwise");
    // A joint at the gearbox turns no axle.
    const Loads gearbox =
        calculate_loads(read_example("light.toml", {{"joint.gearbox.shaft", "\"input\""},
                                                    {"joint.gearbox.end", "\"front\""}})
                            .setup);
    CHECK(note_of(gearbox.notes, "train.axle_flank", "joint.gearbox") == nullptr);
}

TEST_CASE("train: front drive out, the rear joint carries all") {
    const std::vector<Change> gearbox{{"joint.gearbox.shaft", "\"input\""},
                                      {"joint.gearbox.end", "\"front\""},
                                      {"joint.gearbox.angle_down", "\"3 deg\""}};
    std::vector<Change> out = gearbox;
    out.push_back({"leg.loop.front_drive", "false"});
    std::vector<Change> by_hand = gearbox;
    by_hand.push_back({"joint.front.torque_share", "0.0"});
    by_hand.push_back({"joint.rear.torque_share", "1.0"});
    const Loads a = calculate_loads(read_example("light.toml", out).setup);
    const Loads b = calculate_loads(read_example("light.toml", by_hand).setup);
    const Loads all = calculate_loads(read_example("light.toml", gearbox).setup);
    const auto rear = [](const Loads& loads, std::size_t leg) {
        std::vector<double> numbers;
        for (const BinLoads& bin : loads.legs[leg].bins)
            for (const LoadState& state : bin.for_life)
                for (const BearingLoad& load : state.bearings)
                    numbers.insert(numbers.end(), {load.F_r_N, load.F_a_N, load.clock_deg});
        return numbers;
    };
    std::size_t loop = 0;
    while (a.legs[loop].name != "loop") ++loop;
    const std::size_t transit = loop == 0 ? 1 : 0;
    CHECK(rear(a, loop) == rear(b, loop));
    CHECK(rear(a, loop) != rear(all, loop));
    for (std::size_t leg = 0; leg < a.legs.size(); ++leg)
        if (leg != loop) CHECK(rear(a, leg) == rear(all, leg));
    CHECK(transit < a.legs.size());
    CHECK(note_of(a.notes, "leg.no_front_joint", "leg.loop") == nullptr);
    Setup none = read_example("light.toml", out).setup;
    none.joints.erase(std::remove_if(none.joints.begin(), none.joints.end(),
                                     [](const JointInput& j) { return j.name == "front"; }),
                      none.joints.end());
    CHECK(note_of(calculate_loads(none).notes, "leg.no_front_joint", "leg.loop") != nullptr);
}

TEST_CASE("train: swapping gears and hands twice returns the same bytes") {
    // Through the text, as a user does it: complete, swap, complete, swap back.
    const std::vector<Change> helical{{"gears.helix_angle", "\"12 deg\""},
                                      {"gears.hand_on_input", "\"right\""},
                                      {"gears.fitted", "[32, 41]"}};
    const ReadSetup first = read_example("light.toml", helical);
    const std::string text = completed_text(first);
    const auto swapped = [](const std::string& from, const std::string& teeth,
                            const std::string& hand) {
        const std::vector<Change> change{{"gears.fitted", teeth},
                                         {"gears.hand_on_input", "\"" + hand + "\""}};
        return Document(from, "light.toml", {}).complete(change);
    };
    const ReadSetup once = swapped(text, "[41, 32]", "left");
    const ReadSetup twice = swapped(completed_text(once), "[32, 41]", "right");
    const auto json = [](const ReadSetup& read) {
        ReadSetup bare;
        bare.setup = read.setup;
        const Assessment likely = assess(read.setup);
        return assessment_json({bare, likely, Band{}, {}});
    };
    const std::string one = json(first);
    CHECK(json(twice) == one);
    CHECK(json(once) != one);
    // Shafts exchanged as well, by name: the same case, told with other names.
    Setup renamed = first.setup;
    const auto other = [](const std::string& shaft) {
        return shaft == "input" ? std::string("output") : std::string("input");
    };
    for (std::string& shaft : renamed.gears.train) shaft = other(shaft);
    for (BearingInput& one_bearing : renamed.bearings) one_bearing.shaft = other(one_bearing.shaft);
    for (JointInput& joint : renamed.joints) joint.shaft = other(joint.shaft);
    for (SealInput& seal : renamed.seals) seal.shaft = other(seal.shaft);
    std::swap(renamed.shafts["input"], renamed.shafts["output"]);
    const Assessment a = assess(first.setup);
    const Assessment b = assess(renamed);
    CHECK(a.fitted.event.peak_oil_degC == b.fitted.event.peak_oil_degC);
    for (std::size_t i = 0; i < a.fitted.damage.bearings.size(); ++i)
        CHECK(a.fitted.damage.bearings[i].life_share == b.fitted.damage.bearings[i].life_share);
}

TEST_CASE("train: swapping helical gears turns the thrust of both shafts round") {
    Setup s = train_of({33, 41}, 5, 15);
    for (const std::string& shaft : s.gears.train) hold(s, shaft, 20, 112, Holding::tapered_out);
    const auto rearward_N = [](const Setup& setup) {
        Setup whole = setup;
        whole.event.legs.clear();
        const Loads loads = calculate_loads(whole);
        const auto on = bearing_loads(setup, loads.train, loads.bearings, 600, {});
        return std::pair{on[0].F_a_N - on[1].F_a_N, on[2].F_a_N - on[3].F_a_N};
    };
    Setup swapped = s;
    swapped.gears.teeth = {41, 33};
    swapped.gears.hand_on_input = Hand::left;  // the hand goes with the gear
    const auto [in, out] = rearward_N(s);
    const auto [in_swapped, out_swapped] = rearward_N(swapped);
    CHECK(in * in_swapped < 0);
    CHECK(out * out_swapped < 0);
    CHECK(in == rel(-out, 1e-9));
    // F_a = 2 T tan(beta) / d on the reference circle of the driver.
    CHECK(in_swapped == rel(-in * 33 / 41, 1e-9));
}

}  // namespace caseload::train_tests
