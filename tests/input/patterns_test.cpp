// SPDX-License-Identifier: MIT
// The built-in patterns can be made of metal.
#include "input/setup_files.hpp"
#include "support.hpp"

#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/loads.hpp"
#include "caseload/tables.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::patterns_tests {

using namespace caseload::input_test;

namespace {

Setup of_pattern(const std::string& pattern, const std::string& teeth) {
    std::string text = shortest();
    text.replace(text.find("two-gear-185mm"), 14, pattern);
    text.replace(text.find("[33, 41]"), 8, teeth);
    return read(text).setup;
}

}  // namespace

TEST_CASE("patterns: every one of tables/patterns is tested here") {
    int count = 0;
    for (const EmbeddedTable& table : embedded_tables())
        if (table.path.substr(0, 9) == "patterns/") ++count;
    CHECK(count == 3);
}

TEST_CASE("patterns: gears, bearings and housing fit each other") {
    for (const auto& [pattern, teeth] :
         {std::pair<std::string, std::string>{"two-gear-185mm", "[33, 41]"},
          {"two-gear-185mm", "[30, 44]"},
          {"two-gear-215mm", "[39, 47]"},
          {"two-gear-215mm", "[35, 51]"}}) {
        CAPTURE(pattern);
        CAPTURE(teeth);
        const Setup s = of_pattern(pattern, teeth);
        const double a_mm = s.transfer_case.centre_distance_mm[0];
        CHECK(s.gears.module_mm * (s.gears.teeth[0] + s.gears.teeth[1]) / 2 ==
              a_mm);  // no profile shift
        const double tip_mm =
            s.gears.module_mm * (*std::max_element(s.gears.teeth.begin(), s.gears.teeth.end()) + 2);
        // Either way round, the larger gear clears the walls by a millimetre at least.
        const double inside = 2 * s.housing.wall_mm + 2;
        CHECK(s.housing.across_mm >= tip_mm + inside);
        CHECK(s.housing.high_mm >= a_mm + tip_mm + inside);
        for (const std::string& shaft : s.gears.train) {
            std::vector<const BearingInput*> on;
            for (const BearingInput& bearing : s.bearings)
                if (bearing.shaft == shaft) on.push_back(&bearing);
            REQUIRE(on.size() == 2);
            const double gear_mm = s.shafts.at(shaft).gear_at_mm;
            const double half_mm = (on[0]->width_mm + s.gears.face_width_mm) / 2;
            CHECK(gear_mm - on[0]->at_mm > half_mm);  // straddled, with room
            CHECK(on[1]->at_mm - gear_mm > half_mm);
            CHECK(on[0]->at_mm >= on[0]->width_mm / 2);  // behind the front inside face
            CHECK(on[1]->at_mm + on[1]->width_mm / 2 <= s.housing.along_mm - 2 * s.housing.wall_mm);
            // Twenty millimetres of wall between bearings of the two shafts; seals inside the
            // bores.
            CHECK(a_mm - on[0]->outside_mm >= 20);
            for (const SealInput& seal : s.seals) CHECK(seal.diameter_mm <= on[0]->bore_mm);
        }
        double share = 0;
        for (const JointInput& joint : s.joints) share += joint.torque_share;
        CHECK(share == rel(1, 1e-12));
    }
}

TEST_CASE("patterns: the idler's gears, bearings and housing fit each other") {
    // Smallest and largest idler the pattern names, with the largest mates that still mesh.
    for (const std::string teeth :
         {"[28, 36, 39]", "[27, 38, 38]", "[37, 28, 48]", "[31, 33, 42]"}) {
        CAPTURE(teeth);
        const Setup s = of_pattern("three-gear-idler", teeth);
        const Train train = place_train(s);
        for (const iso_21771::Finding& finding : train.findings)
            CHECK(finding.severity == iso_21771::Finding::Severity::note);
        double left = 0, right = 0, low = 0, high = 0;
        for (const ShaftPlace& shaft : train.shafts) {
            const double tip_mm = shaft.tip_diameter_mm / 2;
            left = std::min(left, shaft.y_mm - tip_mm);
            right = std::max(right, shaft.y_mm + tip_mm);
            low = std::min(low, shaft.z_mm - tip_mm);
            high = std::max(high, shaft.z_mm + tip_mm);
        }
        const double walls = 2 * s.housing.wall_mm + 2;  // a millimetre of air each side
        CHECK(right - left + walls <= s.housing.across_mm);
        CHECK(high - low + walls <= s.housing.high_mm);
        // Straddled: pressure centres of the tapered ones lie 12 mm outside their middle.
        for (const ShaftPlace& shaft : train.shafts) {
            REQUIRE(shaft.bearings.size() == 2);
            for (const int b : shaft.bearings) {
                const BearingInput& bearing = s.bearings[static_cast<std::size_t>(b)];
                const bool front = bearing.at_mm < shaft.gear_at_mm;
                const double inwards = bearing.big_end ? 12 : 0;
                const double middle_mm = bearing.at_mm + (front ? inwards : -inwards);
                CHECK(std::fabs(middle_mm - shaft.gear_at_mm) >
                      (bearing.width_mm + s.gears.face_width_mm) / 2);
                CHECK(middle_mm >= bearing.width_mm / 2);
                CHECK(middle_mm + bearing.width_mm / 2 <=
                      s.housing.along_mm - 2 * s.housing.wall_mm);
                if (bearing.big_end) CHECK((*bearing.big_end == Facing::front) == front);
            }
        }
        // Fifteen millimetres of wall between the bearings of neighbours.
        for (std::size_t i = 0; i < 2; ++i)
            CHECK(
                s.transfer_case.centre_distance_mm[i] -
                    (s.bearings[static_cast<std::size_t>(train.shafts[i].bearings[0])].outside_mm +
                     s.bearings[static_cast<std::size_t>(train.shafts[i + 1].bearings[0])]
                         .outside_mm) /
                        2 >=
                15);
    }
    // The pressure centre as the cup's contact circle gives it: 12 mm and the roller's place.
    const Setup s = of_pattern("three-gear-idler", "[28, 36, 39]");
    CHECK(within(std::tan(16 * pi / 180) * (70.0 + 110) / 4, 12, 1));
    CHECK(*s.bearings[2].contact_angle_deg == 16);
}

TEST_CASE("patterns: bearing sizes are of ISO 15, diameter series 0, width series 1") {
    // Dimension plan of ISO 15: 90 bore 140 x 24, 110 bore 170 x 28. From memory.
    const Setup small = of_pattern("two-gear-185mm", "[33, 41]");
    const Setup large = of_pattern("two-gear-215mm", "[39, 47]");
    for (const BearingInput& bearing : small.bearings) {
        CHECK(bearing.bore_mm == 90);
        CHECK(bearing.outside_mm == 140);
        CHECK(bearing.width_mm == 24);
    }
    for (const BearingInput& bearing : large.bearings) {
        CHECK(bearing.bore_mm == 110);
        CHECK(bearing.outside_mm == 170);
        CHECK(bearing.width_mm == 28);
    }
    // The idler pattern: every size stands in the table of ISO 15 or ISO 355 sizes.
    for (const BearingInput& bearing : of_pattern("three-gear-idler", "[28, 36, 39]").bearings)
        CHECK(bearing_estimate::is_standard_size(bearing.kind, {.bore_mm = bearing.bore_mm,
                                                                .outside_mm = bearing.outside_mm,
                                                                .width_mm = bearing.width_mm}));
}

}  // namespace caseload::patterns_tests
