// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_492.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <array>
#include <cstddef>

namespace caseload::iso_492 {
namespace {

struct Row {
    double to_mm;
    double lower_um;
};
constexpr std::array<Row, 5> rows{
    {{80, -13}, {120, -15}, {150, -18}, {180, -25}, {iso_286::largest_size_mm, -30}}};

}  // namespace

iso_286::Band outside_band_mm(double outside_mm) {
    require_within(outside_mm, {iso_286::least_size_mm, iso_286::largest_size_mm}, "outside_mm");
    std::size_t at = 0;
    while (outside_mm > rows.at(at).to_mm) ++at;
    return {.lower_mm = mm_from_um(rows.at(at).lower_um), .upper_mm = 0};
}

Interference seat_interference_mm(std::string_view hole_class, double outside_mm) {
    const iso_286::Band hole = iso_286::hole_band_mm(hole_class, outside_mm);
    const iso_286::Band ring = outside_band_mm(outside_mm);
    return {.least_mm = ring.lower_mm - hole.upper_mm, .largest_mm = ring.upper_mm - hole.lower_mm};
}

}  // namespace caseload::iso_492
