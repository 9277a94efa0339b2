// SPDX-License-Identifier: MIT
#include "input/quantity.hpp"
#include "support.hpp"

#include <set>
#include <string>

namespace caseload::input {

namespace {

double value(Measure measure, const std::string& text) {
    const Quantity read = read_quantity(measure, text);
    CAPTURE(text);
    CAPTURE(read.problem);
    REQUIRE(read.ok);
    return read.value;
}

std::string problem(Measure measure, const std::string& text) {
    const Quantity read = read_quantity(measure, text);
    CAPTURE(text);
    CHECK_FALSE(read.ok);
    return read.problem;
}

}  // namespace

// Factors printed in NIST SP 811 (2008), appendix B.8 (and B.9 for the ones it derives). Bold there
// means exact; the tolerance is half a unit of the last printed digit, 1e-15 for exact ones.
TEST_CASE("units: each unit once against NIST SP 811") {
    struct Row {
        Measure measure;
        const char* text;
        double expected;
        double relative;
    };
    const double exact = 1e-15;
    const Row rows[] = {
        {Measure::length_mm, "1 mm", 1, exact},
        {Measure::length_mm, "1 um", 0.001, exact},
        {Measure::length_mm, "1 cm", 10, exact},
        {Measure::length_mm, "1 m", 1000, exact},
        {Measure::length_mm, "1 km", 1e6, exact},
        {Measure::length_mm, "1 in", 25.4, exact},
        {Measure::length_mm, "1 inch", 25.4, exact},
        {Measure::length_mm, "1 inches", 25.4, exact},
        {Measure::length_mm, "1 ft", 304.8, exact},
        {Measure::length_mm, "1 mi", 1609344, exact},
        {Measure::length_mm, "1 mile", 1609344, exact},
        {Measure::length_mm, "1 miles", 1609344, exact},
        {Measure::distance_m, "1 mi", 1609.344, exact},
        {Measure::roughness_um, "1 mm", 1000, exact},
        {Measure::torque_Nm, "1 Nm", 1, exact},
        {Measure::torque_Nm, "1 kNm", 1000, exact},
        {Measure::torque_Nm, "1 lbfft", 1.355818, 4e-7},
        {Measure::torque_Nm, "1 lbft", 1.355818, 4e-7},
        {Measure::torque_Nm, "1 lbsft", 1.355818, 4e-7},
        {Measure::torque_Nm, "1 ftlb", 1.355818, 4e-7},
        {Measure::torque_Nm, "1 ftlbs", 1.355818, 4e-7},
        {Measure::torque_Nm, "1 ftlbf", 1.355818, 4e-7},
        {Measure::turning_rpm, "1 r/min", 1, exact},
        {Measure::turning_rpm, "1 rpm", 1, exact},
        {Measure::turning_rpm, "1 1/min", 1, exact},
        {Measure::turning_rpm, "1 /min", 1, exact},
        {Measure::turning_rpm, "1 rad/s", 1 / 0.1047198, 5e-7},  // 1 rpm = 1.047198 E-01 rad/s
        {Measure::speed_mps, "1 m/s", 1, exact},
        {Measure::speed_mps, "1 km/h", 0.2777778, 2e-7},
        {Measure::speed_mps, "1 kph", 0.2777778, 2e-7},
        {Measure::speed_mps, "1 mph", 0.44704, exact},
        {Measure::temp_degC, "1 degC", 1, exact},
        {Measure::temp_degC, "1 C", 1, exact},
        {Measure::temp_degC, "212 degF", 100, exact},
        {Measure::temp_degC, "212 F", 100, exact},
        {Measure::difference_K, "1 K", 1, exact},
        {Measure::mass_kg, "1 kg", 1, exact},
        {Measure::mass_kg, "1 g", 0.001, exact},
        {Measure::mass_kg, "1 t", 1000, exact},
        {Measure::mass_kg, "1 lb", 0.45359237, exact},
        {Measure::mass_kg, "1 lbs", 0.45359237, exact},
        {Measure::power_W, "1 W", 1, exact},
        {Measure::power_W, "1 kW", 1000, exact},
        {Measure::power_W, "1 hp", 745.6999, 1e-7},  // horsepower (550 ft lbf/s)
        {Measure::power_W, "1 bhp", 745.6999, 1e-7},
        {Measure::power_W, "1 PS", 735.4988, 1e-7},  // horsepower (metric)
        {Measure::flow_Lpmin, "1 L/min", 1, exact},
        {Measure::flow_Lpmin, "1 lpm", 1, exact},
        {Measure::flow_Lpmin, "1 gpm", 60 * 0.06309020, 8e-8},  // 6.309020 E-05 m3/s
        {Measure::flow_Lpmin, "1 gal/min", 60 * 0.06309020, 8e-8},
        {Measure::pressure_Pa, "1 Pa", 1, exact},
        {Measure::pressure_Pa, "1 kPa", 1000, exact},
        {Measure::pressure_Pa, "1 MPa", 1e6, exact},
        {Measure::pressure_Pa, "1 bar", 1e5, exact},
        {Measure::pressure_Pa, "1 psi", 6894.757, 1e-7},
        {Measure::volume_L, "1 L", 1, exact},
        {Measure::volume_L, "1 ml", 0.001, exact},
        {Measure::volume_L, "1 qt", 0.9463529, 6e-8},
        {Measure::volume_L, "1 gal", 3.785412, 2e-7},
        {Measure::viscosity_mm2ps, "1 mm2/s", 1, exact},
        {Measure::viscosity_mm2ps, "1 cSt", 1, exact},
        {Measure::density_kgpm3, "1 kg/m3", 1, exact},
        {Measure::density_kgpm3, "1 g/cm3", 1000, exact},
        {Measure::density_kgpm3, "1 kg/L", 1000, exact},
        {Measure::time_s, "1 s", 1, exact},
        {Measure::time_s, "1 sec", 1, exact},
        {Measure::time_s, "1 min", 60, exact},
        {Measure::time_s, "1 h", 3600, exact},
        {Measure::time_s, "1 hour", 3600, exact},
        {Measure::time_s, "1 hours", 3600, exact},
        {Measure::angle_deg, "1 deg", 1, exact},
        {Measure::angle_deg, "1 rad", 1 / 0.01745329, 2e-7},
        {Measure::force_N, "1 N", 1, exact},
        {Measure::force_N, "1 kN", 1000, exact},
        {Measure::force_N, "1 lbf", 4.448222, 2e-7},
        {Measure::film_Wpm2K, "1 W/m2K", 1, exact},
        {Measure::turns_per_km, "1 /km", 1, exact},
        {Measure::turns_per_km, "1 1/km", 1, exact},
        {Measure::turns_per_km, "1 rev/km", 1, exact},
        {Measure::turns_per_km, "1609.344 /mi", 1000, exact},
        {Measure::turns_per_km, "1609.344 1/mi", 1000, exact},
        {Measure::turns_per_km, "1609.344 rev/mi", 1000, exact},
        {Measure::events, "1 events", 1, exact},
        {Measure::events, "1 event", 1, exact},
        {Measure::area_m2, "1 m2", 1, exact},
        {Measure::area_m2, "1 ft2", 0.09290304, exact},
        {Measure::conductance_WpK, "1 W/K", 1, exact},
        // SI prefixes, table 5 there: 1e6 N/m both.
        {Measure::stiffness_Npum, "1 N/um", 1, exact},
        {Measure::stiffness_Npum, "1 kN/mm", 1, exact},
        {Measure::slope_mmpm, "1 mm/m", 1, exact},
        {Measure::slope_mmpm, "1 mrad", 1, exact},
        {Measure::slope_mmpm, "1 deg", 17.45329, 2e-7},
        {Measure::pitch_per_in, "1 /in", 1, exact},
        {Measure::pitch_per_in, "1 1/in", 1, exact},
    };
    std::set<std::string> seen;
    for (const Row& row : rows) {
        CAPTURE(row.text);
        CHECK(value(row.measure, row.text) == rel(row.expected, row.relative));
        const std::string text(row.text);
        seen.insert(std::to_string(static_cast<int>(words_of(row.measure).kind)) +
                    text.substr(text.find(' ')));
    }
    // No unit of the table goes without its row here.
    for (const Unit& unit : units_table()) {
        const std::string name =
            std::to_string(static_cast<int>(unit.kind)) + " " + std::string(unit.spelling);
        CAPTURE(name);
        CHECK(seen.count(name) == 1);
    }
}

TEST_CASE("units: the unit a value is kept in does not change it") {
    // 0.1 + 0.2 style drift would show in the completed file.
    CHECK(value(Measure::length_mm, "88.9 mm") == 88.9);
    CHECK(value(Measure::roughness_um, "0.4 um") == 0.4);
    CHECK(value(Measure::distance_m, "600 m") == 600);
    CHECK(value(Measure::temp_degC, "38.5 degC") == 38.5);
}

TEST_CASE("units: the ways people write them") {
    for (const char* text : {"820 N m", "820Nm", "820 N·m", "820 N*m", "820 N-m", "820 N.m",
                             "820 NM", "8.2e2 Nm", "0.82 kN m", "820\xC2\xA0N m"})
        CHECK(value(Measure::torque_Nm, text) == rel(820, 1e-15));
    for (const char* text :
         {"605 lb-ft", "605 lbf ft", "605 ft-lb", "605 lb·ft", "605 ft lbf", "605 LB-FT"})
        CHECK(value(Measure::torque_Nm, text) == rel(605 * 1.3558179483314004, 1e-12));
    for (const char* text : {"-5 °C", "-5 degC", "-5 deg C", "-5 C", "-5C",
                             "\xE2\x88\x92"
                             "5 °C",
                             "23 °F", "23 deg F", "23 degF", "23F"})
        CHECK(value(Measure::temp_degC, text) == rel(-5, 1e-14));
    for (const char* text : {"200 W/m2K", "200 W/(m2 K)", "200 W/(m²·K)", "200 W/m^2K"})
        CHECK(value(Measure::film_Wpm2K, text) == 200);
    CHECK(value(Measure::roughness_um, "0.4 µm") == 0.4);
    CHECK(value(Measure::roughness_um, "0.4 μm") == 0.4);
    CHECK(value(Measure::viscosity_mm2ps, "105 mm²/s") == 105);
    CHECK(value(Measure::density_kgpm3, "868 kg/m³") == 868);
    CHECK(value(Measure::angle_deg, "4°") == 4);
    CHECK(value(Measure::volume_L, "2.6 l") == 2.6);
    CHECK(value(Measure::speed_mps, "36 KM/H") == rel(10, 1e-15));
    CHECK(value(Measure::share, "35 %") == rel(0.35, 1e-15));
    CHECK(value(Measure::length_mm, ".5 mm") == 0.5);
}

TEST_CASE("units: a unit with two meanings gets a note, one with one meaning none") {
    CHECK(read_quantity(Measure::power_W, "650 hp").note.find("745.7 W") != std::string::npos);
    CHECK(read_quantity(Measure::power_W, "650 PS").note.find("735.5 W") != std::string::npos);
    CHECK(read_quantity(Measure::flow_Lpmin, "2 gpm").note.find("US gallons") != std::string::npos);
    CHECK(read_quantity(Measure::volume_L, "3 qt").note.find("US quarts") != std::string::npos);
    CHECK(read_quantity(Measure::power_W, "480 kW").note.empty());
    // A megapascal is not a millipascal.
    CHECK(value(Measure::pressure_Pa, "1 MPa") == 1e6);
    CHECK(problem(Measure::pressure_Pa, "1 mPa") == "\"mPa\" is not a unit known here");
}

TEST_CASE("numbers: a comma between digits is refused, with both numbers it could be") {
    const Quantity decimal = read_quantity(Measure::length_mm, "4,5 mm");
    CHECK_FALSE(decimal.ok);
    CHECK(decimal.hint == "write \"4.5 mm\" or \"45 mm\"");
    CHECK(read_quantity(Measure::torque_Nm, "1,350 N m").hint ==
          "write \"1.350 N m\" or \"1350 N m\"");
    CHECK(problem(Measure::mass_kg, "1,234,567 kg") == "commas between digits are not read");
    CHECK(problem(Measure::mass_kg, "1.234,5 kg") == "commas between digits are not read");
}

TEST_CASE("numbers: a text that is no number is refused") {
    for (const char* text : {"", " ", "kg", "-", ".", "e5 kg", "1..2 kg", "--1 kg", "1e999 kg",
                             "nan kg", "inf kg", "0x10 kg"})
        CHECK_FALSE(read_quantity(Measure::mass_kg, text).ok);
    CHECK_FALSE(read_quantity(Measure::mass_kg, "1e308 t").ok);  // overflows in kilograms
    CHECK(problem(Measure::mass_kg, "1 350 kg") == "there is a blank inside the number");
    CHECK(problem(Measure::share, "35") == "a share is a bare number or text in %");
}

TEST_CASE("kinds: a quantity is not read in a unit of another kind") {
    // Each measure reads its own example, and no measure reads the example of another kind.
    for (int a = static_cast<int>(Measure::length_mm); a <= static_cast<int>(Measure::pitch_per_in);
         ++a)
        for (int b = static_cast<int>(Measure::length_mm);
             b <= static_cast<int>(Measure::pitch_per_in); ++b) {
            const MeasureWords& words_a = words_of(static_cast<Measure>(a));
            const MeasureWords& words_b = words_of(static_cast<Measure>(b));
            CAPTURE(words_a.unit);
            CAPTURE(words_b.example);
            const bool reads =
                read_quantity(static_cast<Measure>(a), std::string(words_b.example)).ok;
            CHECK(reads == (words_a.kind == words_b.kind));
        }
    CHECK(read_quantity(Measure::difference_K, "27 degF").hint ==
          "write the difference in K: \"15 K\"");
    CHECK(read_quantity(Measure::temp_degC, "311.15 K").hint == "write degC or degF: \"38 degC\"");
}

TEST_CASE("kinds: every unit offered in a hint is read") {
    for (int m = static_cast<int>(Measure::length_mm); m <= static_cast<int>(Measure::pitch_per_in);
         ++m) {
        const MeasureWords& words = words_of(static_cast<Measure>(m));
        std::string list(words.accepted);
        for (std::size_t at = 0; at < list.size();) {
            const std::size_t end = std::min(list.find(", ", at), list.size());
            const std::string unit = list.substr(at, end - at);
            CAPTURE(unit);
            CHECK(read_quantity(static_cast<Measure>(m), "1 " + unit).ok);
            at = end + 2;
        }
        CHECK(read_quantity(static_cast<Measure>(m), "1 " + std::string(words.unit)).value == 1);
    }
}

TEST_CASE("sizes: three lengths and their unit") {
    for (const char* text : {"90x140x24 mm", "90 x 140 x 24 mm", "90×140×24mm", "90X140X24 mm",
                             "9x14x2.4 cm", "90 mm x 140 mm x 24 mm", "9 cm x 140 x 24 mm"}) {
        const ThreeLengths read = read_size(text);
        CAPTURE(text);
        REQUIRE(read.ok);
        CHECK(read.mm[0] == rel(90, 1e-15));
        CHECK(read.mm[1] == rel(140, 1e-15));
        CHECK(read.mm[2] == rel(24, 1e-15));
    }
    for (const char* text : {"", "90x140 mm", "90x140x24", "90x140x24 kg", "90x140x24x1 mm",
                             "90,5x140x24 mm", "axbxc mm", "90x140x mm"})
        CHECK_FALSE(read_size(text).ok);
}

}  // namespace caseload::input
