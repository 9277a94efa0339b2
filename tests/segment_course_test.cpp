// SPDX-License-Identifier: MIT
// A course whose duty the segment model makes, from the setup to the answer.
#include "ask/fast_case.hpp"
#include "caseload/ask/compare.hpp"
#include "caseload/ask/course_pace.hpp"
#include "caseload/ask/on_ground.hpp"
#include "caseload/ask/region.hpp"
#include "caseload/ask/sets.hpp"
#include "caseload/damage.hpp"
#include "caseload/input.hpp"
#include "caseload/show/json.hpp"
#include "caseload/units.hpp"
#include "files.hpp"
#include "program.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace caseload::segment_course_tests {

namespace {

const std::string desert_file = std::string(CASELOAD_ROOT) + "/tests/segments/desert.toml";

Document desert() {
    return {test_files::file_text(desert_file), "desert.toml", {}};
}

ReadSetup read_with(const std::vector<Change>& changes) {
    return desert().complete(changes);
}

const LegInput& leg_of(const ReadSetup& read) {
    return read.setup.event.legs.front();
}

const CourseDuty& likely_of(const ReadSetup& read) {
    return leg_of(read).calculated.at(place_of_drawn(likely_duty));
}

double kmph(const ReadSetup& read) {
    return kmph_from_mps(leg_of(read).course_pace_mps);
}

const std::vector<std::string> all_courses{"hard-road", "graded", "rough-desert",
                                           "sand",      "rock",   "forest"};

Change course(const std::string& name) {
    return {"event.course", "\"" + name + "\""};
}

}  // namespace

TEST_CASE("segment course: fifteen duties, the likely one in the middle, five of them with bins") {
    const ReadSetup read = read_with({});
    const std::vector<CourseDuty>& all = leg_of(read).calculated;
    REQUIRE(all.size() == course_duties);
    std::size_t with_bins = 0;
    for (const CourseDuty& duty : all) {
        if (duty.bins.empty()) continue;
        ++with_bins;
        double share = 0;
        double way_mps = 0;
        double power_W = 0;
        for (const Bin& bin : duty.bins) {
            share += bin.share;
            way_mps += bin.share * bin.road_speed_mps;
            power_W += bin.share * std::max(bin.torque_Nm, 0.0) * radps_from_rpm(bin.speed_rpm);
        }
        // Bins keep time, way and work.
        CHECK(share == rel(1, 1e-9));
        CHECK(way_mps == rel(duty.pace_mps, 1e-3));
        CHECK(power_W == rel(duty.drive_power_W, 5e-3));
    }
    CHECK(with_bins == drawn_duties);
    CHECK(likely_of(read).style == 0);
    CHECK(likely_of(read).severity == 1);
    CHECK(likely_of(read).resistance_factor == 1);
    // By power but for the likely one.
    for (std::size_t i = 1; i < all.size(); ++i)
        if (i != course_duties / 2 && i != course_duties / 2 + 1)
            CHECK(all[i].drive_power_W >= all[i - 1].drive_power_W);
    // The car of the published check of the lap, in thinner air: 89.4 km/h.
    CHECK(kmph(read) == rel(89.4, 0.01));
    CHECK(leg_of(read).distance_m == rel(leg_of(read).course_pace_mps * 6 * 3600, 1e-12));
    CHECK(leg_of(read).overload == 1.10);
    CHECK(leg_of(read).course_lines.empty());
}

TEST_CASE("segment course: more power never lowers the pace, on any ground") {
    for (const std::string& name : all_courses) {
        CAPTURE(name);
        double before_mps = 0;
        double before_Nm = 0;
        for (const char* power : {"\"250 hp\"", "\"430 hp\"", "\"850 hp\"", "\"1000 hp\""}) {
            CAPTURE(power);
            const ReadSetup read = read_with({course(name), {"vehicle.engine_power", power}});
            CHECK(leg_of(read).course_pace_mps >= before_mps * (1 - 1e-9));
            CHECK(likely_of(read).torque_cube_Nm >= before_Nm * (1 - 1e-9));
            before_mps = leg_of(read).course_pace_mps;
            before_Nm = likely_of(read).torque_cube_Nm;
        }
    }
}

