// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_3448.hpp"

#include "caseload/error.hpp"

namespace caseload::iso_3448 {
namespace {

struct Class {
    int name;
    double midpoint_mm2ps;
};

constexpr Class classes[] = {
    {2, 2.2},   {3, 3.2},   {5, 4.6},     {7, 6.8},     {10, 10},     {15, 15},     {22, 22},
    {32, 32},   {46, 46},   {68, 68},     {100, 100},   {150, 150},   {220, 220},   {320, 320},
    {460, 460}, {680, 680}, {1000, 1000}, {1500, 1500}, {2200, 2200}, {3200, 3200},
};

}  // namespace

std::optional<int> viscosity_class(double nu_40C_mm2ps) {
    require_positive(nu_40C_mm2ps, "nu_40C_mm2ps");
    for (const Class& c : classes)
        // Limits as printed, to the last bit: 198 to 242 belongs to 220.
        if (nu_40C_mm2ps >= c.midpoint_mm2ps * 0.9 * (1 - 1e-12) &&
            nu_40C_mm2ps <= c.midpoint_mm2ps * 1.1 * (1 + 1e-12))
            return c.name;
    return std::nullopt;
}

}  // namespace caseload::iso_3448
