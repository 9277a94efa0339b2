// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_286.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <array>
#include <cstddef>

namespace caseload::iso_286 {
namespace {

struct Row {
    double to_mm;
    std::array<double, 3> IT_um;  // grades 5, 6, 7
    double k_um;                  // lower deviations of shafts, for grades 4 to 7
    double n_um;
    double p_um;
    std::array<double, 2> J_um;  // upper deviations of bores J6, J7
};
// ISO 286-1:2010 tables 1, 4, 5 and ISO 286-2 table 6, from memory. m is IT7 - IT6.
constexpr std::array<Row, 4> rows{{{80, {13, 19, 30}, 2, 20, 32, {13, 18}},
                                   {120, {15, 22, 35}, 3, 23, 37, {16, 22}},
                                   {180, {18, 25, 40}, 3, 27, 43, {18, 26}},
                                   {largest_size_mm, {20, 29, 46}, 4, 31, 50, {22, 30}}}};

const Row& row_of(double size_mm) {
    require_within(size_mm, {least_size_mm, largest_size_mm}, "size_mm");
    std::size_t at = 0;
    while (size_mm > rows.at(at).to_mm) ++at;
    return rows.at(at);
}

double shaft_deviation_um(const Row& row, char letter) {
    switch (letter) {
        case 'K':
            return row.k_um;
        case 'M':
            return row.IT_um[2] - row.IT_um[1];
        case 'N':
            return row.n_um;
        default:
            return row.p_um;
    }
}

}  // namespace

bool is_hole_class(std::string_view name) {
    return name.size() == 2 && std::string_view("HJKMNP").find(name[0]) != std::string_view::npos &&
           (name[1] == '6' || name[1] == '7');
}

Band hole_band_mm(std::string_view name, double size_mm) {
    if (!is_hole_class(name))
        throw Error(Error::Kind::domain,
                    fmt::format("{}: bores are known in H, J, K, M, N, P of grades 6 and 7", name));
    const Row& row = row_of(size_mm);
    const std::size_t grade = name[1] == '6' ? 1 : 2;
    const double width_um = row.IT_um.at(grade);
    double upper_um = width_um;
    if (name[0] == 'J') upper_um = row.J_um.at(grade - 1);
    if (name[0] != 'H' && name[0] != 'J')
        upper_um = width_um - row.IT_um.at(grade - 1) - shaft_deviation_um(row, name[0]);
    return {.lower_mm = mm_from_um(upper_um - width_um), .upper_mm = mm_from_um(upper_um)};
}

}  // namespace caseload::iso_286