TEST_CASE("segment course: no bin has more torque than tyres and engine give") {
    for (const std::string& name : all_courses) {
        CAPTURE(name);
        const ReadSetup read = read_with({course(name)});
        const VehicleInput& vehicle = read.setup.vehicle;
        const double ratio = 41.0 / 33;
        // Largest grip of the courses at vehicle.grip 0.6 is 0.75; 0.94 from case to ground.
        const double most_Nm = 0.75 * vehicle.mass_kg * g_mps2 * vehicle.rolling_radius_m /
                               (vehicle.axle_ratio * ratio * 0.94);
        for (const CourseDuty& duty : leg_of(read).calculated)
            for (const Bin& bin : duty.bins) {
                // A bin is the mean of many states, whose torques bend over speed.
                constexpr double grouped = 5e-3;
                CHECK(bin.torque_Nm <= most_Nm * (1 + 1e-9));
                // Without a gearbox 0.93 of the rated power at every speed, 0.94 to the case.
                CHECK(bin.torque_Nm * radps_from_rpm(bin.speed_rpm) <=
                      0.93 * 0.94 * vehicle.engine_power_W * (1 + grouped));
            }
    }
}

TEST_CASE("segment course: a pace that is said is reproduced, for every driver drawn") {
    for (const std::string& name : all_courses) {
        CAPTURE(name);
        const double usual_mps = leg_of(read_with({course(name)})).course_pace_mps;
        for (const double share : {0.6, 0.9, 1.0, 1.05}) {
            CAPTURE(share);
            const double said_mps = share * usual_mps;
            const ReadSetup read =
                read_with({course(name), {"event.pace", fmt::format("\"{} m/s\"", said_mps)}});
            CHECK(leg_of(read).pace_said);
            for (const CourseDuty& duty : leg_of(read).calculated)
                CHECK(duty.pace_mps == rel(said_mps, 1e-3));
        }
    }
    // By distance and duration.
    const ReadSetup both = read_with({{"event.distance", "\"564 km\""}});
    CHECK(kmph(both) == rel(94, 1e-3));
    CHECK(likely_of(both).severity == rel(0.899, 0.02));
}

TEST_CASE("segment course: a distance alone takes its hours from the model") {
    std::string text = test_files::file_text(desert_file);
    const std::string hours = "duration = \"6 h\"";
    text.replace(text.find(hours), hours.size(), "distance = \"536 km\"");
    const ReadSetup read = Document(text, "desert.toml", {}).complete();
    CHECK(!leg_of(read).pace_said);
    CHECK(leg_of(read).distance_m == 536000);
    CHECK(leg_of(read).duration_s == rel(536000 / leg_of(read).course_pace_mps, 1e-12));
    // The fixed course needs both.
    const Error refused = refused_by([&] {
        (void)Document(text, "desert.toml", {})
            .complete(std::vector<Change>{{"event.course_model", "\"fixed\""}});
    });
    CHECK(std::string(refused.what()).find("event.duration is missing") != std::string::npos);
}

TEST_CASE("segment course: a pace that the car cannot have is refused with the pace it can have") {
    const Error refused = refused_by([] {
        (void)read_with({{"vehicle.engine_power", "\"250 hp\""}, {"event.pace", "\"200 km/h\""}});
    });
    CHECK(refused.kind() == Error::Kind::input);
    const std::string words = refused.problems().front().text;
    CHECK(words.find("event.pace: 200 km/h on rough-desert: this car does at most ") == 0);
    const Run run = run_program_as_user("assess " + desert_file + " --json");
    CHECK(run.code == 0);
}

TEST_CASE("segment course: a pace below where the car runs at the course's cap is traffic") {
    const ReadSetup read = read_with({course("hard-road"), {"event.pace", "\"50 km/h\""}});
    CHECK(kmph(read) == rel(50, 1e-3));
    CHECK(likely_of(read).severity == 1);
    CHECK(likely_of(read).traffic < 0.7);
    CHECK(std::any_of(read.notes.begin(), read.notes.end(),
                      [](const Note& note) { return note.id == "ask.ground"; }));
    CHECK(likely_of(read_with({{"event.pace", "\"94 km/h\""}})).traffic == 1);
}

TEST_CASE("segment course: style moves the pace in its order, and the range without one has all") {
    const double finish = kmph(read_with({{"event.style", "\"finish\""}}));
    const double quick = kmph(read_with({{"event.style", "\"quick\""}}));
    const double flat_out = kmph(read_with({{"event.style", "\"flat-out\""}}));
    CHECK(finish < quick);
    CHECK(quick < flat_out);
    CHECK(quick == rel(kmph(read_with({})), 1e-12));
    const CoursePace all = course_paces(read_with({}).setup).front();
    CHECK(all.pace_mps.p10 < all.pace_mps.p50);
    CHECK(all.pace_mps.p50 < all.pace_mps.p90);
    const CoursePace one = course_paces(read_with({{"event.style", "\"quick\""}}).setup).front();
    CHECK(one.pace_mps.p10 > all.pace_mps.p10);
    CHECK(one.pace_mps.p90 < all.pace_mps.p90);
}

