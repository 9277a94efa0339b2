// SPDX-License-Identifier: MIT
// Grades, density and oxidation life of oils.
#include "evidence/heat.hpp"

#include "caseload/formulas/astm_d1250.hpp"
#include "caseload/formulas/astm_d341.hpp"
#include "caseload/formulas/booser.hpp"
#include "caseload/formulas/iso_3448.hpp"
#include "caseload/formulas/sae_j306.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace caseload {
namespace {

/// Limits of the published table that our classification puts elsewhere.
double wrong_grades() {
    struct Row {
        double from;
        const char* name;
    };
    int wrong = 0;
    std::string_view below;
    for (const Row& row : {Row{3.8, "65"}, Row{5.0, "70"}, Row{6.5, "75"}, Row{8.5, "80"},
                           Row{11.0, "85"}, Row{13.5, "90"}, Row{18.5, "110"}, Row{24.0, "140"},
                           Row{32.5, "190"}, Row{41.0, "250"}}) {
        if (sae_j306::summer_grade(row.from) != row.name) ++wrong;
        if (sae_j306::summer_grade(row.from - 0.01) != below) ++wrong;
        below = row.name;
    }
    return wrong;
}

double wrong_classes() {
    struct Row {
        int name;
        double from;
        double to;
    };
    int wrong = 0;
    for (const Row& row :
         {Row{2, 1.98, 2.42}, Row{3, 2.88, 3.52}, Row{5, 4.14, 5.06}, Row{7, 6.12, 7.48},
          Row{10, 9.0, 11.0}, Row{15, 13.5, 16.5}, Row{22, 19.8, 24.2}, Row{32, 28.8, 35.2},
          Row{46, 41.4, 50.6}, Row{68, 61.2, 74.8}, Row{100, 90, 110}, Row{150, 135, 165},
          Row{220, 198, 242}, Row{320, 288, 352}, Row{460, 414, 506}, Row{680, 612, 748},
          Row{1000, 900, 1100}, Row{1500, 1350, 1650}}) {
        if (iso_3448::viscosity_class(row.from) != row.name) ++wrong;
        if (iso_3448::viscosity_class(row.to) != row.name) ++wrong;
        if (iso_3448::viscosity_class(row.from - 0.005)) ++wrong;
        if (iso_3448::viscosity_class(row.to + 0.005)) ++wrong;
    }
    return wrong;
}

/// A book's engine oil by the line through its viscosities at 40 and 100 degC.
double engine_oil_mm2ps(double temp_degC) {
    return astm_d341::viscosity_mm2ps(
        astm_d341::line({.nu_40C_mm2ps = 248.5, .nu_100C_mm2ps = 20.46}), temp_degC);
}

/// Its density from the one at 20 degC: the reference density is found with the same formula.
double engine_oil_kgpm3(double temp_degC) {
    double reference_kgpm3 = 888.1;
    for (int i = 0; i < 5; ++i)
        reference_kgpm3 *= 888.1 / astm_d1250::density_kgpm3(
                                       {.density_15C_kgpm3 = reference_kgpm3, .temp_degC = 20});
    return astm_d1250::density_kgpm3(
        {.density_15C_kgpm3 = reference_kgpm3, .temp_degC = temp_degC});
}

double worst_density_kgpm3() {
    double worst = 0;
    const double table[][3] = {{890, 60, 861.4980},
                               {890, 100, 835.7981},
                               {890, 120, 822.8439},
                               {860, 40, 844.2224},
                               {860, 100, 805.7731}};
    for (const auto& row : table)
        worst = std::max(worst, std::fabs(astm_d1250::density_kgpm3(
                                              {.density_15C_kgpm3 = row[0], .temp_degC = row[1]}) -
                                          row[2]));
    return worst;
}

double worst_life_share() {
    double worst = 0;
    const double table[][2] = {{80, 13815.8}, {90, 5888.36},  {110, 1222.46}, {120, 591.429},
                               {130, 296.63}, {140, 153.828}, {150, 82.2875}, {163, 38.0845}};
    for (const auto& row : table)
        worst = std::max(
            worst,
            std::fabs(booser::oxidation_life_h({.k1 = booser::k1_mineral, .temp_degC = row[0]}) /
                          row[1] -
                      1));
    return worst;
}

constexpr Calculation own_oil[] = {
    {"cengel-a13-viscosity-60", [] { return engine_oil_mm2ps(60); }},
    {"cengel-a13-viscosity-120", [] { return engine_oil_mm2ps(120); }},
    {"cengel-a13-viscosity-140", [] { return engine_oil_mm2ps(140); }},
    {"cengel-a13-density-100", [] { return engine_oil_kgpm3(100); }},
    {"sae-j306-limits", wrong_grades},
    {"iso-3448-limits", wrong_classes},
    {"astm-d1250-table", worst_density_kgpm3},
    {"booser-table", worst_life_share},
};

}  // namespace

std::span<const Calculation> oil_calculations() {
    return own_oil;
}

}  // namespace caseload
