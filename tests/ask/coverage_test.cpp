// SPDX-License-Identifier: MIT
// Low to high of a case of ten entries holds 80 of 100 cases it may be. Whole, a hundred cases of
// 200 truths: tests/bench/coverage, docs/hardness.md.
#include "coverage.hpp"
#include "support.hpp"

#include <algorithm>
#include <string>

namespace caseload::coverage_tests {

TEST_CASE("coverage: low to high of ten-entry cases holds 80 of 100 truths written out") {
    // 400 truths of one claim: of a perfect 80 % the share is within 74 to 86 % in 99.7 of 100
    // tries (three standard deviations of the binomial distribution, 2 % each).
    random_setups::Dice dice(23);
    coverage::Covered all;
    for (unsigned number = 1; number <= 8; ++number) {
        const std::string text = coverage::ten_entries(dice);
        CAPTURE(text);
        const coverage::Covered one = coverage::covered(text, 50, number);
        // The least of one case in 50 tries: 80 % less four deviations of 5.7 %.
        CHECK(one.share() > 0.57);
        all.truths += one.truths;
        all.held += one.held;
        all.below += one.below;
    }
    REQUIRE(all.truths == 400);
    MESSAGE("held ", all.held, ", below ", all.below, " of ", all.truths);
    CHECK(all.share() > 0.74);
    CHECK(all.share() < 0.86);
}

TEST_CASE("coverage: an entry inside its assumed ends never widens the range") {
    const std::string text =
        "caseload = 1\nbase = \"pattern:two-gear-185mm\"\ngears.fitted = [33, 41]\noil.grade = "
        "\"75W-90 synthetic\"\nhousing.place = \"behind-skid-plate\"\nvehicle.mass = \"2000 "
        "kg\"\nvehicle.tyre = \"37 in\"\nvehicle.axle_ratio = 5.13\nvehicle.engine_power = \"500 "
        "hp\"\nevent.ambient = \"30 degC\"\nevent.course = \"graded\"\nevent.duration = \"5 h\"\n";
    const Document document(text, "case.toml", {});
    const auto range_of = [&](const std::vector<Change>& changes) {
        const Setup setup = document.complete(changes).setup;
        const Percentiles p = line_band(setup, assess(setup), {}).fitted.peak_oil_degC;
        CHECK(p.p10 <= p.p50);
        CHECK(p.p50 <= p.p90);
        return p;
    };
    const auto width_K = [&](const std::vector<Change>& changes) {
        const Percentiles p = range_of(changes);
        return p.p90 - p.p10;
    };
    const Percentiles before = range_of({});
    const double before_K = before.p90 - before.p10;
    constexpr double ambient_degC = 30;
    // What the draws themselves scatter by.
    constexpr double numeric_K = 0.3;
    for (const Change& change :
         {Change{"housing.exhaust", "\"none\""}, Change{"housing.exhaust_heat", "\"200 W\""},
          Change{"housing.neighbour", "\"gearbox\""}, Change{"housing.dirt", "\"dust\""},
          Change{"housing.dirt_thickness", "\"2 mm\""}, Change{"event.pace", "\"75 km/h\""},
          Change{"event.pace", "\"90 km/h\""}}) {
        CAPTURE(change.key);
        CAPTURE(change.toml);
        // A case that an entry makes hotter is as much wider in all that is still not known.
        const Percentiles p = range_of({change});
        const double hotter = (p.p50 - ambient_degC) / (before.p50 - ambient_degC);
        CHECK(p.p90 - p.p10 < before_K * std::max(hotter, 1.0) + numeric_K);
    }
    // All of them known: narrower by far.
    CHECK(width_K({{"housing.exhaust", "\"none\""},
                   {"housing.neighbour", "\"gearbox\""},
                   {"housing.dirt", "\"dust\""},
                   {"lubrication.drain", "\"fair\""},
                   {"event.pace", "\"80 km/h\""}}) < 0.9 * before_K);
}

}  // namespace caseload::coverage_tests