TEST_CASE("segment course: fuel, gearbox, driven wheels and wheels reach the lap") {
    const ReadSetup usual = read_with({});
    const auto differs = [&](const std::vector<Change>& changes, double CourseDuty::* member) {
        return likely_of(read_with(changes)).*member != likely_of(usual).*member;
    };
    CHECK(differs({{"vehicle.fuel", "\"methanol\""}}, &CourseDuty::fuel_Lph));
    CHECK(differs({{"vehicle.driven", "\"rear\""}}, &CourseDuty::pace_mps));
    CHECK(differs({{"vehicle.wheel_mass", "\"120 kg\""}}, &CourseDuty::pace_mps));
    CHECK(likely_of(read_with({{"vehicle.fuel", "\"methanol\""}})).fuel_Lph /
              likely_of(usual).fuel_Lph ==
          rel(32 / 15.8, 1e-9));
    const std::vector<Change> gears{{"vehicle.gearbox", "[2.48, 1.48, 1.0]"},
                                    {"vehicle.engine_limit", "\"6800 rpm\""}};
    const auto with = [&](const Change& one) {
        std::vector<Change> changes = gears;
        changes.push_back(one);
        return likely_of(read_with(changes)).torque_cube_Nm;
    };
    // Three ratios: an automatic.
    CHECK(with({"vehicle.gearbox_kind", "\"automatic\""}) ==
          likely_of(read_with(gears)).torque_cube_Nm);
    CHECK(with({"vehicle.rated_speed", "\"5500 rpm\""}) !=
          likely_of(read_with(gears)).torque_cube_Nm);
    const double stock = kmph(read_with({{"vehicle.suspension", "\"stock\""}}));
    CHECK(stock < 0.6 * kmph(usual));
}

TEST_CASE("segment course: the tables of the draws meet the chain at every duty drawn") {
    const Setup setup = read_with({}).setup;
    const FastCase fast(setup);
    for (std::size_t drawn = 0; drawn < drawn_duties; ++drawn) {
        CAPTURE(drawn);
        Setup other = setup;
        other.factors.pace_rank = (static_cast<double>(drawn) + 0.5) / drawn_duties;
        const Prepared prepared = prepare(other);
        for (const bool cooler : {true, false}) {
            CAPTURE(cooler);
            const EventHeat direct =
                event_heat(prepared, {.cooler = cooler, .pump = true, .fan = true});
            const DrawResult quick = fast.run(other.factors, cooler);
            if (direct.peak_oil_degC > oil_ceiling_degC) continue;
            CHECK(std::fabs(quick.peak_oil_degC - direct.peak_oil_degC) < 0.3);
            const Damage damage = event_damage(prepared, direct);
            for (std::size_t b = 0; b < damage.bearings.size(); ++b)
                CHECK(quick.life_share[b] == rel(damage.bearings[b].life_share, 0.03));
        }
    }
}

TEST_CASE("segment course: driver and ground move the range, and the range has the likely") {
    const Setup setup = read_with({}).setup;
    const Assessment likely = assess(setup);
    const Band all = band(setup, likely, {.draws = 255});
    const Percentiles& oil = all.fitted.peak_oil_degC;
    CHECK(oil.p10 < likely.fitted.event.peak_oil_degC);
    CHECK(likely.fitted.event.peak_oil_degC < oil.p90);
    double share = 0;
    for (const FactorShare& one : all.shares)
        if (one.words == "drive: driver and ground") share = one.share;
    CHECK(share > 0.02);
    // Their own load factor beside the drive: 0.10.
    REQUIRE(ranges_of(setup).load_sd);
    CHECK(*ranges_of(setup).load_sd == rel(0.10, 1e-12));
}

TEST_CASE("segment course: the same bytes on one thread and on two") {
    const auto screen = [](const std::string& threads) {
        return run_program_as_user("assess " + desert_file + " --draws 127 --threads " + threads)
            .out;
    };
    CHECK(screen("1") == screen("2"));
}

