// SPDX-License-Identifier: MIT
// A slice of a leg in which the case stands: time passes, nothing turns.
#include "examples.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include "caseload/assess.hpp"
#include "caseload/heat_curves.hpp"

#include <string>
#include <vector>

namespace caseload::standing_share_tests {

namespace {

constexpr Bin turning{.share = 1, .torque_Nm = 2500, .speed_rpm = 3000, .road_speed_mps = 17};

Setup standing_for(double share) {
    Bin drives = turning;
    drives.share = 1 - share;
    const Bin stands{.share = share, .torque_Nm = 0, .speed_rpm = 0, .road_speed_mps = 0};
    return examples::with_bins(examples::setup("light.toml"), share > 0
                                                                  ? std::vector<Bin>{drives, stands}
                                                                  : std::vector<Bin>{drives});
}

LossLedger losses_at_80(const Setup& setup) {
    const Prepared prepared = prepare(setup);
    return losses_at(setup, prepared.loads, prepared.oil, prepared.losses[0],
                     {.temp_degC = 80, .pump_runs = true})
        .ledger;
}

}  // namespace

TEST_CASE("standing share: losses of rotation count while the car moves, the pump's all the time") {
    const LossLedger all = losses_at_80(standing_for(0));
    const LossLedger part = losses_at_80(standing_for(0.4));
    CHECK(part.mesh_W == rel(0.6 * all.mesh_W, 1e-12));
    CHECK(part.bearings_W == rel(0.6 * all.bearings_W, 1e-9));
    CHECK(part.windage_W == rel(0.6 * all.windage_W, 1e-12));
    CHECK(part.thrown_W == rel(0.6 * all.thrown_W, 1e-12));
    CHECK(part.pocketing_W == rel(0.6 * all.pocketing_W, 1e-12));
    CHECK(part.seals_W == rel(0.6 * all.seals_W, 1e-12));
    CHECK(part.pump_W == rel(all.pump_W, 1e-12));
}

TEST_CASE("standing share: lives count no turns in it, checks see no bearing that slides") {
    const Setup setup = standing_for(0.4);
    const Assessment answer = assess(setup);
    const Prepared prepared = prepare(setup);
    for (std::size_t b = 0; b < setup.bearings.size(); ++b) {
        CHECK(bearing_condition(prepared, {0, 1, b}, 80, nullptr).rate_per_h == 0);
        const BearingDamage& damage = answer.fitted.damage.bearings[b];
        CHECK(damage.worst_kappa > 0.1);
        CHECK(damage.worst_kappa < 100);
    }
    const auto flank = [](const Setup& of) {
        return gear_damage(of, calculate_loads(of)).front().drive.flank_share;
    };
    CHECK(flank(setup) > 0);
    CHECK(flank(setup) == rel(0.6 * flank(standing_for(0)), 1e-12));
    for (const Check& check : answer.fitted.checked.checks)
        if (check.id == CheckId::bearing_least_load) CHECK(check.value == 0);
    for (const Note& note : answer.notes) CHECK(note.id != "bearing.kappa_below");
    CHECK(answer.driving_h == rel(1, 1e-12));
    CHECK(answer.distance_m == rel(0.6 * 17 * 3600, 1e-12));
}

// A bin that turns ever more slowly under no load ends where the standing one is, but for the
// checks of a bearing that rolls: there is no least speed at which one settles.
TEST_CASE("standing share: the oil is as hot as with a share that hardly turns") {
    Setup slow = standing_for(0.4);
    slow.event.legs[0].bins[1].speed_rpm = 0.001;
    CHECK(within(assess(slow).fitted.legs[0].at_rest.nodes.oil_degC,
                 assess(standing_for(0.4)).fitted.legs[0].at_rest.nodes.oil_degC, 0.01));
}

TEST_CASE(
    "standing share: the program reads it, why recalculates every number, and torque in it is "
    "refused") {
    const OwnFolder own("standing");
    const std::string base =
        "caseload = 1\nbase = \"pattern:two-gear-185mm\"\ngears.fitted = [33, 41]\n"
        "oil.grade = \"75W-90 synthetic\"\nhousing.place = \"open\"\nvehicle.mass = \"1750 kg\"\n"
        "vehicle.tyre = \"35 in\"\nvehicle.axle_ratio = 5.13\nvehicle.engine_power = \"430 hp\"\n"
        "event.ambient = \"34 degC\"\nevent.run = [\"a\"]\nleg.a.duration = \"2 h\"\n"
        "leg.a.bins = [{ share = 0.7, torque = \"600 N m\", speed = \"3000 rpm\", road_speed = "
        "\"60 km/h\" }, { share = 0.3, torque = \"TORQUE\", speed = \"SPEED\", road_speed = \"0 "
        "km/h\" }]\n";
    const auto with = [&](const std::string& torque, const std::string& speed) {
        std::string text = base;
        text.replace(text.find("TORQUE"), 6, torque);
        text.replace(text.find("SPEED"), 5, speed);
        own.write("setup.toml", text);
        return own.path("setup.toml");
    };
    const std::string stands = with("0 N m", "0 rpm");
    CHECK(run_program_as_user("assess " + stands + " --draws 63").code == 0);
    const Run why = run_program_as_user("why " + stands + " --check");
    INFO(why.out);
    CHECK(why.code == 0);
    const Run torque = run_program_as_user("assess " + with("5 N m", "0 rpm"));
    CHECK(torque.code == 2);
    CHECK(test_files::has(torque.out, "row 2: 5 N m at 0 rpm"));
    const Run crawl = run_program_as_user("assess " + with("0 N m", "0.5 rpm"));
    CHECK(crawl.code == 2);
    CHECK(test_files::has(crawl.out, "neither 0 nor from 1 to 20000 rpm"));
}

}  // namespace caseload::standing_share_tests
