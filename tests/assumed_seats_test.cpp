// SPDX-License-Identifier: MIT
// Rings that nothing is said of: straight in the housing, and said so.
#include "caseload/assess.hpp"
#include "examples.hpp"
#include "program.hpp"
#include "support.hpp"

#include <algorithm>
#include <string>

namespace caseload::assumed_seats_tests {

namespace {

ReadSetup ten(const std::vector<Change>& changes = {}) {
    return Document(new_setup_text(), "ten.toml", {}).complete(changes);
}

const BearingInput& bearing(const Setup& setup, const std::string& name) {
    return *std::find_if(setup.bearings.begin(), setup.bearings.end(),
                         [&](const BearingInput& one) { return one.name == name; });
}

}  // namespace

TEST_CASE("assumed seats: N7 straight in the housing, a boss 50 mm larger than the ring") {
    const Setup setup = ten().setup;
    REQUIRE(setup.bearings.size() == 4);
    for (const BearingInput& one : setup.bearings) {
        CAPTURE(one.name);
        CHECK(one.has_seat);
        CHECK(one.seat.assumed);
        CHECK(one.seat.carrier == Carrier::aluminium);
        CHECK(one.seat.held == Held::none);
        CHECK(one.seat.ring_fit == "N7");
        CHECK(one.seat.boss_outside_mm == one.outside_mm + 50);
        CHECK(!one.seat.shaft_interference_mm);
    }
    CHECK(fitted_answer(setup).fitted.checked.seats.size() == 4);
}

TEST_CASE("assumed seats: none for small and axial rings and where the ring's fit is entered") {
    const Setup one_entered =
        ten({{"bearing.output_rear.seat.ring_interference", "\"0.03 mm\""}}).setup;
    CHECK(!bearing(one_entered, "output_rear").seat.assumed);
    CHECK(bearing(one_entered, "output_rear").seat.ring_fit.empty());
    // Only the boss is left to assume, for any size.
    CHECK(bearing(one_entered, "output_rear").seat.boss_assumed);
    CHECK(bearing(one_entered, "output_rear").seat.boss_outside_mm ==
          bearing(one_entered, "output_rear").outside_mm + 50);
    const Setup small = ten({{"bearing.output_rear.seat.ring_interference", "\"0.03 mm\""},
                             {"bearing.output_rear.size", "\"35x72x17 mm\""}})
                            .setup;
    CHECK(bearing(small, "output_rear").seat.boss_outside_mm == 122);
    // The boss of a sleeve is round the sleeve.
    const Setup sleeve = ten({{"bearing.output_rear.seat.ring_fit", "\"N7\""},
                              {"bearing.output_rear.seat.carrier", "\"steel-retainer\""},
                              {"bearing.output_rear.seat.retainer_outside", "\"200 mm\""},
                              {"bearing.output_rear.seat.retainer_interference", "\"0.1 mm\""}})
                             .setup;
    CHECK(bearing(sleeve, "output_rear").seat.boss_outside_mm == 250);
    CHECK(bearing(one_entered, "output_front").seat.assumed);
    // What keeps a ring from turning says nothing of its fit.
    const Setup pinned = ten({{"bearing.output_rear.seat.held", "\"pin\""}}).setup;
    CHECK(bearing(pinned, "output_rear").seat.assumed);
    CHECK(bearing(pinned, "output_rear").seat.held == Held::pin);
    // The inner ring's fit says nothing of the outer one's, and is calculated with it.
    const Setup on_shaft =
        ten({{"bearing.output_rear.seat.shaft_interference", "\"0.03 mm\""}}).setup;
    CHECK(bearing(on_shaft, "output_rear").seat.assumed);
    CHECK(bearing(on_shaft, "output_rear").seat.shaft_interference_mm == 0.03);
    const std::vector<SeatResult> seats = fitted_answer(on_shaft).fitted.checked.seats;
    CHECK(std::count_if(seats.begin(), seats.end(),
                        [](const SeatResult& seat) { return seat.shaft_fit_known; }) == 1);
    CHECK(assumed_boss_mm(80) == 130);
    CHECK(!assumed_boss_mm(79.9));
    CHECK(assumed_boss_mm(250) == 300);
    CHECK(!assumed_boss_mm(251));
    // Another size takes another boss, by the whole reading and by the quick one.
    const Document document(new_setup_text(), "ten.toml", {});
    const Change larger{"bearing.output_rear.size", "\"80x140x26 mm\""};
    CHECK(bearing(document.complete({&larger, 1}).setup, "output_rear").seat.boss_outside_mm ==
          190);
    CHECK(bearing(FewChanged(document).setup(larger), "output_rear").seat.boss_outside_mm == 190);
}

TEST_CASE("assumed seats: all fits go to their ends together") {
    const Document document(new_setup_text(), "ten.toml", {});
    const std::vector<Worth> all = assumptions_by_worth(document, document.complete());
    int fits = 0;
    for (const Worth& one : all)
        if (one.entry.field == "bearing.*.seat.ring_fit") {
            ++fits;
            CHECK(one.entry.key == "bearing.*.seat.ring_fit");
            CHECK(one.entry.number == "N7");
            CHECK(one.entry.low == "\"K7\"");
            CHECK(one.entry.high == "\"P7\"");
        }
    CHECK(fits == 1);
}

TEST_CASE("assumed seats: the first screen says what is assumed and what follows") {
    const std::string root = CASELOAD_ROOT;
    const Run seen = run_program_as_user("assess --draws 63 " + root + "/docs/examples/dip.toml");
    REQUIRE(seen.code == 0);
    CHECK(seen.out.find("SEATS assumed rings straight in the aluminium (N7): free above ") !=
          std::string::npos);
    CHECK(seen.out.find("their load holds them (slip margin ") != std::string::npos);
    CHECK(seen.out.find("Enter bearing.*.seat") != std::string::npos);
}

}  // namespace caseload::assumed_seats_tests