TEST_CASE("segment course: a comparison holds the ground, not the pace") {
    const std::vector<Change> said{{"event.pace", "\"94 km/h\""}};
    const ReadSetup first = read_with(said);
    const OnGround ground(first);
    const auto other = [&](const Change& change) {
        std::vector<Change> changes = ground.with({change});
        changes.insert(changes.begin(), said.front());
        return read_with(changes);
    };
    const ReadSetup same = other({"oil.fill", "\"3 L\""});
    CHECK(kmph(same) == rel(94, 1e-5));
    for (std::size_t i = 0; i < course_duties; ++i)
        CHECK(leg_of(same).calculated[i].severity ==
              rel(leg_of(first).calculated[i].severity, 1e-4));
    const ReadSetup stronger = other({"vehicle.engine_power", "\"1000 hp\""});
    // Derived with the prototype of the lap: 94.0 -> 94.4 km/h, cube mean 867 -> 906 N m.
    CHECK(kmph(stronger) / kmph(first) == rel(94.4 / 94.0, 1e-3));
    CHECK(likely_of(stronger).torque_cube_Nm / likely_of(first).torque_cube_Nm ==
          rel(906.0 / 867, 0.01));
    CHECK(likely_of(stronger).severity == likely_of(first).severity);
    // Every driver has the ground of the pace this car has on it.
    for (const CourseDuty& duty : leg_of(stronger).calculated)
        CHECK(duty.pace_mps == rel(leg_of(stronger).course_pace_mps, 1e-3));
    // A change of the pace, the course or the style solves the ground anew.
    for (const Change& change : {Change{"event.pace", "\"90 km/h\""}, course("graded"),
                                 Change{"event.style", "\"flat-out\""}})
        CHECK(ground.with({change}).size() == 1);
    // Nothing said, nothing to hold.
    CHECK(OnGround(read_with({})).with({}).empty());
}

TEST_CASE("segment course: compare, --grid and sets keep the ground") {
    std::string text = test_files::file_text(desert_file);
    text += "pace = \"94 km/h\"\n";
    const Document document(text, "desert.toml", {});
    const ReadSetup read = document.complete();
    const double severity = likely_of(read).severity;
    const FewChanged few(document);
    const Setup setup = few.setup(OnGround(read).with({{"vehicle.engine_power", "\"1000 hp\""}}));
    CHECK(setup.event.legs.front().calculated[place_of_drawn(likely_duty)].severity == severity);
    CHECK(setup.event.legs.front().course_pace_mps > leg_of(read).course_pace_mps);
    // The same file under another name is on the same ground; one with another pace is not.
    CHECK(OnGround(read).under(read).size() == 1);
    CHECK(OnGround(read)
              .under(document.complete(std::vector<Change>{{"event.pace", "\"90 km/h\""}}))
              .empty());
    const ReadSetup changed =
        document.complete(OnGround(read).with({{"vehicle.engine_power", "\"1000 hp\""}}));
    const Calculated before = calculated(read, {.draws = 63});
    const Calculated after = calculated(changed, {.draws = 63});
    const Comparison between = compare(before, after);
    CHECK(std::any_of(between.power.begin(), between.power.end(), [](const std::string& words) {
        return words.find("On the same ground, rough-desert: 94.0 -> 94.") == 0;
    }));
}

TEST_CASE("segment course: left out and fixed are the same, and model keys without it are noted") {
    const std::vector<Change> fixed{{"event.course_model", "\"fixed\""}};
    const ReadSetup read = read_with(fixed);
    CHECK(leg_of(read).calculated.empty());
    CHECK(leg_of(read).course_lines.size() > 1);
    CHECK(leg_of(read).overload == 1.25);
    CHECK(std::any_of(read.notes.begin(), read.notes.end(), [](const Note& note) {
        return note.id == "input.unused" && note.about == "vehicle.wheel_travel";
    }));
}

TEST_CASE("segment course: the screen and JSON say pace and limits") {
    const Run screen = run_program_as_user("assess " + desert_file + " --draws 63");
    CHECK(screen.code == 0);
    CHECK(screen.out.find("PACE") != std::string::npos);
    CHECK(screen.out.find("this car on rough-desert: ") != std::string::npos);
    CHECK(screen.out.find("LIMITS") != std::string::npos);
    const Run json = run_program_as_user("assess " + desert_file + " --draws 63 --json");
    CHECK(json.out.find(R"("courses":[{"leg":"rough-desert")") != std::string::npos);
}

}  // namespace caseload::segment_course_tests
