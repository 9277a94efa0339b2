// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_6336_5.hpp"

#include "caseload/error.hpp"
#include "input/fields.hpp"
#include "support.hpp"

#include <algorithm>

namespace caseload::iso_6336_5 {

TEST_CASE("iso-6336-5 material the stress numbers, from memory") {
    CHECK(iso_6336_5::material("carburised-ML").sigma_Hlim_MPa == 1300);
    CHECK(iso_6336_5::material("carburised-ML").sigma_Flim_MPa == 312);
    CHECK(iso_6336_5::material("carburised-MQ").sigma_Hlim_MPa == 1500);
    CHECK(iso_6336_5::material("carburised-MQ").sigma_Flim_MPa == 461);
    CHECK(iso_6336_5::material("carburised-ME").sigma_Hlim_MPa == 1650);
    CHECK(iso_6336_5::material("carburised-ME").sigma_Flim_MPa == 525);
    CHECK_THROWS_WITH_AS((void)iso_6336_5::material("butter"),
                         "unknown gear steel \"butter\"; known: carburised-ML, carburised-MQ, "
                         "carburised-ME",
                         Error);
}

TEST_CASE("iso-6336-5 names a setup accepts exactly the steels of the table") {
    const auto fields = input::fields();
    const auto field = std::find_if(fields.begin(), fields.end(),
                                    [](const auto& f) { return f.key == "gears.material"; });
    REQUIRE(field != fields.end());
    CHECK(input::split_words(field->accepted) == iso_6336_5::material_names());
}

}  // namespace caseload::iso_6336_5
