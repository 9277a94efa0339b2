// SPDX-License-Identifier: MIT
#include "caseload/formulas/astm_d2270.hpp"

#include "caseload/error.hpp"
#include "caseload/tables.hpp"

#include <algorithm>
#include <cmath>
#include <locale>
#include <sstream>
#include <string>
#include <vector>

namespace caseload::astm_d2270 {
namespace {

struct Row {
    double Y;
    double L;
    double H;
};

constexpr double table_end_mm2ps = 70;

std::vector<Row> parsed() {
    std::istringstream text{std::string(embedded_table("astm_d2270.csv"))};
    std::vector<Row> rows;
    for (std::string line; std::getline(text, line);) {
        std::replace(line.begin(), line.end(), ',', ' ');
        std::istringstream cells(line);
        cells.imbue(std::locale::classic());
        Row row{};
        if (cells >> row.Y >> row.L >> row.H) rows.push_back(row);  // skips comments and heading
    }
    return rows;
}

const std::vector<Row>& table() {
    static const std::vector<Row> rows = parsed();
    return rows;
}

double interpolated(double Y, double Row::* value) {
    const auto& rows = table();
    const auto above = std::upper_bound(rows.begin() + 1, rows.end() - 1, Y,
                                        [](double at, const Row& row) { return at < row.Y; });
    const Row& low = *(above - 1);
    const Row& high = *above;
    return low.*value + (high.*value - low.*value) * (Y - low.Y) / (high.Y - low.Y);
}

void check(double nu_100C_mm2ps) {
    require_within(nu_100C_mm2ps, {2, 1e4}, "nu_100C_mm2ps");
}

}  // namespace

double L_mm2ps(double nu_100C_mm2ps) {
    check(nu_100C_mm2ps);
    const double Y = nu_100C_mm2ps;
    return Y <= table_end_mm2ps ? interpolated(Y, &Row::L) : 0.8353 * Y * Y + 14.67 * Y - 216;
}

double H_mm2ps(double nu_100C_mm2ps) {
    check(nu_100C_mm2ps);
    const double Y = nu_100C_mm2ps;
    return Y <= table_end_mm2ps ? interpolated(Y, &Row::H) : 0.1684 * Y * Y + 11.85 * Y - 97;
}

double viscosity_index(const astm_d341::TwoPoints& points) {
    const double U = points.nu_40C_mm2ps;
    const double Y = points.nu_100C_mm2ps;
    check(Y);
    require_within(U, {Y, 1e7}, "nu_40C_mm2ps");
    const double H = H_mm2ps(Y);
    if (U >= H) return 100 * (L_mm2ps(Y) - U) / (L_mm2ps(Y) - H);
    const double N = std::log10(H / U) / std::log10(Y);
    return 100 + (std::pow(10, N) - 1) / 0.00715;
}

int rounded_index(double index) {
    require_within(index, {-1e6, 1e6}, "index");
    return static_cast<int>(std::nearbyint(index));  // default rounding mode: halves to even
}

double nu_40C_mm2ps(const HundredAndIndex& oil) {
    require_within(oil.index, {-100, 400}, "index");
    const double H = H_mm2ps(oil.nu_100C_mm2ps);
    const double L = L_mm2ps(oil.nu_100C_mm2ps);
    if (oil.index <= 100) return L - oil.index * (L - H) / 100;
    const double N = std::log10(1 + 0.00715 * (oil.index - 100));
    return H / std::pow(oil.nu_100C_mm2ps, N);
}

}  // namespace caseload::astm_d2270
