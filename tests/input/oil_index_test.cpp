// SPDX-License-Identifier: MIT
// The built-in oils against a table of the world outside: their viscosity index, which no answer
// needs, must be one that oils of their base have.
#include "files.hpp"
#include "input/oils.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <locale>
#include <sstream>
#include <string>
#include <vector>

namespace caseload::oil_index_tests {

namespace {

/// Viscosity at 100 degC; at 40 degC of an oil of index 0 and of index 100.
struct Row {
    double Y;
    double L;
    double H;
};

std::vector<Row> basic_values() {
    std::vector<Row> rows;
    for (std::string line :
         test_files::lines(test_files::file_text(test_files::root + "tests/data/astm_d2270.csv"))) {
        std::replace(line.begin(), line.end(), ',', ' ');
        std::istringstream cells(line);
        cells.imbue(std::locale::classic());
        Row row{};
        if (cells >> row.Y >> row.L >> row.H) rows.push_back(row);  // skips comments and heading
    }
    return rows;
}

/// ASTM D2270: procedure A up to index 100, B above it; Y from 2 to 70 mm2/s, linear in the table.
double viscosity_index(double nu_40C_mm2ps, double nu_100C_mm2ps) {
    static const std::vector<Row> rows = basic_values();
    const auto above = std::upper_bound(rows.begin() + 1, rows.end() - 1, nu_100C_mm2ps,
                                        [](double at, const Row& row) { return at < row.Y; });
    const Row& low = *(above - 1);
    const double part = (nu_100C_mm2ps - low.Y) / (above->Y - low.Y);
    const double L = low.L + part * (above->L - low.L);
    const double H = low.H + part * (above->H - low.H);
    if (nu_40C_mm2ps >= H) return 100 * (L - nu_40C_mm2ps) / (L - H);
    const double N = std::log10(H / nu_40C_mm2ps) / std::log10(nu_100C_mm2ps);
    return 100 + (std::pow(10, N) - 1) / 0.00715;
}

double middle_mm2ps(const std::string& grade, const std::string& key) {
    return std::stod(input::oil_of_grade(grade).at(key).value.text);
}

}  // namespace

TEST_CASE("oils: the table of viscosity index gives the worked examples of its standard") {
    CHECK(basic_values().size() == 311);
    CHECK(std::nearbyint(viscosity_index(73.30, 8.86)) == 92);
    CHECK(std::nearbyint(viscosity_index(22.83, 5.05)) == 156);
    CHECK(std::nearbyint(viscosity_index(53.47, 7.80)) == 111);
}

TEST_CASE("oils: every grade has a viscosity index that oils of its base have") {
    // From memory: mineral gear oils 90 to 110, semi-synthetic up to 150; synthetic 130 to 200.
    for (const std::string& grade : input::oil_grades()) {
        CAPTURE(grade);
        const double index = viscosity_index(middle_mm2ps(grade, "oil.viscosity_40C"),
                                             middle_mm2ps(grade, "oil.viscosity_100C"));
        CAPTURE(index);
        const bool synthetic =
            input::oil_of_grade(grade).at("oil.base_oil").value.text == "synthetic";
        const bool semi = grade.find("semi") != std::string::npos;
        CHECK(index >= (synthetic ? 130 : 90));
        CHECK(index <= (synthetic ? 200 : semi ? 150 : 110));
    }
}

}  // namespace caseload::oil_index_tests
